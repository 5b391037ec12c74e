#include <algorithm>
#include <tuple>
#include <utility>

#include "base/text.hpp"
#include "report/sections/charts.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

using assessment::Calculation;
using assessment::Figure;

/// All calculations of one id, which share formula, source and caveat.
struct Topic {
    std::string id;
    std::vector<const Calculation*> members;
};

std::vector<Topic> grouped(const assessment::Calculations& all) {
    std::vector<Topic> groups;
    for (const Calculation& one : all) {
        auto group = std::find_if(groups.begin(), groups.end(), [&](const Topic& known) { return known.id == one.id; });
        if (group == groups.end()) group = groups.insert(groups.end(), Topic{one.id, {}});
        group->members.push_back(&one);
    }
    return groups;
}

/// Anything to tell but that nothing was measured.
bool has_something(const Topic& group) {
    return group.id == "photo-scale" || std::any_of(group.members.begin(), group.members.end(), [](const auto* one) {
               return one->has_result() || !one->doubts.empty();
           });
}

class Section {
 public:
    Section(const Material& material, Blocks& blocks)
        : material_(material), words_(material.trade.wording), blocks_(blocks) {}

    void write(const Topic& group) {
        add(blocks_, Heading{Level::section, group.members.front()->title, "", "calc-" + group.id, ""});
        for (Illustration& chart : charts_of(group.members, material_)) add(blocks_, std::move(chart));
        if (group.id == "photo-scale") photo_sum(group);
        else rows(group);
        notes(group);
    }

    void wanted() {
        const auto list = assessment::wanted(material_.calculations);
        add(blocks_, Heading{Level::section, words_("calc.wanted"), words_("calc.wanted.remark"), "calc-wanted", ""});
        if (list.empty()) return add(blocks_, Paragraph{words_("calc.wanted.none"), Tone::body});
        Table table;
        table.small = true;
        table.columns = {{words_("calc.head.wanted"), 0.4, Align::left, true},
                         {words_("calc.head.for"), 0.17, Align::left},
                         {words_("calc.head.where"), 0.43, Align::left}};
        RowGroup group;
        for (const assessment::Wanted& one : list) {
            Row row;
            row.cells.resize(3);
            row.cells[0].lines = {one.name};
            row.cells[1].lines = {words_.listed(one.calculations)};
            row.cells[2].lines = {where(one)};
            group.rows.push_back(std::move(row));
        }
        table.groups = {std::move(group)};
        add(blocks_, std::move(table));
    }

 private:
    static std::string called(const Figure& figure) { return figure.symbol.empty() ? figure.name : figure.symbol; }
    /// "K factor of the construction"
    static std::string named(const Figure& figure) {
        return figure.symbol.empty() ? figure.name : figure.symbol + " " + figure.name;
    }
    std::string text(const Figure& figure) const { return assessment::text_of(figure, material_.units, words_); }

    /// "d 12.00 mm; t 8.0 mm; not measured: e"
    std::string working_of(const Calculation& one) const {
        std::vector<std::string> known, unknown;
        for (const Figure& figure : one.inputs)
            if (figure.known()) known.push_back(called(figure) + " " + text(figure));
            else add_once(unknown, called(figure));
        if (!unknown.empty()) known.push_back(said(words_, words_("calc.not-measured"), join(unknown, ", ")));
        return join(known, "; ");
    }

    void rows(const Topic& group) {
        Table table;
        table.columns = {{"", 0.18, Align::left, true}, {"", 0.35, Align::left}, {"", 0.47, Align::left}};
        if (!headed_) {  // the same columns in all that follow
            table.columns[0].head = words_("calc.head.subject");
            table.columns[1].head = words_("calc.head.inputs");
            table.columns[2].head = words_("calc.head.results");
        }
        table.small = true;
        RowGroup all;
        std::vector<std::string> without;
        for (const Calculation* one : group.members) {
            if (!one->has_result() && one->doubts.empty()) {
                add_once(without, one->subject);
                continue;
            }
            Row fresh = row(*one);
            const auto same = std::find_if(all.rows.begin(), all.rows.end(),
                                           [&](const Row& known) { return says_the_same(known, fresh); });
            const bool counted = group.id == "quantities";  // each of its own size: as many of one as of the other
            if (counted || same == all.rows.end()) all.rows.push_back(std::move(fresh));
            else same->cells[0].lines.front() += ", " + one->subject;
        }
        if (!all.rows.empty()) {
            headed_ = true;
            table.groups = {std::move(all)};
            add(blocks_, std::move(table));
        }
        without_ = without.empty() ? std::string() : words_("calc.none-of", {{"subjects", join(without, "; ")}});
    }

    /// Its name; where another has the same and another formula, with its own.
    static std::string told_apart(const Figure& figure, const std::vector<Figure>& all) {
        const bool alone = std::none_of(all.begin(), all.end(), [&](const Figure& other) {
            return other.name == figure.name && other.symbol != figure.symbol;
        });
        return alone || figure.symbol.empty() ? figure.name : figure.name + " (" + figure.symbol + ")";
    }

    /// The same figures out of the same figures: one row, which names all that they are of.
    static bool says_the_same(const Row& a, const Row& b) {
        const auto& [of_a, from_a, result_a] = std::tie(a.cells[0].lines, a.cells[1].lines, a.cells[2].lines);
        const auto& [of_b, from_b, result_b] = std::tie(b.cells[0].lines, b.cells[1].lines, b.cells[2].lines);
        return of_a.size() == 1 && of_b.size() == 1 && from_a == from_b && result_a == result_b;
    }

