#include <algorithm>

#include "assessment/advice.hpp"
#include "assessment/sizes.hpp"
#include "base/text.hpp"
#include "report/open_names.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

using assessment::FittingVerdict;

/// The worst sign's rule, or nothing where no sign speaks.
const trade::SignRule* leading_rule(const FittingVerdict& one) {
    return one.signs.empty() ? nullptr : one.signs.front().rule;
}

std::string work_title(const Material& material, const FittingVerdict& one) {
    const trade::Wording& words = material.trade.wording;
    const auto with = assessment::goes_with(one, material.assessment);
    if (with && (one.signs.empty() || assessment::worse_than_signs(one) != nullptr) && !one.consequences.empty())
        return words("renewed.with-stay.work");
    if (const assessment::Consequence* worse = assessment::worse_than_signs(one))
        return capitalised(filled_rule(worse->rule->work, one, *worse, material));
    if (const trade::SignRule* rule = leading_rule(one))
        return capitalised(filled_rule(rule->work, one, material.trade));
    if (!one.consequences.empty())
        return capitalised(filled_rule(one.consequences.front().rule->work, one, one.consequences.front(), material));
    if (one.verdict == Verdict::unseen) return words("works.unseen", {{"fitting", one.name}});
    return words("works.as-watched", {{"fitting", one.name}});
}

std::vector<std::string> work_lines(const Material& material, const FittingVerdict& one) {
    const trade::Wording& words = material.trade.wording;
    std::vector<std::string> lines{said(words, one.name, finding_sentence(material, one))};
    if (one.renewed_with) lines.push_back(words("works.with", {{"n", std::to_string(*one.renewed_with)}}));
    else if (const trade::SignRule* rule = leading_rule(one);
             rule != nullptr && assessment::asks(one.signs.front(), one))
        lines.push_back(filled_rule(rule->act, one, material.trade));
    for (const assessment::Consequence& consequence : one.consequences)
        if (std::string advice = assessment::advice_of(consequence, one, material.assessment, material.trade);
            !advice.empty())
            lines.push_back(std::move(advice));
    if (lines.size() > 2) lines = {lines.front(), said_once({lines.begin() + 1, lines.end()})};
    return lines;
}

bool concerns_stay(const FittingVerdict& one) {
    const trade::SignRule* rule = leading_rule(one);
    return one.stay != nullptr && ((rule != nullptr && rule->renews_stay) || rule == nullptr);
}

std::vector<std::string> end_lines(const assessment::EndSizes& end, const trade::Trade& trade) {
    const trade::Wording& words = trade.wording;
    std::vector<std::string> lines;
    if (!end.terminal.empty()) {
        const trade::Kind* kind = trade.kind(end.terminal);
        lines.push_back(kind != nullptr ? kind->name : end.terminal);
    }
    if (!end.form.empty()) lines.push_back(words("sizes.form." + end.form));
    if (!end.pin.empty()) lines.push_back(words("sizes.pin", {{"size", words.numbers(end.pin)}}));
    if (!end.thread.empty()) lines.push_back(words("sizes.thread", {{"thread", words.numbers(end.thread)}}));
    if (!end.hand.empty()) lines.push_back(words("sizes.hand." + end.hand));
    if (!end.toggle.empty()) lines.push_back(words("sizes.toggle." + end.toggle));
    if (!end.hole.empty()) lines.push_back(words("sizes.hole", {{"size", words.numbers(end.hole)}}));
    return {join(lines, ", ")};
}

/// Out of the schedule: both ends where the whole stay is renewed, else the end that the fitting belongs to; and what
/// a rigger still has to measure.
void add_ends(const Material& material, const FittingVerdict& one, std::vector<std::string>& lines) {
    const trade::Wording& words = material.trade.wording;
    if (one.stay == nullptr || one.verdict <= Verdict::watch) return;
    for (const assessment::StaySizes& sizes : assessment::schedule_of_sizes(material.survey, material.trade)) {
        if (sizes.stay != one.stay) continue;
        const bool whole = assessment::renews_stay(one);
        const auto end = [&](const char* key, const assessment::EndSizes& known) {
            const std::string line = end_lines(known, material.trade).front();
            if (!line.empty()) lines.push_back(said(words, words(key), line));
        };
        const bool low = trade::at_lower_end(*one.fitting, *one.stay, material.survey, material.trade);
        if (whole || low) end("sizes.head.bottom", sizes.bottom);
        if (whole || !low) end("sizes.head.top", sizes.top);
        if (!whole || sizes.wanted.empty()) continue;
        std::vector<std::string> wanted;
        for (const std::string& key : sizes.wanted) wanted.push_back(words("sizes.want." + key));
        lines.push_back(said(words, words("sizes.head.wanted"), join(wanted, ", ")));
    }
}

