#include "pipeline.hpp"

#include "base/build.hpp"
#include "base/file.hpp"
#include "base/text.hpp"
#include "base/xml.hpp"
#include "crypto/digest.hpp"
#include "evidence/logo.hpp"
#include "layout/paginate.hpp"
#include "pdf/font_metrics.hpp"
#include "pdf/library.hpp"
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
        if (const std::string missing = metrics->missing(xml::resolved(plain)); !missing.empty())
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

std::unique_ptr<Inspected> read(std::string_view text, const std::string& file, const trade::Trade& trade) {
    auto inspected = std::make_unique<Inspected>();
    inspected->file_text = std::string(text);
    auto [survey, problems] = survey::read_survey(inspected->file_text, file);
    if (survey) {
        problems = trade::check_names(*survey, trade);
        const Problems unprintable = check_printable(inspected->file_text, file);
        problems.insert(problems.end(), unprintable.begin(), unprintable.end());
    }
    if (!problems.empty()) throw InvalidSurvey{std::move(problems)};
    inspected->survey = std::move(*survey);
    return inspected;
}

/// From survey and evidence to verdicts and calculations.
void conclude(Inspected& inspected, const trade::Trade& trade) {
    inspected.completeness = completeness::check_completeness({inspected.survey, inspected.evidence, trade});
    inspected.assessment = assessment::assess(inspected.survey, trade, open_questions(inspected.completeness));
    inspected.calculations = assessment::calculate({inspected.survey, trade, inspected.assessment, inspected.evidence});
}

std::optional<report::SignerFacts> signer_facts(const crypto::CertificateFacts* signer, const trade::Wording& words) {
    if (signer == nullptr) return std::nullopt;
    const Date until = local_from_seconds(signer->not_after).date;
    return report::SignerFacts{signer->name, signer->organisation, signer->fingerprint.hex(), words.date(until)};
}

std::optional<report::ReplacedFacts> replaced_facts(const record::Made& made, const trade::Wording& words) {
    if (!made.replaces) return std::nullopt;
    return report::ReplacedFacts{made.replaces->number, words.date(made.replaces->issued), made.replaces->sha256.hex(),
                                 made.replaces->because};
}

/// Where and with what the pages are made; the same of all of it makes the same pages.
record::Made made_here(const trade::Trade& trade, UnitSystem units) {
#if defined(__x86_64__)
    constexpr const char* processor = "x86-64";
#elif defined(__aarch64__)
    constexpr const char* processor = "aarch64";
#else
    constexpr const char* processor = "another processor";
#endif
    return {.program = "rigdeed " + std::string(version()) + ", " + pdf::library() + ", " + processor,
            .build = crypto::read_fingerprint(build_digest()),
            .templates = crypto::sha256(trade.own_templates),
            .units = units,
            .paper = trade.letterhead.paper,
            .language = trade.wording.language(),
            .replaces = {}};
}

/// "rigdeed 0.1.0"
std::string program_of(const record::Made& made) { return made.program.substr(0, made.program.find(',')); }

/// Why pages made there need not be those made here; empty if they are the same.
std::string other_build(const record::Made& made, const record::Made& here) {
    const std::string then = program_of(made), now = program_of(here);
    if (then != now) return "it was made by " + shown(then) + ", this is " + now;
    if (made.program != here.program)
        return "it was made by " + in_quotes(made.program) + ", this is " + in_quotes(here.program);
    return made.build == here.build ? std::string() : "it was made by another build of " + now;
}

pdf::DocumentFacts document_facts(const Inspected& inspected, const trade::Trade& trade, std::int64_t issued_at,
                                  const crypto::CertificateFacts* signer, const record::Made& made) {
    const survey::Survey& survey = inspected.survey;
    const std::string photos = report::write_register(survey, inspected.evidence);
    pdf::DocumentFacts facts;
    facts.title = trade.wording("cover.document", {{"number", survey.number}}) + ", " + survey.yacht.name;
    facts.author = survey.surveyor.name;
    facts.subject = trade.wording("document.subject");
    facts.language = trade.wording("form.language");
    facts.issued = issued_at;
    facts.identity = data_digest(inspected.file_text, photos);
    facts.files = {
        {"issue.xml", "text/xml", trade.wording("document.issue"), "Data",
         to_bytes(record::write_record(made, inspected.evidence))},
        {"photos.xml", "text/xml", trade.wording("document.photos"), "Data", to_bytes(photos)},
        {"survey.xml", "text/xml", trade.wording("document.survey"), "Source", to_bytes(inspected.file_text)}};
    if (signer != nullptr)
        facts.signature = pdf::SignatureFacts{
            signer->name, trade.wording("document.reason", {{"number", survey.number}}), survey.attendance.place};
    return facts;
}

