#include "command/earlier.hpp"

#include <algorithm>
#include <memory>

#include "base/file.hpp"
#include "base/text.hpp"
#include "follow_up.hpp"
#include "reopen/reopen.hpp"
#include "survey/read_survey.hpp"
#include "verify/verify.hpp"

namespace rigdeed::command {
namespace {

bool is_pdf(const Bytes& bytes) { return as_text(bytes).starts_with("%PDF-"); }

}  // namespace

void read_earlier(const std::string& file, const trade::Trade& trade, const Terminal& terminal, EarlierSurvey& into) {
    const Bytes bytes = read_file(file, verify::largest_report);
    std::string text(as_text(bytes)), record_text;
    std::int64_t sealed_at = 0;
    if (is_pdf(bytes)) {
        const reopen::SealedReport report = reopen::open_bytes(as_text(bytes), {});
        if (!report.verdict.intact())
            throw Error("the report is not as issued: " + report.verdict.summary, file,
                        "nothing is taken from it; ask its surveyor for the report as it was sealed",
                        report.verdict.exit_code());
        if (report.follow_up)
            throw Error("is no report but a follow-up, which answers one", file,
                        "name the report first, and its follow-ups behind it");
        text = report.carried("survey.xml");
        record_text = report.carried("issue.xml");
        sealed_at = report.verdict.claims.sealed_at.value_or(0);
        into.sha256 = report.sha256.hex();
        into.signer = report.verdict.signer ? report.verdict.signer->name : std::string();
        terminal.note(file + ": as issued by " + shown(into.signer) +
                      "; whether that is who you think, rigdeed verify --fingerprint says");
    }
    auto [survey, problems] = survey::read_survey(text, file);
    if (survey) problems = trade::check_names(*survey, trade);
    for (const Problem& problem : problems) terminal.problem(problem);
    if (!survey || !problems.empty())
        throw Error(counted(problems.size(), "problem") + " in the survey", file, "nothing was done");
    into.survey = std::move(*survey);
    // Of a survey file alone nothing is known of its photos; of a sealed report its record says it.
    const auto record = record::read_record(record_text);
    const assessment::Withheld open =
        record ? completeness::by_fitting(completeness::check_completeness(
                     {into.survey, record->evidence, trade, local_from_seconds(sealed_at).date}))
               : assessment::Withheld{};
    into.assessment = assessment::assess(into.survey, trade, open);
}

void take_follow_ups(const std::vector<std::string>& files, const std::string& report_sha256, survey::Survey& next,
                     const Terminal& terminal) {
    std::vector<std::unique_ptr<WorksInspected>> all;
    for (const std::string& file : files) {
        const reopen::SealedReport paper = reopen::open_report(file, {});
        if (!paper.verdict.intact())
            throw Error("the follow-up is not as issued: " + paper.verdict.summary, file,
                        "nothing is taken from it; ask for the file as it was sealed", paper.verdict.exit_code());
        if (!paper.follow_up)
            throw Error("is no follow-up", file, "name one report, and behind it the follow-ups that answer it");
        if (paper.since.size() != 1 || paper.since.front().sha256.hex() != report_sha256)
            throw Error("answers another report than the one named", file,
                        report_sha256.empty() ? "name the sealed report, not its survey file"
                                              : "name the report that it answers");
        const auto record = record::read_record(paper.carried("issue.xml"));
        if (!record) throw Error("the record of how it was made cannot be read", file);
        Carried carried;
        carried.works_file = paper.carried("works.xml");
        carried.before = paper.carried("before.xml");
        carried.issued_at = *paper.verdict.claims.sealed_at;
        all.push_back(read_works_again(carried, *record));
        terminal.note(file + ": works " + shown(all.back()->works.number) + ", as issued by " +
                      shown(paper.verdict.signer->name));
    }
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a->on < b->on; });
    for (const auto& one : all) take_over(*one, next);
}

}  // namespace rigdeed::command