    Row row(const Calculation& one) const {
        Row row;
        row.cells.resize(3);
        row.cells[0].lines = {capitalised(one.subject)};
        row.cells[1].lines = {working_of(one)};
        if (one.id == "galvanic") add_places(one, row.cells[1]);
        std::vector<std::string> results;
        for (const Figure& figure : one.results)
            results.push_back(said(words_, told_apart(figure, one.results), text(figure)));
        if (!results.empty()) row.cells[2].lines.push_back(join(results, "; "));
        for (const auto* remarks : {&one.doubts, &one.remarks})
            for (const std::string& remark : *remarks) row.cells[2].lines.push_back(remark);
        return row;
    }

    void add_places(const Calculation& one, Cell& cell) const {
        constexpr std::size_t few = 4;
        std::vector<std::string> ids = one.about;
        const std::size_t more = ids.size() > few ? ids.size() - few : 0;
        ids.resize(ids.size() - more);
        cell.lines.push_back(join(ids, ", ") +
                             (more > 0 ? " " + words_("calc.wanted.more", {{"n", std::to_string(more)}}) : ""));
    }

    /// "K factor of the construction: …; V1 …, V2 …: …", each source once.
    static void add_source(std::vector<std::pair<std::string, std::vector<std::string>>>& sources,
                           const Figure& figure) {
        if (!figure.known() || figure.source.empty()) return;
        for (auto& [source, symbols] : sources)
            if (source == figure.source) return add_once(symbols, named(figure));
        sources.push_back({figure.source, {named(figure)}});
    }

    void notes(const Topic& group) {
        std::vector<std::string> formulas, general;
        std::vector<std::pair<std::string, std::vector<std::string>>> sources;
        for (const Calculation* one : group.members) {
            if (!one->has_result() && group.id != "photo-scale") continue;
            add_once(formulas, one->formula);
            for (const Figure& figure : one->inputs) add_source(sources, figure);
            for (const std::string& note : one->notes) add_once(general, note);
        }
        const Calculation& first = *group.members.front();
        if (formulas.empty()) formulas.push_back(first.formula);
        std::string text = words_("calc.formula", {{"formula", join(formulas, " | ")}}) + ". " +
                           words_("calc.source", {{"source", first.source}}) + ".";
        std::vector<std::string> inputs;
        for (const auto& [source, symbols] : sources) inputs.push_back(said(words_, join(symbols, ", "), source));
        if (!inputs.empty()) text += " " + words_("calc.input-sources", {{"sources", join(inputs, "; ")}}) + ".";
        general.insert(general.begin(), std::move(text));
        if (!without_.empty()) general.insert(general.begin(), std::exchange(without_, {}));
        general.push_back(first.caveat);
        add(blocks_, Paragraph{join(general, " "), Tone::note});
    }

    /// One line for all photos: the register has each.
    void photo_sum(const Topic& group) {
        std::optional<double> least, most;
        std::size_t known = 0, fine = 0;
        const double hairline = material_.trade.tables.constant("hairline").value;
        for (const Calculation* one : group.members) {
            const Figure& scale = one->result("scale");
            const Figure& line = one->result("finest-line");
            if (!scale.value || !line.value) continue;
            ++known;
            fine += *line.value <= hairline;
            least = least ? std::min(*least, *scale.value) : *scale.value;
            most = most ? std::max(*most, *scale.value) : *scale.value;
        }
        const std::string all = std::to_string(group.members.size());
        if (!least || !most) return add(blocks_, Paragraph{words_("calc.photos.none", {{"n", all}}), Tone::body});
        const auto shown = [&](double value, int decimals) {
            return words_.numbers(printed(value, Unit::millimetre, decimals, material_.units));
        };
        add(blocks_, Paragraph{words_("calc.photos.sum", {{"n", all},
                                                          {"known", std::to_string(known)},
                                                          {"least", shown(*least, 3)},
                                                          {"most", shown(*most, 3)},
                                                          {"fine", std::to_string(fine)},
                                                          {"hairline", shown(hairline, 1)}}),
                               Tone::body});
    }

    std::string where(const assessment::Wanted& one) const {
        constexpr std::size_t few = 3;
        if (one.of.empty()) return words_("calc.wanted.yacht");
        std::vector<std::string> ids(one.of.begin(), one.of.begin() + static_cast<long>(std::min(few, one.of.size())));
        const std::string more =
            one.of.size() > few ? " " + words_("calc.wanted.more", {{"n", std::to_string(one.of.size() - few)}}) : "";
        return join(ids, ", ") + more;
    }

    const Material& material_;
    const trade::Wording& words_;
    Blocks& blocks_;
    std::string without_;  ///< what of the group had nothing measured
    bool headed_ = false;  ///< the columns have been named
};

}  // namespace

void calculations(const Material& material, Blocks& blocks) {
    const trade::Wording& words = material.trade.wording;
    add(blocks, Paragraph{words("calc.intro"), Tone::intro});
    Section section(material, blocks);
    std::vector<std::string> empty;
    for (const Topic& group : grouped(material.calculations))
        if (has_something(group)) section.write(group);
        else empty.push_back(group.members.front()->title);
    if (!empty.empty()) {
        add(blocks, Heading{Level::section, words("calc.empty"), "", "calc-empty", ""});
        add(blocks, Paragraph{join(empty, " · "), Tone::body});
    }
    section.wanted();
}

}  // namespace rigdeed::report
