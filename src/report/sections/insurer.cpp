#include <algorithm>
#include <iterator>

#include "assessment/age.hpp"
#include "base/text.hpp"
#include "report/finding_drawing.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

using assessment::FittingVerdict;

/// What an underwriter looks for, on one page: out of the other chapters, nothing that is not told there.
class InsurerPage {
 public:
    InsurerPage(const Material& material, Blocks& blocks)
        : material_(material), words_(material.trade.wording), blocks_(blocks), answer_(answer_plate(material)) {}

    void write() {
        if (!answer_.statement.empty())
            add(blocks_, Paragraph{join(answered(), ". ") + ". " + answer_.detail, Tone::small});
        stays();
        add(blocks_, Paragraph{words_("insurer.intro"), Tone::small});
        others();
        seen();
        const std::size_t last = blocks_.size();
        facts();
        add(blocks_, Space{is_full() ? 4_pt : 12_pt});
        LinesToWriteOn sign;
        sign.lines = {{words_("insurer.sign.surveyor"), 0.4},
                      {words_("insurer.sign.date"), 0.2},
                      {words_("insurer.sign.owner"), 0.4}};
        add(blocks_, sign);
        Together together;  // nobody signs a page with nothing else on it
        together.blocks.assign(std::make_move_iterator(blocks_.begin() + static_cast<std::ptrdiff_t>(last)),
                               std::make_move_iterator(blocks_.end()));
        blocks_.resize(last);
        add(blocks_, std::move(together));
        add(blocks_, Space{1_pt});  // they stay with the page, not with what follows
    }

 private:
    void stays() {
        Table table;
        table.small = true;
        table.columns = {
            {words_("sizes.head.stay"), 0.27, Align::left, true}, {words_("insurer.head.age"), 0.25, Align::left},
            {words_("sizes.head.bottom"), 0.16, Align::left},     {words_("sizes.head.top"), 0.16, Align::left},
            {words_("insurer.head.load"), 0.07, Align::right},    {words_("rig.head.verdict"), 0.09, Align::right}};
        RowGroup group;
        for (const survey::Stay& stay : material_.survey.stays) group.rows.push_back(row(stay));
        if (group.rows.empty()) return;
        table.groups = {std::move(group)};
        add(blocks_, std::move(table));
    }

    /// Findings are numbered by how urgent they are.
    static bool more_urgent(const FittingVerdict& one, const FittingVerdict& other) {
        if (one.verdict != other.verdict) return one.verdict > other.verdict;
        return one.number > 0 && (other.number == 0 || one.number < other.number);
    }

    Row row(const survey::Stay& stay) const {
        Row row;
        row.cells.resize(6);
        row.cells[0].bold = capitalised(trade::stay_name(stay, material_.trade));
        row.cells[0].lines = {made_of(stay)};
        row.cells[1].lines = age(stay);
        row.cells[2].lines = {worst_at(stay, true)};
        row.cells[3].lines = {worst_at(stay, false)};
        row.cells[4].lines = {load_factor(stay)};
        const FittingVerdict* worst = nullptr;
        for (const FittingVerdict& one : material_.assessment.fittings)
            if (one.stay == &stay && (worst == nullptr || more_urgent(one, *worst))) worst = &one;
        row.cells[5].lines = {worst != nullptr ? verdict_word(worst->verdict, words_) : std::string("–")};
        if (worst != nullptr && worst->number > 0) row.link = finding_anchor(worst->number);
        return row;
    }

    /// "1×19 strand, 316, 8 mm": short, that each stay takes two lines.
    std::string made_of(const survey::Stay& stay) const {
        const trade::Make* make = material_.trade.make(stay.make);
        const bool by_number = !stay.alloy.empty() && stay.alloy.front() >= '0' && stay.alloy.front() <= '9';
        return (make != nullptr ? make->name : stay.make) + ", " +
               (by_number ? stay.alloy : material_.trade.material_name(stay.alloy)) + ", " +
               words_.numbers(stay.diameter.text);
    }

    /// "fitted April 2012, owner's word; past the custom"
    std::vector<std::string> age(const survey::Stay& stay) const {
        if (!stay.fitted) return {words_("rig.age-unknown")};
        std::vector<std::string> lines{words_.date(*stay.fitted) + ", " +
                                       words_("rig.by." + survey::name_of(*stay.age_source))};
        const assessment::Age age = assessment::age_of(stay, material_.survey.attendance.on, material_.trade);
        if (age == assessment::Age::past) lines.push_back(words_("insurer.age.past"));
        if (age == assessment::Age::far_past) lines.push_back(words_("insurer.age.far-past"));
        return lines;
    }

    /// The most urgent fitting at the stay's lower end, or at its upper one: its verdict, number and name.
    std::string worst_at(const survey::Stay& stay, bool bottom) const {
        const FittingVerdict* worst = nullptr;
        for (const FittingVerdict& one : material_.assessment.fittings)
            if (one.stay == &stay &&
                trade::at_lower_end(*one.fitting, stay, material_.survey, material_.trade) == bottom &&
                (worst == nullptr || more_urgent(one, *worst)))
                worst = &one;
        if (worst == nullptr) return "–";
        const std::string verdict = verdict_word(worst->verdict, words_);
        if (worst->number == 0) return verdict;
        return said(words_, verdict + " " + std::to_string(worst->number), worst->own_name);
    }

