#include "command/works.hpp"

#include <filesystem>

#include "base/file.hpp"
#include "base/folders.hpp"
#include "base/text.hpp"
#include "command/predecessors.hpp"
#include "crypto/digest.hpp"
#include "survey/read_survey.hpp"
#include "verify/verify.hpp"

namespace rigdeed::command {
namespace {

namespace fs = std::filesystem;

constexpr std::uint64_t largest_works = 4 * 1024 * 1024;
constexpr const char* report_name = "report.pdf";

std::string place(const WorksInspected& inspected, int line) { return Position{inspected.works.file, line}.text(); }

std::string statement(const WorksInspected& inspected) {
    static const trade::Trade trade = trade::load_trade();
    const works::Conclusion& conclusion = inspected.conclusion;
    return trade.wording("answer." + conclusion.answer) +
           (conclusion.do_not_climb ? "; do not climb: a qualified rigger deals with it first" : "");
}

std::string state_of(const works::Line& line) {
    if (line.item == nullptr || !line.item->done) return "not answered";
    return works::name_of(*line.item->done);
}

}  // namespace

std::optional<std::string> works_text(const std::string& file) {
    const Bytes bytes = read_file(file, survey::largest_survey);
    std::string text(as_text(bytes));
    if (!works::is_works_file(text)) return std::nullopt;
    if (text.size() > largest_works) throw Error("a works file is never as large as that", file);
    return text;
}

std::unique_ptr<WorksInspected> works_or_explain(const std::string& file, const std::string& text,
                                                 const InspectOptions& options, std::int64_t moment,
                                                 const Terminal& terminal) {
    auto [works, problems] = works::read_works(text, file);
    for (const Problem& problem : problems) terminal.problem(problem);
    if (!works) {
        terminal.note(counted(problems.size(), "problem") + " in " + file + "; nothing was done");
        return nullptr;
    }
    const fs::path report = fs::path(file).parent_path() / works->report_file;
    if (!fs::exists(report))
        throw Error("the report that the works answer is not there: " + report.string(),
                    Position{file, works->report_line}.text(),
                    "put the sealed report there, or write its name in <report file=\"…\"/>");
    OpenedReport opened = open_given(report.string(), "the report answered", moment, terminal);
    if (opened.given.paper.sha256 != works->report_sha256)
        throw Error("is not the report that the works answer: its SHA-256 is " + opened.given.paper.sha256.hex(),
                    report.string(), "rigdeed start --works writes a new form for this one");
    return inspect_works(text, std::move(*works), std::move(opened.given), options);
}

void describe_gaps(const WorksInspected& inspected, const Terminal& terminal) {
    for (const works::Gap& gap : inspected.conclusion.gaps)
        terminal.problem({{inspected.works.file, gap.line}, gap.what, gap.hint});
}

void describe(const WorksInspected& inspected, const Terminal& terminal) {
    const works::Conclusion& conclusion = inspected.conclusion;
    const survey::Survey& survey = inspected.report.inspected->survey;
    terminal.result(inspected.works.file + ": works " +
                    (inspected.works.number.empty() ? "without a number" : inspected.works.number) + " to survey " +
                    survey.number + " of " + survey.yacht.name + ", " +
                    (conclusion.complete() ? "complete" : "INCOMPLETE, " + counted(conclusion.gaps.size(), "gap")));
    for (const works::Gap& gap : conclusion.gaps) {
        terminal.result("  " + place(inspected, gap.line) + ": " + gap.what);
        if (!gap.hint.empty()) terminal.result("    " + gap.hint);
    }
    for (const works::Line& line : conclusion.lines)
        terminal.result("  item " + std::to_string(line.asked->item) + " (" + survey::name_of(line.asked->verdict) +
                        "): " + (line.closed ? "closed" : "open, " + state_of(line)) + "; " + line.asked->words);
    terminal.result("  " + statement(inspected));
}

void describe(const WorksInspected& inspected, JsonWriter& json) {
    const works::Conclusion& conclusion = inspected.conclusion;
    json.begin_object()
        .field("file", inspected.works.file)
        .field("kind", "works-done")
        .field("number", inspected.works.number)
        .field("report", inspected.report.inspected->survey.number)
        .field("report_sha256", inspected.given.paper.sha256.hex())
        .field("complete", conclusion.complete())
        .field("answer", conclusion.answer)
        .field("do_not_climb", conclusion.do_not_climb)
        .key("gaps")
        .begin_array();
    for (const works::Gap& gap : conclusion.gaps)
        json.begin_object()
            .field("code", gap.code)
            .field("line", static_cast<std::int64_t>(gap.line))
            .field("item", static_cast<std::int64_t>(gap.item))
            .field("what", gap.what)
            .field("hint", gap.hint)
            .end();
    json.end().key("items").begin_array();
    for (const works::Line& line : conclusion.lines)
        json.begin_object()
            .field("item", static_cast<std::int64_t>(line.asked->item))
            .field("verdict", survey::name_of(line.asked->verdict))
            .field("done", line.item != nullptr && line.item->done ? works::name_of(*line.item->done) : "")
            .field("closed", line.closed)
            .field("words", line.asked->words)
            .end();
    json.end().end();
}

void start_works(const std::string& report, const std::string& folder, const Common& common) {
    const Terminal terminal = common.terminal();
    const fs::path into = folder;
    for (const char* name : {"works.xml", report_name})
        if (fs::exists(into / name)) throw Error("is there already", (into / name).string(), "start in a new folder");
    const std::int64_t moment = issue_moment({});
    OpenedReport opened = open_given(report, "the report answered", moment, terminal);
    const Reopened again = read_answered(opened.given);
    works::WorksDone form =
        works::form_for(answered_by(again, opened.given.paper.issued, local_from_seconds(moment).date));
    form.report_file = report_name;
    form.report_sha256 = opened.given.paper.sha256;
    make_folders(into / form.photos);
    write_file(into / report_name, as_text(opened.bytes));
    write_file(into / "works.xml", works::write_works(form));
    terminal.result((into / "works.xml").string());
    terminal.note(counted(form.items.size(), "item") + " of survey " + form.report_number + ", " + form.yacht +
                  "; answer each: done, by whom, on which day, with a photo before and one after in " +
                  (into / form.photos).string());
}

}  // namespace rigdeed::command
