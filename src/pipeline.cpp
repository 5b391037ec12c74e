#include "pipeline.hpp"

#include "base/file.hpp"
#include "base/text.hpp"
#include "crypto/digest.hpp"
#include "evidence/logo.hpp"
#include "layout/paginate.hpp"
#include "pdf/font_metrics.hpp"
#include "pdf/render.hpp"
#include "report/compose.hpp"
#include "seal/seal.hpp"
#include "survey/read_survey.hpp"

namespace rigdeed {
namespace {

/// Characters that no font of ours has would print as boxes: better said while the survey is open.
Problems check_printable(const std::string& text, const std::string& file) {
    const auto metrics = pdf::font_metrics();
    Problems problems;
    int number = 0;
    for (const std::string& line : split(text, '\n')) {
        ++number;
        std::string plain;
        for (const char c : line)
            if (c != '\r' && c != '\t') plain += c;
        if (plain.starts_with("\xEF\xBB\xBF")) plain.erase(0, 3);
        if (const std::string missing = metrics->missing(plain); !missing.empty())
            problems.push_back({{file, number},
                                "cannot print " + in_quotes(missing) + ": no font of the report has it",
                                "write it in Latin, Greek or Cyrillic letters"});
    }
    return problems;
}

/// What is missing about single fittings: as long as it is, none of them is called sound.
assessment::Withheld open_questions(const completeness::Completeness& completeness) {
    assessment::Withheld open;
    for (const completeness::Note& gap : completeness.gaps)
        if (!gap.fitting.empty()) open.emplace(gap.fitting, gap.what);
    return open;
}

std::unique_ptr<Inspected> read(const std::filesystem::path& file, const trade::Trade& trade) {
    auto inspected = std::make_unique<Inspected>();
    inspected->file_text = std::string(as_text(read_file(file, survey::largest_survey)));
    auto [survey, problems] = survey::read_survey(inspected->file_text, file.string());
    if (survey) {
        problems = trade::check_names(*survey, trade);
        const Problems unprintable = check_printable(inspected->file_text, file.string());
        problems.insert(problems.end(), unprintable.begin(), unprintable.end());
    }
    if (!problems.empty()) throw InvalidSurvey{std::move(problems)};
    inspected->survey = std::move(*survey);
    return inspected;
}

std::optional<report::SignerFacts> signer_facts(const crypto::Signer* signer) {
    if (signer == nullptr) return std::nullopt;
    const crypto::CertificateFacts& facts = signer->certificate();
    const Date until = local_from_seconds(facts.not_after).date;
    return report::SignerFacts{facts.name, facts.organisation, facts.fingerprint.hex(), until.text()};
}

pdf::DocumentFacts document_facts(const Inspected& inspected, const trade::Trade& trade, std::int64_t issued_at,
                                  const crypto::Signer* signer) {
    const survey::Survey& survey = inspected.survey;
    const std::string photos = report::write_register(survey, inspected.evidence);
    pdf::DocumentFacts facts;
    facts.title = trade.wording("cover.document", {{"number", survey.number}}) + ", " + survey.yacht.name;
    facts.author = survey.surveyor.name;
    facts.subject = trade.wording("document.subject");
    facts.issued = issued_at;
    facts.identity = data_digest(inspected.file_text, photos);
    facts.files = {
        {"photos.xml", "text/xml", trade.wording("document.photos"), "Data", to_bytes(photos)},
        {"survey.xml", "text/xml", trade.wording("document.survey"), "Source", to_bytes(inspected.file_text)}};
    if (signer != nullptr)
        facts.signature =
            pdf::SignatureFacts{signer->certificate().name,
                                trade.wording("document.reason", {{"number", survey.number}}), survey.attendance.place};
    return facts;
}

}  // namespace

Digest data_digest(std::string_view survey_file, std::string_view photo_register) {
    return crypto::sha256(crypto::sha256(survey_file).hex() + "\n" + crypto::sha256(photo_register).hex() + "\n");
}

std::unique_ptr<Inspected> inspect(const std::filesystem::path& survey_file, const trade::Trade& trade,
                                   const InspectOptions& options) {
    auto inspected = read(survey_file, trade);
    inspected->assessment = assessment::assess(inspected->survey, trade);
    const auto print = options.for_print ? report::for_print(inspected->assessment, inspected->survey, options.share)
                                         : evidence::ForPrint{};
    inspected->evidence = evidence::gather_evidence(inspected->survey, print, options.jobs, options.progress);
    inspected->completeness = completeness::check_completeness({inspected->survey, inspected->evidence, trade});
    if (const auto open = open_questions(inspected->completeness); !open.empty())
        inspected->assessment = assessment::assess(inspected->survey, trade, open);
    inspected->calculations =
        assessment::calculate({inspected->survey, trade, inspected->assessment, inspected->evidence});
    inspected->units = options.units.value_or(inspected->survey.units.value_or(UnitSystem::metric));
    return inspected;
}

std::string issue(std::unique_ptr<Inspected> inspected, const trade::Trade& trade, std::int64_t issued_at,
                  const crypto::Signer* signer) {
    pdf::DocumentFacts facts = document_facts(*inspected, trade, issued_at, signer);
    const trade::Letterhead& letterhead = trade.letterhead;
    const bool letter = letterhead.paper == trade::PaperSize::letter;
    const evidence::PrintCopy logo = letterhead.logo.empty()
                                         ? evidence::PrintCopy{}
                                         : evidence::logo_for_print(letterhead.logo, letterhead.logo_file);
    const Points rig_height{letter ? 186.0 : 236.0};  // what the cover leaves
    layout::Pages pages;
    {
        const report::Report report =
            report::compose_report({inspected->survey, trade, inspected->evidence, inspected->completeness,
                                    inspected->assessment, inspected->calculations, inspected->units, facts.identity,
                                    local_from_seconds(issued_at).date, signer_facts(signer), logo, rig_height});
        inspected.reset();  // the pages hold what they print
        pages = layout::paginate(report, *pdf::font_metrics(), letter ? layout::letter : layout::a4);
    }
    pdf::RenderedPdf rendered = pdf::render_pdf(std::move(pages), std::move(facts));
    return signer != nullptr ? seal::seal(std::move(rendered.bytes), rendered.slot.value(), *signer)
                             : std::move(rendered.bytes);
}

}  // namespace rigdeed
