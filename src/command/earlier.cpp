#include "command/earlier.hpp"

#include "base/file.hpp"
#include "base/text.hpp"
#include "reopen/reopen.hpp"
#include "survey/read_survey.hpp"
#include "verify/verify.hpp"

namespace rigdeed::command {
namespace {

bool is_pdf(const Bytes& bytes) { return as_text(bytes).starts_with("%PDF-"); }

}  // namespace

void read_earlier(const std::string& file, const trade::Trade& trade, const Terminal& terminal, EarlierSurvey& into) {
    const Bytes bytes = read_file(file, verify::largest_report);
    std::string text(as_text(bytes));
    if (is_pdf(bytes)) {
        const reopen::SealedReport report = reopen::open_bytes(as_text(bytes), {});
        if (!report.verdict.intact())
            throw Error("the report is not as issued: " + report.verdict.summary, file,
                        "nothing is taken from it; ask its surveyor for the report as it was sealed",
                        report.verdict.exit_code());
        text = report.carried("survey.xml");
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
    into.assessment = assessment::assess(into.survey, trade);
}

}  // namespace rigdeed::command
