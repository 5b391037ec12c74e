#include <algorithm>

#include "base/text.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

using assessment::FittingVerdict;

std::string method(const Material& material) {
    const survey::Attendance& attendance = material.survey.attendance;
    const std::vector<Filling> because{{"because", attendance.because}};
    switch (attendance.climbed) {
        case survey::Climbed::yes:
            return attendance.because.empty() ? material.trade.wording("scope.climbed")
                                              : material.trade.wording("scope.other-way", because);
        case survey::Climbed::no: return material.trade.wording("scope.unstepped", because);
        case survey::Climbed::stopped: return material.trade.wording("scope.stopped", because);
    }
    return {};
}

Row row_of(std::string bold, std::string line) {
    Row row;
    row.cells.resize(2);
    row.cells[0].bold = std::move(bold);
    row.cells[1].lines = {std::move(line)};
    return row;
}

Table two_columns(RowGroup group, double share = 0.33, bool small = false) {
    Table table;
    table.small = small;
    table.columns = {{"", share, Align::left, true}, {"", 1 - share, Align::left}};
    table.groups = {std::move(group)};
    return table;
}

/// The second half of the rows beside the first.
Table four_columns(RowGroup group, double share) {
    const std::size_t half = (group.rows.size() + 1) / 2;
    for (std::size_t i = half; i < group.rows.size(); ++i)
        for (Cell& cell : group.rows[i].cells) group.rows[i - half].cells.push_back(std::move(cell));
    group.rows.resize(half);
    for (Row& row : group.rows) row.cells.resize(4);
    Table table;
    table.small = true;
    for (int side = 0; side < 2; ++side)
        table.columns.insert(table.columns.end(),
                             {{"", share, Align::left, true}, {"", 0.5 - share, Align::left, false}});
    table.groups = {std::move(group)};
    return table;
}

/// What no visual inspection sees of the kinds that this rig has.
std::string hidden_parts(const Material& material) {
    std::vector<std::string> parts;
    for (const trade::Kind& kind : material.trade.kinds) {
        const bool present = std::any_of(material.survey.fittings.begin(), material.survey.fittings.end(),
                                         [&](const auto& fitting) { return fitting.kind == kind.id; });
        if (present && kind.hidden != "none")
            parts.push_back(said(material.trade.wording, capitalised(kind.name), kind.hidden));
    }
    return parts.empty() ? std::string() : join(parts, ". ") + ".";
}

/// "starboard backstay"; "spreader tip, spreader-1"
std::string absent_name(const survey::Absent& absent, const Material& material) {
    const trade::Trade& trade = material.trade;
    survey::Stay stay;
    stay.role = absent.role;
    stay.side = absent.side.value_or(survey::Side::centre);
    stay.mast = absent.mast;
    if (absent.kind.empty()) return trade::stay_name(stay, trade);
    survey::Fitting fitting;
    fitting.kind = absent.kind;
    fitting.side = absent.side;
    fitting.mast = absent.mast;
    std::string name = trade::own_name(fitting, survey::Survey{}, trade);
    const survey::Stay* of = material.survey.stay(absent.stay);
    if (of != nullptr || !absent.role.empty())
        name = trade.wording("name.of-stay",
                             {{"stay", trade::stay_name(of != nullptr ? *of : stay, trade)}, {"fitting", name}});
    return absent.station.empty() ? name : name + ", " + absent.station;
}

std::string sign_name(const std::string& code, const FittingVerdict& one, const Material& material) {
    const trade::Kind* kind = material.trade.kind(one.fitting->kind);
    const trade::SignRule* rule = kind != nullptr ? material.trade.sign(*kind, code) : nullptr;
    return rule != nullptr ? rule->name : code;
}

/// Who surveyed, and on what footing: what was not stated is said to be so.
RowGroup surveyor(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    const survey::Surveyor& who = material.survey.surveyor;
    const auto stated = [&](const std::string& text) { return text.empty() ? words("scope.not-stated") : text; };
    RowGroup group{words("scope.surveyor"), who.name, {}};  // the firm's letterhead is on the cover
    group.rows.push_back(row_of(words("scope.surveyor.qualification"), stated(who.qualification)));
    group.rows.push_back(row_of(words("scope.surveyor.independence"), stated(who.independence)));
    group.rows.push_back(row_of(words("scope.surveyor.indemnity"), stated(who.indemnity)));
    group.rows.push_back(row_of(words("scope.surveyor.standards"), stated(material.survey.attendance.standards)));
    return group;
}

RowGroup not_seen(const Material& material) {
    RowGroup group{material.trade.wording("scope.not-seen"), {}, {}};
    for (const FittingVerdict& one : material.assessment.fittings) {
        if (!one.unseen_because.empty()) group.rows.push_back(row_of(capitalised(one.name), one.unseen_because));
        else if (one.verdict == Verdict::unseen)
            group.rows.push_back(row_of(capitalised(one.name), finding_sentence(material, one)));
    }
    return group;
}