/// What to quote from: how many, the stay's make, size and length, the fitting's metal and what was measured on it.
std::vector<std::string> size_lines(const Material& material, const FittingVerdict& one) {
    const trade::Wording& words = material.trade.wording;
    std::vector<std::string> lines;
    if (one.stay != nullptr) lines.push_back(stay_words(*one.stay, material.trade));
    if (assessment::renews_stay(one))
        for (const survey::Stay& other : material.survey.stays)
            if (material.trade.are_pair(*one.stay, other) || material.trade.are_pair(other, *one.stay))
                lines.push_back(words("works.opposite", {{"stay", trade::stay_name(other, material.trade)}}));
    if (concerns_stay(one))
        lines.push_back(one.stay->length ? words("works.length", {{"length", words.numbers(one.stay->length->text)}})
                                         : words("works.no-length"));
    add_ends(material, one, lines);
    if (!one.fitting->metal.empty() && one.fitting->metal != "other" && !concerns_stay(one))
        lines.push_back(said(words, one.kind->name, material.trade.material_name(one.fitting->metal)));
    for (const survey::Measured& measured : one.fitting->measured)
        lines.push_back(measured_words(measured, material.trade));
    return lines;
}

Row work_row(const Material& material, const FittingVerdict& one) {
    Row row;
    row.link = finding_anchor(one.number);
    row.anchor = work_anchor(one.number);
    row.cells.resize(6);
    row.cells[0].mark = VerdictMark{one.verdict, one.number};
    row.cells[1].bold = work_title(material, one);
    row.cells[1].lines = work_lines(material, one);
    row.cells[2].lines = size_lines(material, one);
    row.cells[3].lines = place_lines(material, one);
    row.height = one.fitting->height.quantity.value / 1000;
    row.cells[4].page_of = row.link;
    row.cells[5].line_to_write_on = true;
    return row;
}

/// What would stand in the list for this finding, its stay and fitting left open.
struct Pattern {
    std::string title;
    std::vector<std::string> lines;

    bool operator==(const Pattern&) const = default;
};

Pattern pattern_of(const Material& material, const FittingVerdict& one) {
    const auto open = [&](std::string text) { return names_open(std::move(text), one, material.trade); };
    Pattern pattern{open(work_title(material, one)), {}};
    for (const std::string& line : work_lines(material, one)) pattern.lines.push_back(open(line));
    return pattern;
}

/// Findings that ask for the same work: one line of the list, which names them.
struct Alike {
    Pattern pattern;
    std::vector<const FittingVerdict*> findings;
};

