#include "command/describe.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "assessment/limits.hpp"
#include "assessment/sizes.hpp"
#include "base/text.hpp"

namespace rigdeed::command {
namespace {

using assessment::FittingVerdict;
using completeness::Note;

/// "cap-port-low (port cap shroud, lower swaged terminal)"
std::string subject(const Inspected& inspected, const std::string& id, const trade::Trade& trade) {
    if (id.empty()) return "the survey as a whole";
    for (const FittingVerdict& one : inspected.assessment.fittings)
        if (one.fitting->id == id) return id + " (" + one.name + ")";
    if (const survey::Stay* stay = inspected.survey.stay(id)) return id + " (" + trade::stay_name(*stay, trade) + ")";
    return id;
}

using Groups = std::vector<std::pair<std::string, std::vector<const Note*>>>;

/// Notes with the same key stand together, in the order in which the keys first appear.
template <class Key>
Groups grouped(const std::vector<const Note*>& notes, Key key) {
    Groups groups;
    std::map<std::string, std::size_t> places;
    for (const Note* note : notes) {
        const auto [place, fresh] = places.try_emplace(key(*note), groups.size());
        if (fresh) groups.push_back({place->first, {}});
        groups[place->second].second.push_back(note);
    }
    return groups;
}

constexpr std::size_t siblings = 4;      ///< from so many on, notes that say the same are told in one line
constexpr std::size_t most_listed = 12;  ///< of them by name

/// "not seen on the way up: 62 fittings: a (line 20), b (line 24) … and 50 more"
void print_siblings(const std::vector<const Note*>& alike, const Terminal& terminal) {
    std::vector<std::string> names;
    for (const Note* note : alike)
        if (names.size() < most_listed) names.push_back(note->fitting + " (line " + std::to_string(note->line) + ")");
    const std::size_t more = alike.size() - names.size();
    terminal.result("  " + alike.front()->what + ": " + std::to_string(alike.size()) + " times");
    terminal.result("    " + join(names, ", ") + (more > 0 ? " and " + std::to_string(more) + " more" : ""));
    if (!alike.front()->hint.empty()) terminal.result("      hint: " + alike.front()->hint);
}

/// Each hint is given once: a new survey has hundreds of the same gaps.
void print_notes(const std::vector<Note>& notes, const Inspected& inspected, const trade::Trade& trade,
                 const Terminal& terminal) {
    std::vector<const Note*> all, single;
    for (const Note& note : notes) all.push_back(&note);
    for (const auto& [what, alike] :
         grouped(all, [](const Note& note) { return note.fitting.empty() ? std::string() : note.code + note.what; })) {
        if (what.empty() || alike.size() < siblings) single.insert(single.end(), alike.begin(), alike.end());
        else print_siblings(alike, terminal);
    }
    std::set<std::string> hints;
    for (const auto& [id, group] : grouped(single, [](const Note& note) { return note.fitting; })) {
        terminal.result("  " + subject(inspected, id, trade));
        for (const Note* note : group) {
            const std::string line = note->line > 0 ? " (line " + std::to_string(note->line) + ")" : "";
            terminal.result("    " + note->what + line);
            if (!note->hint.empty() && hints.insert(note->hint).second) terminal.result("      hint: " + note->hint);
        }
    }
}

/// Remarks of which there are many are said in one line.
void print_remarks(const Inspected& inspected, const trade::Trade& trade, const Terminal& terminal) {
    std::vector<Note> told;
    for (const completeness::NoteGroup& group : completeness::grouped_remarks(inspected.completeness, trade)) {
        if (!group.sum.empty()) terminal.result("  " + group.sum);
        else
            for (const Note* note : group.notes) told.push_back(*note);
    }
    print_notes(told, inspected, trade, terminal);
}

std::string sign_names(const Inspected& inspected, const FittingVerdict& one, const trade::Trade& trade) {
    std::vector<std::string> names;
    for (const trade::JudgedSign& sign : one.signs)
        if (std::find(names.begin(), names.end(), sign.rule->name) == names.end()) names.push_back(sign.rule->name);
    if (names.empty() && !one.unseen_because.empty()) names.push_back(one.unseen_because);
    if (names.empty())
        for (const assessment::Consequence& consequence : one.consequences)
            names.push_back(
                assessment::words_of(consequence, consequence.rule->name, one, inspected.assessment, trade));
    if (names.empty()) names.push_back(trade.wording("finding.given.sentence"));
    return listed(names);
}

void write_notes(const std::vector<Note>& notes, JsonWriter& json) {
    json.begin_array();
    for (const Note& note : notes) {
        json.begin_object()
            .field("code", note.code)
            .field("fitting", note.fitting)
            .field("line", note.line)
            .field("what", note.what);
        json.field("hint", note.hint).end();
    }
    json.end();
}

}  // namespace

namespace {

void write_end(std::string_view name, const assessment::EndSizes& end, JsonWriter& json) {
    json.key(name)
        .begin_object()
        .field("terminal", end.terminal)
        .field("form", end.form)
        .field("pin", end.pin)
        .field("thread", end.thread)
        .field("hand", end.hand)
        .field("toggle", end.toggle)
        .field("hole", end.hole)
        .end();
}

void write_sizes(const Inspected& inspected, const trade::Trade& trade, JsonWriter& json) {
    json.key("sizes").begin_array();
    for (const assessment::StaySizes& sizes : assessment::schedule_of_sizes(inspected.survey, trade)) {
        const survey::Stay& stay = *sizes.stay;
        json.begin_object().field("stay", stay.id).field("make", stay.make).field("alloy", stay.alloy);
        json.field("diameter", stay.diameter.text).field("length", stay.length ? stay.length->text : std::string());
        write_end("bottom", sizes.bottom, json);
        write_end("top", sizes.top, json);
        json.key("to-measure").begin_array();
        for (const std::string& key : sizes.wanted) json.value(key);
        json.end().end();
    }
    json.end();
}

void write_limits(const Inspected& inspected, const trade::Trade& trade, JsonWriter& json) {
    json.key("limits").begin_array();
    for (const assessment::HeldAgainst& one : assessment::held_against_limits(inspected.survey, trade)) {
        json.begin_object()
            .field("fitting", one.fitting->id)
            .field("quantity", one.limit->of)
            .key("value")
            .number(one.value, 6);
        json.field("unit", unit_symbol(one.unit));
        json.field("limit", one.limit->rule.code).field("bound", one.limit->least ? "least" : "most");
        json.key("of").number(one.limit->value, 6).field("beyond", one.beyond);
        json.field("verdict", survey::name_of(one.beyond ? one.limit->rule.verdict : survey::Verdict::sound));
        json.field("bars-climbing", one.bars).field("words", one.beyond ? one.words : std::string());
        json.field("source", one.limit->rule.source).end();
    }
    json.end();
}

}  // namespace

std::unique_ptr<Inspected> inspect_or_explain(const std::string& file, const trade::Trade& trade,
                                              const InspectOptions& options, const Terminal& terminal) {
    Inspection inspection = inspect(file, trade, options);
    for (const Problem& problem : inspection.problems) terminal.problem(problem);
    if (!inspection.inspected)
        terminal.note(counted(inspection.problems.size(), "problem") + " in " + file + "; nothing was done");
    return std::move(inspection.inspected);
}

std::string climbing_bar(const Inspected& inspected, const trade::Trade& trade) {
    std::vector<std::string> masts;
    for (const assessment::BarredMast& barred : inspected.assessment.barred) {
        std::vector<std::string> why;
        for (const FittingVerdict& one : inspected.assessment.fittings)
            if (one.bars_climbing &&
                std::find(barred.items.begin(), barred.items.end(), one.number) != barred.items.end())
                why.push_back(one.fitting->id + " (" + sign_names(inspected, one, trade) + ")");
        masts.push_back((barred.mast.empty() ? "do not climb: " : "do not climb the " + barred.mast + " mast: ") +
                        listed(why));
    }
    return masts.empty() ? std::string() : join(masts, "; ") + "; a qualified rigger deals with it first";
}

void describe_gaps(const Inspected& inspected, const Terminal& terminal) {
    for (const Note& gap : inspected.completeness.gaps) {
        const std::string label = gap.fitting.empty() ? "" : gap.fitting + ": ";
        terminal.problem({{inspected.survey.file, gap.line}, label + gap.what, gap.hint});
    }
}

void describe(const Inspected& inspected, const trade::Trade& trade, const Terminal& terminal) {
    using Emphasis = Terminal::Emphasis;
    const survey::Survey& survey = inspected.survey;
    if (const std::string bar = climbing_bar(inspected, trade); !bar.empty())
        terminal.result(terminal.emphasised(bar, Emphasis::bad));
    for (const std::string& caution : assessment::cautions_for("terminal", inspected.assessment, survey, trade))
        terminal.result(terminal.emphasised(caution, Emphasis::bad));
    terminal.result(
        terminal.emphasised(survey.file + ": survey " + survey.number + ", " + survey.yacht.name, Emphasis::strong));
    terminal.result(counted(survey.fittings.size(), "fitting") + ", " + counted(survey.stays.size(), "stay") + ", " +
                    counted(inspected.evidence.photos.size(), "photo"));

    const auto& [gaps, remarks] = inspected.completeness;
    if (!gaps.empty())
        terminal.result("\n" + terminal.emphasised("missing: " + counted(gaps.size(), "gap"), Emphasis::bad));
    print_notes(gaps, inspected, trade, terminal);
    if (!remarks.empty()) terminal.result("\n" + counted(remarks.size(), "remark") + " on the evidence");
    print_remarks(inspected, trade, terminal);

    std::vector<std::string> counts;
    for (const auto verdict : {survey::Verdict::renew, survey::Verdict::rectify, survey::Verdict::watch,
                               survey::Verdict::unseen, survey::Verdict::sound})
        counts.push_back(std::to_string(inspected.assessment.count(verdict)) + " " + survey::name_of(verdict));
    terminal.result("\nverdicts: " + join(counts, ", "));
    for (const std::size_t i : inspected.assessment.findings) {
        const FittingVerdict& one = inspected.assessment.fittings[i];
        terminal.result("  " + std::to_string(one.number) + ". " + survey::name_of(one.verdict) + ": " +
                        subject(inspected, one.fitting->id, trade) + ": " + sign_names(inspected, one, trade));
    }
    describe_calculations(inspected, terminal);
    if (gaps.empty())
        terminal.result("\n" + terminal.emphasised("complete", Emphasis::good) + ": ready for rigdeed issue");
    else
        terminal.result("\n" + terminal.emphasised("incomplete", Emphasis::bad) +
                        ": fill the gaps, or issue with --with-gaps and an answer withheld");
}

void describe(const Inspected& inspected, const trade::Trade& trade, JsonWriter& json) {
    const survey::Survey& survey = inspected.survey;
    const assessment::Assessment& assessment = inspected.assessment;
    json.begin_object().field("file", survey.file).field("number", survey.number).field("yacht", survey.yacht.name);
    json.field("complete", inspected.completeness.complete()).field("do-not-climb", assessment.do_not_climb);
    // With gaps there is no answer, unless it is the worst one.
    const bool answered = inspected.completeness.complete() ||
                          assessment.answer == assessment::Answer::not_to_be_sailed ||
                          assessment.answer == assessment::Answer::stopped_at_deck;
    json.field("answer", answered ? assessment::name_of(assessment.answer) : "incomplete");
    json.key("gaps");
    write_notes(inspected.completeness.gaps, json);
    json.key("remarks");
    write_notes(inspected.completeness.remarks, json);
    json.key("fittings").begin_array();
    for (const FittingVerdict& one : assessment.fittings) {
        json.begin_object()
            .field("id", one.fitting->id)
            .field("name", one.name)
            .field("kind", one.fitting->kind)
            .field("verdict", survey::name_of(one.verdict));
        json.field("number", one.number)
            .field("bars-climbing", one.bars_climbing)
            .field("passes-differ", one.passes_differ)
            .field("unseen-because", one.unseen_because);
        json.key("signs").begin_array();
        for (const trade::JudgedSign& sign : one.signs)
            json.begin_object()
                .field("code", sign.rule->code)
                .field("pass", sign.seen != nullptr ? survey::name_of(sign.seen->pass) : "measured")
                .field("verdict", survey::name_of(sign.rule->verdict))
                .field("act", filled(sign.rule->act,
                                     {{"stay", one.stay != nullptr ? trade::stay_name(*one.stay, trade) : "stay"},
                                      {"fitting", one.name}}))
                .field("source", sign.rule->source)
                .end();
        json.end().end();
    }
    json.end();
    describe_calculations(inspected, trade, json);
    json.key("climbing").begin_array();
    for (const assessment::BarredMast& barred : assessment.barred) {
        json.begin_object().field("mast", barred.mast).key("items").begin_array();
        for (const int item : barred.items) json.number(item, 0);
        json.end().end();
    }
    json.end();
    write_sizes(inspected, trade, json);
    write_limits(inspected, trade, json);
    json.end();
}

}  // namespace rigdeed::command