/// The pages, with everything but the seal.
pdf::RenderedPdf render(std::unique_ptr<Inspected> inspected, const trade::Trade& trade, std::int64_t issued_at,
                        const crypto::CertificateFacts* signer, const record::Made& made) {
    pdf::DocumentFacts facts = document_facts(*inspected, trade, issued_at, signer, made);
    const trade::Letterhead& letterhead = trade.letterhead;
    const evidence::PrintCopy logo = letterhead.logo.empty()
                                         ? evidence::PrintCopy{}
                                         : evidence::logo_for_print(letterhead.logo, letterhead.logo_file);
    layout::Pages pages;
    {
        const drawing::RigGeometry rig = drawing::rig_geometry(inspected->survey, trade);
        pages = pages_of({inspected->survey,
                          trade,
                          inspected->evidence,
                          inspected->completeness,
                          inspected->assessment,
                          inspected->calculations,
                          rig,
                          inspected->units,
                          facts.identity,
                          local_from_seconds(issued_at).date,
                          signer_facts(signer, trade.wording),
                          logo,
                          {},
                          replaced_facts(made, trade.wording)},
                         layout::sheet_of(made.paper));
    }
    inspected.reset();  // the pages hold what they print
    return pdf::render_pdf(std::move(pages), std::move(facts));
}

}  // namespace

Digest data_digest(std::string_view survey_file, std::string_view photo_register) {
    return crypto::sha256(crypto::sha256(survey_file).hex() + "\n" + crypto::sha256(photo_register).hex() + "\n");
}

std::unique_ptr<Inspected> inspect(const std::filesystem::path& survey_file, const trade::Trade& trade,
                                   const InspectOptions& options) {
    const Bytes bytes = read_file(survey_file, survey::largest_survey);
    auto inspected = read(as_text(bytes), survey_file.string(), trade);
    inspected->assessment = assessment::assess(inspected->survey, trade);
    const auto print = options.for_print ? report::for_print(inspected->assessment, inspected->survey, options.share)
                                         : evidence::ForPrint{};
    inspected->evidence = evidence::gather_evidence(inspected->survey, print,
                                                    {options.jobs, options.progress, options.copies, options.known});
    inspected->units = options.units.value_or(inspected->survey.units.value_or(UnitSystem::metric));
    conclude(*inspected, trade);
    return inspected;
}

layout::Pages pages_of(report::Material material, const layout::Paper& paper) {
    const auto metrics = pdf::font_metrics();
    constexpr Points least{130}, step{12};
    material.rig_height = paper.size.height < 800_pt ? 186_pt : 236_pt;
    for (;; material.rig_height -= step) {
        layout::Pages pages = layout::paginate(report::compose_report(material), *metrics, paper);
        if (pages.cover_pages <= 1 || material.rig_height - step < least) return pages;
    }
}

std::optional<ClimbSheet> climb_sheet(const std::filesystem::path& survey_file, const trade::Trade& trade,
                                      sheet::Scope scope, PaperSize paper, std::int64_t made_at) {
    const Bytes bytes = read_file(survey_file, survey::largest_survey);
    const auto inspected = read(as_text(bytes), survey_file.string(), trade);
    const survey::Survey& survey = inspected->survey;
    const auto composed = sheet::compose_climb_sheet(survey, assessment::assess(survey, trade), trade, scope);
    if (!composed) return std::nullopt;
    layout::Pages pages = layout::paginate(*composed, *pdf::font_metrics(), layout::sheet_of(paper));
    pdf::DocumentFacts facts;
    facts.title = trade.wording("sheet.document", {{"number", survey.number}});
    if (survey.surveyor.name != "?") facts.author = survey.surveyor.name;
    facts.subject = trade.wording("sheet.subject");
    facts.language = trade.wording("form.language");
    facts.issued = made_at;
    facts.identity = crypto::sha256(inspected->file_text);
    const std::size_t count = pages.pages.size();
    return ClimbSheet{pdf::render_pdf(std::move(pages), std::move(facts)).bytes, count};
}

pdf::RenderedPdf lay_out(std::unique_ptr<Inspected> inspected, const trade::Trade& trade, const IssueOptions& options) {
    conclude(*inspected, trade);  // it may have been inspected in the words of another language
    record::Made made = made_here(trade, inspected->units);
    made.replaces = options.replaces;
    const crypto::CertificateFacts* signer = options.signer != nullptr ? &options.signer->certificate() : nullptr;
    return render(std::move(inspected), trade, options.issued_at, signer, made);
}

std::string seal_report(pdf::RenderedPdf laid_out, const IssueOptions& options) {
    if (options.signer == nullptr) return std::move(laid_out.bytes);
    return seal::seal(std::move(laid_out.bytes), laid_out.slot.value(), *options.signer, options.stamp);
}

MadeAnew make_anew(const Carried& carried, const TradeIn& trade_in) {
    auto record = record::read_record(carried.issue_record);
    if (!record) return {{}, "it carries no record of how it was made"};
    const trade::Trade trade = trade_in(record->made.language);
    record::Made here = made_here(trade, record->made.units);
    if (std::string other = other_build(record->made, here); !other.empty()) return {{}, std::move(other)};
    if (record->made.templates != here.templates) return {{}, "it was made with other templates"};
    std::unique_ptr<Inspected> inspected;
    try {
        inspected = read(carried.survey_file, "survey.xml", trade);
    } catch (const InvalidSurvey&) { return {}; }
    here.replaces = record->made.replaces;
    here.paper = record->made.paper;
    inspected->evidence = std::move(record->evidence);
    inspected->units = record->made.units;
    conclude(*inspected, trade);
    return {render(std::move(inspected), trade, carried.issued_at, &carried.signer, here).bytes, {}};
}

}  // namespace rigdeed