Row work_row(const Material& material, const Alike& alike) {
    const trade::Wording& words = material.trade.wording;
    Row row = work_row(material, *alike.findings.front());
    if (alike.findings.size() == 1) return row;
    std::vector<std::string> stays, fittings;
    const survey::Fitting* low = alike.findings.front()->fitting;
    const survey::Fitting* high = low;
    row.cells[2].lines.clear();
    std::vector<std::pair<std::string, std::vector<std::string>>> sizes;  // and the items they are of
    row.anchor.clear();
    for (const FittingVerdict* one : alike.findings) {
        row.anchor += (row.anchor.empty() ? "" : " ") + work_anchor(one->number);
        if (one->stay != nullptr) add_once(stays, trade::stay_name(*one->stay, material.trade));
        fittings.push_back(words("works.of-item", {{"fitting", one->name}, {"n", std::to_string(one->number)}}));
        for (const std::string& line : size_lines(material, *one)) {
            const auto known =
                std::find_if(sizes.begin(), sizes.end(), [&](const auto& size) { return size.first == line; });
            if (known == sizes.end()) sizes.push_back({line, {std::to_string(one->number)}});
            else known->second.push_back(std::to_string(one->number));
        }
        if (one->fitting->height.quantity < low->height.quantity) low = one->fitting;
        if (one->fitting->height.quantity > high->height.quantity) high = one->fitting;
    }
    for (const auto& [line, items] : sizes)  // what is not of all says of which it is
        row.cells[2].lines.push_back(items.size() == alike.findings.size()
                                         ? line
                                         : words("works.of-item", {{"fitting", line}, {"n", words.listed(items)}}));
    const auto whole = [&](const std::string& text) { return names_filled(text, stays, fittings, words); };
    row.cells[1].bold = whole(alike.pattern.title);
    row.cells[1].lines.clear();
    for (const std::string& line : alike.pattern.lines) row.cells[1].lines.push_back(whole(line));
    std::vector<std::string> places;
    for (const FittingVerdict* one : alike.findings) add_once(places, place_lines(material, *one).front());
    if (low != high)
        row.cells[3].lines = {words("works.at-heights", {{"low", words.numbers(low->height.text)},
                                                         {"high", words.numbers(high->height.text)}})};
    if (low != high && places.size() < 4)
        row.cells[3].lines.insert(row.cells[3].lines.begin(), places.begin(), places.end());
    return row;
}

/// What is looked at again alike stands together, at the place of the most urgent; all other work has a line of its
/// own.
std::vector<Alike> alike(const Material& material, const std::vector<const FittingVerdict*>& findings) {
    std::vector<Alike> all;
    for (const FittingVerdict* one : findings) {
        Alike fresh{pattern_of(material, *one), {one}};
        const auto known = std::find_if(all.begin(), all.end(), [&](const Alike& other) {
            return one->verdict == Verdict::watch && other.pattern == fresh.pattern;
        });
        if (known == all.end()) all.push_back(std::move(fresh));
        else known->findings.push_back(one);
    }
    return all;
}

/// What bars climbing and is to be renewed or rectified goes before all else.
bool comes_first(const FittingVerdict& one) {
    return one.bars_climbing && (one.verdict == Verdict::renew || one.verdict == Verdict::rectify);
}

/// The works of one verdict, those that come first or the others; in the order of the findings.
RowGroup works_of(const Material& material, Verdict verdict, bool first) {
    const trade::Wording& words = material.trade.wording;
    const std::string key = first ? "works.group.climb" : "works.group." + survey::name_of(verdict);
    RowGroup group{words(key, {{"date", words.date(material.assessment.watch_by)}}),
                   first ? verdict_word(verdict, words) : std::string(),
                   {}};
    std::vector<const FittingVerdict*> findings;
    for (const std::size_t i : material.assessment.findings) {
        const FittingVerdict& one = material.assessment.fittings[i];
        if (one.verdict == verdict && comes_first(one) == first) findings.push_back(&one);
    }
    for (const Alike& one : alike(material, findings)) group.rows.push_back(work_row(material, one));
    return group;
}

/// Each group of the list that has lines, in their order.
template <class Take>
void for_each_group(const Material& material, Take take) {
    for (const bool first : {true, false})
        for (const Verdict verdict : survey::worst_first) {
            if (verdict == Verdict::sound) continue;  // no finding
            RowGroup group = works_of(material, verdict, first);
            if (!group.rows.empty()) take(std::move(group), verdict, first);
        }
}

