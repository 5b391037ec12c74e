#include "command/predecessors.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "base/file.hpp"
#include "base/text.hpp"
#include "evidence/jpeg_structure.hpp"
#include "reopen/pictures.hpp"
#include "reopen/reopen.hpp"
#include "survey/read_survey.hpp"
#include "years/compare.hpp"

namespace rigdeed::command {

std::optional<record::Replaced> replaced_by(const survey::Survey& survey, const Replacing& replacing,
                                            const crypto::Signer* signer, std::int64_t moment) {
    if (replacing.report.empty()) return std::nullopt;
    reopen::Opening opening;
    opening.trust.fingerprint = replacing.signer.empty() ? std::nullopt : crypto::read_fingerprint(replacing.signer);
    if (opening.trust.fingerprint.has_value() == replacing.signer.empty())
        throw Error("--replaced-signer is not a SHA-256 fingerprint", {}, "give all 64 hex digits");
    if (!opening.trust.fingerprint && signer != nullptr) opening.trust.fingerprint = signer->certificate().fingerprint;
    const reopen::SealedReport old = reopen::open_report(replacing.report, opening);
    if (!old.verdict.intact())
        throw Error("the report to be replaced is not as issued: " + old.verdict.summary, replacing.report, {},
                    old.verdict.exit_code());
    if (opening.trust.fingerprint && old.verdict.outcome != verify::Outcome::as_issued)
        throw Error("the report to be replaced is by another signer: " + in_quotes(old.verdict.signer->name),
                    replacing.report, "if it is rightly so, give its fingerprint with --replaced-signer",
                    ExitCode::signer_unknown);
    if (!old.said)
        throw Error("the survey in the report to be replaced cannot be read: " + old.not_judged, replacing.report);
    if (*old.verdict.claims.sealed_at > moment)
        throw Error("the report to be replaced was issued later than this one", replacing.report,
                    "look at --issued-on and at the clock");
    if (survey.replaces != old.said->number)
        throw Error("the survey does not say that it replaces survey " + shown(old.said->number), survey.file,
                    "write replaces=\"" + shown(old.said->number) + "\" in its first element");
    if (survey.number == old.said->number)
        throw Error("the report has the number of the one it replaces", survey.file, "give it a number of its own");
    return record::Replaced{old.said->number, local_from_seconds(*old.verdict.claims.sealed_at).date, old.sha256,
                            replacing.because};
}

years::FindPicture Before::finder() const {
    return [this](const Digest& sha256) {
        const auto found = pictures.find(sha256);
        if (found == pictures.end()) return evidence::PrintCopy{};
        const evidence::JpegStructure structure = evidence::read_structure(found->second);
        if (structure.trouble.any()) return evidence::PrintCopy{};
        return evidence::PrintCopy{std::make_shared<const Bytes>(found->second), structure.width, structure.height};
    };
}

OpenedReport open_given(const std::string& file, const std::string& what, std::int64_t moment,
                        const Terminal& terminal) {
    OpenedReport opened;
    opened.bytes = read_file(file, verify::largest_report);
    const reopen::SealedReport report = reopen::open_bytes(as_text(opened.bytes), {});
    if (!report.verdict.intact())
        throw Error(what + " is not as issued: " + report.verdict.summary, file,
                    "nothing is taken from it; ask its surveyor for the report as it was sealed",
                    report.verdict.exit_code());
    if (report.follow_up)
        throw Error("is no report but a follow-up, which answers one", file, "name the report itself");
    if (!report.said) throw Error("the survey in " + what + " cannot be read: " + report.not_judged, file);
    if (*report.verdict.claims.sealed_at > moment)
        throw Error(what + " was issued later than this one", file, "look at --issued-on and at the clock");
    opened.given.paper = {report.said->number, local_from_seconds(*report.verdict.claims.sealed_at).date, report.sha256,
                          report.verdict.signer->name, report.verdict.signer->fingerprint};
    opened.given.carried = {std::string(report.carried("survey.xml")), std::string(report.carried("issue.xml")),
                            std::string(report.carried("templates.xml"))};
    opened.yacht = report.said->yacht;
    opened.hin = report.said->hin;
    opened.attended = report.said->attended;
    terminal.note(what + ": " + shown(opened.given.paper.number) + " of " + opened.attended.iso() + ", as issued by " +
                  shown(opened.given.paper.signer) + ", fingerprint " + opened.given.paper.fingerprint.hex());
    return opened;
}

Before read_before(const std::vector<std::string>& files, const survey::Survey& survey, bool other_yacht,
                   std::int64_t moment, const Terminal& terminal) {
    std::vector<OpenedReport> all;
    for (const std::string& file : files) {
        OpenedReport opened = open_given(file, "the report of before", moment, terminal);
        opened.given.carried.own_templates.clear();  // it is judged by the rules of the new one
        survey::Survey other;
        other.yacht.name = opened.yacht;
        other.yacht.hin = opened.hin;
        if (!other_yacht && !years::of_one_yacht(survey, other))
            throw Error("it is of another yacht: " + in_quotes(opened.yacht) + ", hull number " +
                            in_quotes(opened.hin) + "; the survey is of " + in_quotes(survey.yacht.name) + ", " +
                            in_quotes(survey.yacht.hin),
                        file, "compare with reports of one yacht, or say that you mean it: --other-yacht");
        for (const OpenedReport& one : all)
            if (one.given.paper.sha256 == opened.given.paper.sha256)
                throw Error("the same report is named twice", file, "name it once");
        all.push_back(std::move(opened));
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const OpenedReport& a, const OpenedReport& b) { return a.attended < b.attended; });
    Before before;
    for (OpenedReport& one : all) before.reports.push_back(std::move(one.given));
    if (!all.empty()) before.pictures = reopen::pictures_in(as_text(all.back().bytes));
    return before;
}

}  // namespace rigdeed::command