    std::string load_factor(const survey::Stay& stay) const {
        for (const assessment::Calculation& one : material_.calculations)
            if (std::find(one.about.begin(), one.about.end(), stay.id) != one.about.end())
                if (const assessment::Figure* factor = one.find_result("safety"); factor != nullptr && factor->known())
                    return assessment::text_of(*factor, material_.units, words_);
        return "–";
    }

    /// So many stays, or so much besides, that what follows them is told in lines.
    bool is_full() const {
        std::size_t told = material_.survey.stays.size();
        for (const FittingVerdict& one : material_.assessment.fittings)
            told += (was_not_seen(one) || one.milder_than_told() || (one.number > 0 && one.stay == nullptr)) ? 1U : 0U;
        return material_.survey.stays.size() > 9 || told > 20;
    }

    std::vector<std::string> answered() const {
        std::vector<std::string> said{answer_.statement};
        if (!answer_.climb.empty()) said.push_back(answer_.climb);
        return said;
    }

    /// What stands in no row above: masts, spreaders, what else a rig has.
    void others() {
        std::vector<std::string> urgent;
        for (const std::size_t i : material_.assessment.findings) {
            const FittingVerdict& one = material_.assessment.fittings[i];
            if (one.stay != nullptr || one.verdict < Verdict::rectify) continue;
            urgent.push_back(
                said(words_, verdict_word(one.verdict, words_) + " " + std::to_string(one.number), one.name));
        }
        section("insurer.others", shortened(urgent, is_full() ? 6 : 12));
    }

    void seen() {
        std::vector<std::string> not_seen, milder, flags;
        for (const FittingVerdict& one : material_.assessment.fittings) {
            if (was_not_seen(one)) not_seen.push_back(one.name);
            if (one.milder_than_told()) milder.push_back(told_milder(one));
            for (const trade::JudgedSign& sign : one.signs)
                if (is_limit(*sign.rule, material_.trade) && one.number > 0)
                    add_once(flags, words_("works.of-item", {{"fitting", said(words_, one.name, sign.rule->name)},
                                                             {"n", std::to_string(one.number)}}));
        }
        section("insurer.limits", not_seen.empty()
                                      ? told_seen(material_)
                                      : said(words_, told_seen(material_), shortened(not_seen, is_full() ? 4 : 8)));
        if (flags.empty() && milder.empty()) {
            const std::string none = words_("insurer.none");
            add(blocks_, Paragraph{said(words_, capitalised(words_("insurer.flags")), none) + " " +
                                       said(words_, capitalised(words_("insurer.milder")), none),
                                   Tone::small});
            return;
        }
        section("insurer.flags", shortened(flags));
        section("insurer.milder", shortened(milder));
    }

    std::string told_milder(const FittingVerdict& one) const {
        const std::string verdicts = verdict_word(one.told, words_) + " → " + verdict_word(one.verdict, words_);
        const std::string because = one.fitting->verdict ? one.fitting->verdict->because : std::string();
        return said(words_, one.name + ", " + verdicts, because.empty() ? "–" : because);
    }

    /// The page is one: the rest stands in its chapter.
    std::string shortened(const std::vector<std::string>& all, std::size_t most = 8) const {
        if (all.empty()) return words_("insurer.none");
        std::string text = join({all.begin(), all.begin() + static_cast<long>(std::min(most, all.size()))}, "; ");
        if (all.size() > most) text += " " + words_("calc.wanted.more", {{"n", std::to_string(all.size() - most)}});
        return text;
    }

    void section(const char* key, const std::string& text) {
        if (text == words_("insurer.none") || is_full()) {  // a line is enough
            add(blocks_, Paragraph{said(words_, capitalised(words_(key)), text), Tone::small});
            return;
        }
        add(blocks_, Heading{Level::minor, capitalised(words_(key)), "", "", ""});
        add(blocks_, Paragraph{capitalised(text), Tone::small});
    }

    void facts() {
        const survey::Survey& survey = material_.survey;
        const auto stated = [&](const std::string& text) { return text.empty() ? words_("scope.not-stated") : text; };
        Facts facts;
        facts.columns = 4;
        facts.facts = {
            {words_("insurer.valid"), {words_.date(survey.attendance.on), words_("insurer.valid.text")}},
            {words_("insurer.next"), {words_.date(material_.assessment.watch_by), words_("insurer.next.text")}},
            {words_("scope.surveyor.indemnity"), {stated(survey.surveyor.indemnity)}},
            {words_("scope.surveyor.standards"),
             {stated(survey.attendance.standards), words_("insurer.no-valuation")}}};
        add(blocks_, std::move(facts));
        section("history.statement", stated(survey.history.statement));
    }

    const Material& material_;
    const trade::Wording& words_;
    Blocks& blocks_;
    AnswerPlate answer_;
};

}  // namespace

void insurer(const Material& material, Blocks& blocks) { InsurerPage(material, blocks).write(); }

}  // namespace rigdeed::report