/// What a rigger orders from, a stay a line.
void schedule(const Material& material, Blocks& blocks) {
    const trade::Wording& words = material.trade.wording;
    Table table;
    table.small = true;
    table.columns = {{words("sizes.head.stay"), 0.3, Align::left, true},
                     {words("sizes.head.bottom"), 0.21, Align::left},
                     {words("sizes.head.top"), 0.17, Align::left},
                     {words("sizes.head.wanted"), 0.32, Align::left}};
    RowGroup group;
    for (const assessment::StaySizes& sizes : assessment::schedule_of_sizes(material.survey, material.trade)) {
        Row row;
        row.cells.resize(4);
        row.cells[0].bold = capitalised(trade::stay_name(*sizes.stay, material.trade));
        row.cells[0].lines = {stay_words(*sizes.stay, material.trade)};
        if (sizes.stay->length)
            row.cells[0].lines.front() +=
                "; " + words("works.length", {{"length", words.numbers(sizes.stay->length->text)}});
        row.cells[0].lines.front() +=
            "; " + (sizes.stay->breaking_load
                        ? words("sizes.certificate", {{"load", words.numbers(sizes.stay->breaking_load->text)}})
                        : words("rig.load-none"));
        row.cells[1].lines = end_lines(sizes.bottom, material.trade);
        row.cells[2].lines = end_lines(sizes.top, material.trade);
        std::vector<std::string> wanted;
        for (const std::string& key : sizes.wanted) wanted.push_back(words("sizes.want." + key));
        row.cells[3].lines = {join(wanted, ", ")};
        group.rows.push_back(std::move(row));
    }
    if (group.rows.empty()) return;
    table.groups = {std::move(group)};
    add(blocks, Heading{Level::section, words("sizes.title"), words("sizes.remark"), "sizes", ""});
    add(blocks, std::move(table));
}

}  // namespace

namespace {

/// Sizes one after another, and the place under what the work is: half as high as a line and a column for each.
void close_up(Row& row) {
    if (row.cells[2].lines.size() > 1) row.cells[2].lines = {join(row.cells[2].lines, "; ")};
    std::vector<std::string>& lines = row.cells[1].lines;
    if (lines.empty()) lines.emplace_back();
    lines.front() +=
        (lines.front().empty() ? "" : " · ") + join(row.cells[3].lines, row.cells[3].lines.size() > 2 ? " · " : ", ");
    row.cells.erase(row.cells.begin() + 3);
}

}  // namespace

void works_list(const Material& material, Blocks& blocks) {
    const trade::Wording& words = material.trade.wording;
    Table table;
    table.small = true;
    table.columns = {{"", 0.065, Align::left},
                     {words("works.head.work"), 0.49, Align::left, true},
                     {words("works.head.size"), 0.27, Align::left},
                     {words("works.head.page"), 0.055, Align::right},
                     {words("works.head.done"), 0.12, Align::right}};
    for_each_group(material, [&](RowGroup group, Verdict, bool) {
        for (Row& row : group.rows) close_up(row);
        table.groups.push_back(std::move(group));
    });
    add(blocks, Paragraph{words(table.groups.empty() ? "works.none" : "works.intro"), Tone::intro});
    if (!table.groups.empty()) add(blocks, std::move(table));
    schedule(material, blocks);
}

std::string gap_name(const Material& material, const completeness::Note& gap) {
    if (gap.fitting.empty()) return material.trade.wording("gaps.survey");
    for (const FittingVerdict& one : material.assessment.fittings)
        if (one.fitting->id == gap.fitting) return capitalised(one.name);
    const survey::Stay* stay = material.survey.stay(gap.fitting);
    return stay != nullptr ? capitalised(trade::stay_name(*stay, material.trade)) : gap.fitting;
}

std::vector<WorkLine> works_in_order(const Material& material) {
    std::vector<WorkLine> lines;
    for_each_group(material, [&](const RowGroup& group, Verdict verdict, bool first) {
        for (const Row& row : group.rows)
            lines.push_back({row.cells[0].mark->number, verdict, first, row.cells[1].bold,
                             row.cells[1].lines.empty() ? std::string() : row.cells[1].lines.front()});
    });
    return lines;
}

void gaps(const Material& material, Blocks& blocks) {
    if (material.completeness.complete()) return;
    const trade::Wording& words = material.trade.wording;
    add(blocks, Paragraph{words("gaps.intro"), Tone::intro});
    Table table;
    table.columns = {{words("gaps.head.where"), 0.35, Align::left, true}, {words("gaps.head.what"), 0.65, Align::left}};
    RowGroup group;
    for (const completeness::Note& gap : material.completeness.gaps) {
        Row row;
        row.cells.resize(2);
        row.cells[0].bold = gap_name(material, gap);
        row.cells[1].lines = {gap.what};
        group.rows.push_back(std::move(row));
    }
    table.groups = {group};
    add(blocks, std::move(table));
}

}  // namespace rigdeed::report