/// What the surveyor declares: what this rig has not, what one pass did not see, in spite of what somebody climbed, why
/// photos are not as the rules ask.
RowGroup declared(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    const survey::Survey& survey = material.survey;
    RowGroup group{words("scope.declared"), {}, {}};
    const auto add_row = [&](std::string what, const std::string& because) {
        group.rows.push_back(row_of(capitalised(std::move(what)), because));
    };
    for (const survey::Absent& absent : survey.absent)
        add_row(words("scope.declared.absent", {{"what", absent_name(absent, material)}}), absent.because);
    for (const FittingVerdict& one : material.assessment.fittings) {
        for (const survey::NotSeenIn& pass : one.fitting->not_seen_in)
            add_row(words("scope.declared.not-seen." + survey::name_of(pass.pass), {{"what", one.name}}), pass.reason);
        for (const survey::ClimbedDespite& climbed : one.fitting->climbed_despite)
            add_row(
                words("scope.declared.climbed", {{"what", one.name}, {"sign", sign_name(climbed.sign, one, material)}}),
                climbed.because);
        for (const survey::Seen& seen : one.fitting->seen)
            if (!seen.because.empty()) add_row(words("scope.declared.pair", {{"what", one.name}}), seen.because);
    }
    std::vector<std::string> days;
    for (const Date& day : survey.photos.dated) days.push_back(words.date(day));
    if (!days.empty()) add_row(words("scope.declared.dated", {{"days", words.listed(days)}}), survey.photos.because);
    if (survey.photos.undated) add_row(words("scope.declared.undated"), survey.photos.because);
    const bool other_way = survey.attendance.climbed == survey::Climbed::yes && !survey.attendance.because.empty();
    if (other_way) add_row(words("scope.declared.way"), survey.attendance.because);
    return group;
}

RowGroup disagreements(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    RowGroup group{words("scope.differ"), {}, {}};
    for (const FittingVerdict& one : material.assessment.fittings) {
        if (!one.passes_differ) continue;
        const auto word = [&](survey::Way pass) { return verdict_word(trade::worst_in(one.signs, pass), words); };
        group.rows.push_back(
            row_of(capitalised(one.name),
                   words("scope.differ.row", {{"up", word(survey::Way::up)}, {"down", word(survey::Way::down)}})));
    }
    return group;
}

void add_list(Blocks& blocks, RowGroup group, const std::string& if_empty) {
    if (!group.rows.empty()) return add(blocks, two_columns(std::move(group), 0.33, true));
    add(blocks, Heading{Level::section, group.heading, "", "", ""});
    add(blocks, Paragraph{if_empty, Tone::body});
}

RowGroup five_words(const trade::Wording& words) {
    RowGroup group{words("scope.verdicts"), {}, {}};
    for (const Verdict verdict : survey::worst_first) {
        Row row = row_of(verdict_word(verdict, words), words("scope.verdict." + survey::name_of(verdict)));
        row.cells.insert(row.cells.begin(), Cell{});
        row.cells[0].mark = VerdictMark{verdict, 0};
        group.rows.push_back(std::move(row));
    }
    return group;
}

}  // namespace

void scope_and_limits(const Material& material, Blocks& blocks) {
    const trade::Wording& words = material.trade.wording;
    add(blocks, Heading{Level::section, words("scope.statement"), "", "", ""});
    add(blocks, Paragraph{words("scope.statement.text"), Tone::body});
    add(blocks, four_columns(surveyor(material), 0.15));
    add(blocks, Heading{Level::section, words("scope.method"), "", "", ""});
    add(blocks, Paragraph{method(material), Tone::body});
    Table verdicts;
    verdicts.small = true;
    verdicts.columns = {{"", 0.06, Align::left}, {"", 0.14, Align::left}, {"", 0.8, Align::left}};
    verdicts.groups = {five_words(words)};
    add(blocks, Together{{Block{std::move(verdicts)}}});
    add_list(blocks, not_seen(material), words("scope.not-seen.none"));
    if (RowGroup said = declared(material); !said.rows.empty()) add(blocks, two_columns(std::move(said), 0.33, true));
    RowGroup differ = disagreements(material);
    if (!differ.rows.empty()) add(blocks, four_columns(std::move(differ), 0.3));
    else add_list(blocks, std::move(differ), words("scope.differ.none"));
    if (std::string hidden = hidden_parts(material); !hidden.empty())
        add(blocks,
            Together{{Block{Heading{Level::section, words("scope.limits"), words("scope.limits.remark"), "", ""}},
                      Block{Paragraph{std::move(hidden), Tone::small}}}});
    const auto cautions = assessment::cautions_for("report", material.assessment, material.survey, material.trade);
    if (!cautions.empty()) add(blocks, Caution{words("scope.cautions"), cautions});
    own_rules_in_full(material, blocks);
}

void evidence_remarks(const Material& material, Blocks& blocks) {
    const trade::Wording& words = material.trade.wording;
    add(blocks, Heading{Level::section, words("chapter.evidence"), words("evidence.intro"), "", ""});
    const auto& remarks = material.completeness.remarks;
    if (remarks.empty()) return add(blocks, Paragraph{words("evidence.none"), Tone::body});
    Table table;
    table.small = true;
    table.columns = {{words("evidence.head.fitting"), 0.33, Align::left},
                     {words("evidence.head.remark"), 0.67, Align::left}};
    RowGroup group;
    for (const completeness::NoteGroup& kind : completeness::grouped_remarks(material.completeness, material.trade)) {
        if (!kind.sum.empty()) group.rows.push_back(row_of(words("evidence.many"), kind.sum));
        else
            for (const completeness::Note* remark : kind.notes)
                group.rows.push_back(row_of(gap_name(material, *remark), remark->what));
    }
    table.groups = {std::move(group)};
    add(blocks, std::move(table));
}

}  // namespace rigdeed::report
