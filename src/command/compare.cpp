#include <CLI/CLI.hpp>

#include <deque>
#include <memory>

#include "base/date.hpp"
#include "base/json.hpp"
#include "base/text.hpp"
#include "command/command.hpp"
#include "command/earlier.hpp"
#include "years/compare.hpp"

namespace rigdeed::command {
namespace {

using years::Change;
using years::FittingChange;

struct CompareWishes {
    std::vector<std::string> files;
    bool other_yacht = false;
};

std::string names(const std::vector<years::SignNamed>& signs) {
    std::vector<std::string> all;
    for (const years::SignNamed& sign : signs) all.push_back(sign.name);
    return join(all, ", ");
}

std::string with_sign(double number) { return (number >= 0 ? "+" : "") + fixed(number, 2); }

std::string in_words(const years::Course& course) {
    std::vector<std::string> figures;
    for (const years::Figure& one : course.figures) figures.push_back(one.text);
    std::string text =
        course.name + ": " + join(figures, ", then ") + " (" + with_sign(course.difference) + " " + course.unit;
    if (course.per_year) text += ", " + with_sign(*course.per_year) + " " + course.unit + " a year";
    return text + ")";
}

std::string verdict_words(const FittingChange& one, const trade::Trade& trade) {
    const auto word = [&](survey::Verdict verdict) { return trade.wording("verdict." + survey::name_of(verdict)); };
    if (!one.verdict) return "was " + word(*one.verdict_before);
    if (!one.verdict_before || one.verdict == one.verdict_before) return word(*one.verdict);
    return word(*one.verdict_before) + ", now " + word(*one.verdict);
}

std::string guess(const FittingChange& one) {
    return one.guessed ? "by its kind and place; it was called " + in_quotes(one.id_before) : std::string();
}

std::string in_words(const years::Exchanged& one) {
    if (!one.before) return in_quotes(one.id) + " was another fitting before: it is told by its place, not by its name";
    return in_quotes(one.id) + " was " + survey::name_of(*one.before) + " before and is " + survey::name_of(*one.now) +
           " now: is one of the two surveys exchanged side for side?";
}

void describe(const FittingChange& one, const trade::Trade& trade, const Terminal& terminal) {
    terminal.result("  " + (one.id.empty() ? one.id_before : one.id) + " (" + one.name +
                    "): " + verdict_words(one, trade));
    const auto tell = [&](const char* what, const std::vector<years::SignNamed>& signs) {
        if (!signs.empty()) terminal.result("    " + std::string(what) + names(signs));
    };
    tell("new: ", one.come);
    tell("still there: ", one.still);
    tell("gone: ", one.gone);
    tell("not said, gone or overlooked? ", one.not_said);
    for (const years::Course& course : one.courses) terminal.result("    " + in_words(course));
    if (one.guessed) terminal.result("    matched " + guess(one));
}

void describe(const years::Comparison& comparison, const trade::Trade& trade, const Terminal& terminal) {
    std::vector<std::string> counts;
    for (const Change change :
         {Change::worse, Change::better, Change::renewed, Change::fresh, Change::gone, Change::same})
        if (const std::size_t count = comparison.count(change); count > 0)
            counts.push_back(std::to_string(count) + " " + std::string(years::name_of(change)));
    terminal.result(counted(comparison.fittings.size(), "fitting") + ": " + join(counts, ", "));
    for (const years::Exchanged& one : comparison.exchanged) terminal.note("remark: " + in_words(one));
    for (const Change change :
         {Change::worse, Change::fresh, Change::gone, Change::renewed, Change::better, Change::same}) {
        bool headed = false;
        for (const FittingChange& one : comparison.fittings) {
            const bool tells = change != Change::same || !one.come.empty() || !one.not_said.empty() ||
                               !one.gone.empty() || !one.courses.empty() || one.guessed;
            if (one.change != change || !tells) continue;
            if (!headed) terminal.result(std::string(years::name_of(change)) + ":");
            headed = true;
            describe(one, trade, terminal);
        }
    }
}

void describe(const std::vector<years::SignNamed>& signs, const char* key, JsonWriter& json) {
    json.key(key).begin_array();
    for (const years::SignNamed& sign : signs) json.value(sign.code);
    json.end();
}

void describe(const FittingChange& one, JsonWriter& json) {
    json.begin_object().field("fitting", one.id).field("before", one.id_before).field("name", one.name);
    json.field("change", years::name_of(one.change));
    json.field("verdict", one.verdict ? survey::name_of(*one.verdict) : std::string());
    json.field("verdict_before", one.verdict_before ? survey::name_of(*one.verdict_before) : std::string());
    describe(one.come, "new", json);
    describe(one.still, "still", json);
    describe(one.gone, "gone", json);
    describe(one.not_said, "not_said", json);
    json.field("guess", guess(one)).key("measured").begin_array();
    for (const years::Course& course : one.courses) {
        json.begin_object().field("what", course.what).field("unit", course.unit).key("values").begin_array();
        for (const years::Figure& figure : course.figures)
            json.begin_object().field("on", figure.on.iso()).key("value").number(figure.value, 4).end();
        json.end().key("difference").number(course.difference, 4).key("per_year");
        if (course.per_year) json.number(*course.per_year, 4);
        else json.null();
        json.end();
    }
    json.end().end();
}

ExitCode compare(const CompareWishes& wishes, const Common& common) {
    const Terminal terminal = common.terminal();
    const trade::Trade trade = common.trade();
    if (wishes.files.size() < 2)
        throw Error("one survey alone cannot be compared", wishes.files.front(), "name the one before it first");
    std::deque<EarlierSurvey> surveys;
    std::vector<years::Visit> visits;
    for (const std::string& file : wishes.files) {
        EarlierSurvey& one = surveys.emplace_back();
        read_earlier(file, trade, terminal, one);
        if (!wishes.other_yacht && !years::of_one_yacht(surveys.front().survey, one.survey))
            throw Error("it is of another yacht: " + in_quotes(one.survey.yacht.name) + ", hull number " +
                            in_quotes(one.survey.yacht.hin) + "; the first is of " +
                            in_quotes(surveys.front().survey.yacht.name) + ", " +
                            in_quotes(surveys.front().survey.yacht.hin),
                        file, "compare surveys of one yacht, or say that you mean it: --other-yacht");
        visits.push_back({&one.survey, &one.assessment});
    }
    const years::Comparison comparison = years::compare(visits, trade);
    if (!common.json) {
        const EarlierSurvey &before = surveys[surveys.size() - 2], &now = surveys.back();
        terminal.result(now.survey.yacht.name + ": " + now.survey.number + " of " + now.survey.attendance.on.iso() +
                        ", held against " + before.survey.number + " of " + before.survey.attendance.on.iso() +
                        "; both judged by the rules of this program");
        describe(comparison, trade, terminal);
        return ExitCode::done;
    }
    JsonWriter json;
    json.begin_object().key("surveys").begin_array();
    for (const EarlierSurvey& one : surveys)
        json.begin_object()
            .field("number", one.survey.number)
            .field("on", one.survey.attendance.on.iso())
            .field("sha256", one.sha256)
            .field("signer", one.signer)
            .end();
    json.end().key("remarks").begin_array();
    for (const years::Exchanged& one : comparison.exchanged) json.value(in_words(one));
    json.end().key("fittings").begin_array();
    for (const FittingChange& one : comparison.fittings) describe(one, json);
    json.end().end();
    terminal.raw_result(json.text());
    return ExitCode::done;
}

}  // namespace

void add_compare(CLI::App& app, Common& common, ExitCode& code) {
    auto wishes = std::make_shared<CompareWishes>();
    CLI::App* command = app.add_subcommand("compare", "What changed on a rig from one survey to the next");
    command->add_option("FILE", wishes->files, "Sealed reports or survey files of one yacht, oldest first")
        ->required()
        ->type_name("FILE");
    command->add_flag("--other-yacht", wishes->other_yacht, "Compare although hull number or name differ");
    command->callback([wishes, &common, &code] { code = compare(*wishes, common); });
}

}  // namespace rigdeed::command
