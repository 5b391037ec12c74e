#include "pipeline.hpp"

#include <algorithm>

#include "base/build.hpp"
#include "base/error.hpp"
#include "base/file.hpp"
#include "base/text.hpp"
#include "base/xml.hpp"
#include "crypto/digest.hpp"
#include "evidence/logo.hpp"
#include "evidence/scale.hpp"
#include "layout/paginate.hpp"
#include "pairing/places.hpp"
#include "pdf/font_metrics.hpp"
#include "pdf/library.hpp"
#include "pdf/render.hpp"
#include "report/compose.hpp"
#include "seal/seal.hpp"
#include "survey/own_words.hpp"
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
        const std::string text_of_line = xml::resolved(plain);
        for (const char32_t c : decode_utf8(text_of_line).value_or(std::u32string()))
            if (needs_shaping(c)) {
                problems.push_back({{file, number},
                                    "cannot print " + in_quotes(encode_utf8(std::u32string(1, c))) +
                                        ": its script runs from right to left, or joins its letters",
                                    "write it in Latin, Greek or Cyrillic letters"});
                break;
            }
        if (const std::string missing = metrics->missing(text_of_line); !missing.empty())
            problems.push_back({{file, number},
                                "cannot print " + in_quotes(missing) + ": no font of the report has it",
                                "write it in Latin, Greek or Cyrillic letters"});
    }
    return problems;
}

Inspection read(std::string_view text, const std::string& file, const trade::Trade& trade) {
    auto inspected = std::make_unique<Inspected>();
    inspected->file_text = std::string(text);
    auto [survey, problems] = survey::read_survey(inspected->file_text, file);
    if (survey) {
        problems = trade::check_names(*survey, trade);
        const Problems unprintable = check_printable(inspected->file_text, file);
        problems.insert(problems.end(), unprintable.begin(), unprintable.end());
    }
    if (!problems.empty()) return {nullptr, std::move(problems)};
    inspected->survey = std::move(*survey);
    return {std::move(inspected), {}};
}

/// Which fittings come off better by rules of the surveyor's own. A survey with kinds or signs that only those know
/// cannot be judged by ours.
std::vector<report::Softened> softened_by(const assessment::Assessment& by_own, const survey::Survey& survey,
                                          const trade::Trade& trade, const assessment::Withheld& open) {
    if (trade.own.telling().empty()) return {};
    const trade::Trade ours = trade::load_trade({}, trade.wording.language());
    if (!trade::check_names(survey, ours).empty()) return {};
    const assessment::Assessment by_program = assessment::assess(survey, ours, open);
    std::vector<report::Softened> softened;
    for (std::size_t i = 0; i < std::min(by_own.fittings.size(), by_program.fittings.size()); ++i) {
        const assessment::FittingVerdict &own = by_own.fittings[i], &program = by_program.fittings[i];
        const bool bar_lifted = program.bars_climbing && !own.bars_climbing;
        if (own.verdict < program.verdict || bar_lifted)
            softened.push_back({own.name, program.verdict, own.verdict, bar_lifted});
    }
    return softened;
}

/// From survey and evidence to verdicts and calculations.
void conclude(Inspected& inspected, const trade::Trade& trade) {
    evidence::take_scales(inspected.survey, inspected.evidence);
    inspected.completeness =
        completeness::check_completeness({inspected.survey, inspected.evidence, trade, inspected.on});
    const assessment::Withheld open = completeness::by_fitting(inspected.completeness);
    inspected.assessment = assessment::assess(inspected.survey, trade, open);
    inspected.softened = softened_by(inspected.assessment, inspected.survey, trade, open);
    inspected.calculations = assessment::calculate({inspected.survey, trade, inspected.assessment, inspected.evidence});
}

std::optional<report::SignerFacts> signer_facts(const crypto::CertificateFacts* signer, std::int64_t sealed_at,
                                                bool typed, const trade::Wording& words) {
    if (signer == nullptr) return std::nullopt;
    const Date until = local_from_seconds(signer->not_after).date;
    return report::SignerFacts{signer->name,      signer->organisation,          signer->fingerprint.hex(),
                               words.date(until), local_from_seconds(sealed_at), typed};
}

std::optional<report::ReplacedFacts> replaced_facts(const record::Made& made, const trade::Wording& words) {
    if (!made.replaces) return std::nullopt;
    return report::ReplacedFacts{made.replaces->number, words.date(made.replaces->issued), made.replaces->sha256.hex(),
                                 made.replaces->because};
}

record::Made made_for(const Inspected& inspected, const trade::Trade& trade, const IssueOptions& options) {
    record::Made made = made_here();
    const trade::Letterhead& letterhead = trade.letterhead;
    made.templates = crypto::sha256(trade::write_carried(trade.own));
    made.units = inspected.units;
    made.paper = letterhead.paper;
    made.language = trade.wording.language();
    made.replaces = options.replaces;
    made.timestamp = options.signer != nullptr && options.stamp != nullptr;
    made.date_typed = options.date_typed;
    if (!letterhead.logo.empty()) made.logo = evidence::logo_for_print(letterhead.logo, letterhead.logo_file);
    return made;
}

/// What a report says of rules of the surveyor's own; in the program's words.
std::optional<report::OwnRules> own_rules(const Inspected& inspected, const trade::Trade& trade) {
    if (trade.own.telling().empty()) return std::nullopt;
    return report::OwnRules{trade.own.telling(), inspected.softened};
}

pdf::DocumentFacts document_facts(const Inspected& inspected, const trade::Trade& trade, std::int64_t issued_at,
                                  const crypto::CertificateFacts* signer, record::Made made) {
    const survey::Survey& survey = inspected.survey;
    const std::string photos = report::write_register(survey, inspected.evidence);
    pdf::DocumentFacts facts;
    facts.title = trade.wording("cover.document", {{"number", survey.number}}) + ", " + survey.yacht.name;
    facts.author = survey.surveyor.name;
    facts.subject = trade.wording("document.subject");
    facts.language = trade.wording("form.language");
    facts.issued = issued_at;
    facts.identity = data_digest(inspected.file_text, photos);
    made.concluded = concluded(inspected);
    if (inspected.since)
        facts.files.push_back({"before.xml", "text/xml", trade.wording("document.before"), "Data",
                               to_bytes(years::write_before(inspected.since->carried))});
    const std::initializer_list<pdf::EmbeddedFile> always = {
        {"issue.xml", "text/xml", trade.wording("document.issue"), "Data",
         to_bytes(record::write_record(made, inspected.evidence))},
        {"photos.xml", "text/xml", trade.wording("document.photos"), "Data", to_bytes(photos)},
        {"survey.xml", "text/xml", trade.wording("document.survey"), "Source", to_bytes(inspected.file_text)}};
    facts.files.insert(facts.files.end(), always);
    if (!trade.own.files.empty())
        facts.files.push_back({"templates.xml", "text/xml", trade.wording("document.templates"), "Data",
                               to_bytes(trade::write_carried(trade.own))});
    if (signer != nullptr)
        facts.signature = pdf::SignatureFacts{
            signer->name, trade.wording("document.reason", {{"number", survey.number}}), survey.attendance.place};
    return facts;
}

std::vector<record::Work> works_of(const report::Material& material) {
    std::vector<record::Work> works;
    for (const report::WorkLine& line : report::works_in_order(material))
        works.push_back({line.item, line.verdict, line.first, line.words, line.because});
    return works;
}

/// The pages, and all that goes into the file beside them.
struct Composed {
    layout::Pages pages;
    pdf::DocumentFacts facts;
    record::Made made;
};
/// The surveyor's words are marked as such while the pages are made, where they are in another language than these.
Composed compose(Inspected& inspected, const trade::Trade& trade, std::int64_t issued_at,
                 const crypto::CertificateFacts* signer, const record::Made& made) {
    const drawing::RigGeometry rig = drawing::rig_geometry(inspected.survey, trade);
    const report::Material material{
        .survey = inspected.survey,
        .trade = trade,
        .evidence = inspected.evidence,
        .completeness = inspected.completeness,
        .assessment = inspected.assessment,
        .calculations = inspected.calculations,
        .rig = rig,
        .units = inspected.units,
        .data_digest = data_digest(inspected.file_text, report::write_register(inspected.survey, inspected.evidence)),
        .issued_on = local_from_seconds(issued_at).date,
        .signer = signer_facts(signer, issued_at, made.date_typed.value_or(false), trade.wording),
        .logo = made.logo,
        .replaced = replaced_facts(made, trade.wording),
        .own_rules = own_rules(inspected, trade),
        .since = inspected.since.get()};
    Composed composed{{}, {}, made};
    composed.made.works = works_of(material);
    composed.facts = document_facts(inspected, trade, issued_at, signer, composed.made);
    const bool foreign = survey::written_in_another(inspected.survey, trade.wording.language());
    if (foreign) {
        survey::mark_own_words(inspected.survey);
        conclude(inspected, trade);
    }
    composed.pages = pages_of(material, layout::sheet_of(made.paper));
    if (foreign) {
        survey::unmark_own_words(inspected.survey);
        conclude(inspected, trade);
    }
    return composed;
}

}  // namespace

record::Made made_here() {
#if defined(__x86_64__)
    constexpr const char* processor = "x86-64";
#elif defined(__aarch64__)
    constexpr const char* processor = "aarch64";
#else
    constexpr const char* processor = "another processor";
#endif
    record::Made made;
    made.program = "rigdeed " + std::string(version()) + ", " + pdf::library() + ", " + processor;
    made.build = crypto::read_fingerprint(build_digest());
    made.pictures = evidence::picture_library();
    return made;
}

record::Concluded concluded(const Inspected& inspected) {
    const assessment::Assessment& assessment = inspected.assessment;
    record::Concluded concluded{inspected.completeness.complete(),
                                std::string(assessment::name_of(assessment.answer)),
                                assessment.do_not_climb,
                                {}};
    for (std::size_t i = 0; i < concluded.verdicts.size(); ++i)
        concluded.verdicts[i] = assessment.count(static_cast<survey::Verdict>(i));
    return concluded;
}

Digest data_digest(std::string_view survey_file, std::string_view photo_register) {
    return crypto::sha256(crypto::sha256(survey_file).hex() + "\n" + crypto::sha256(photo_register).hex() + "\n");
}

Problems problems_of(std::string_view text, const std::string& file, const trade::Trade& trade) {
    return read(text, file, trade).problems;
}

Inspection inspect(const std::filesystem::path& survey_file, const trade::Trade& trade, const InspectOptions& options) {
    const Bytes bytes = options.text ? to_bytes(*options.text) : read_file(survey_file, survey::largest_survey);
    Inspection inspection = read(as_text(bytes), survey_file.string(), trade);
    if (!inspection.inspected) return inspection;
    Inspected& inspected = *inspection.inspected;
    inspected.on = options.on;
    inspected.assessment = assessment::assess(inspected.survey, trade);
    auto print = options.for_print ? report::for_print(inspected.assessment, inspected.survey) : evidence::ForPrint{};
    if (!options.may_give_way) print.giving_way.clear();
    print.exact = options.exact;
    inspected.evidence = evidence::gather_evidence(
        inspected.survey, print, {options.jobs, options.progress, options.copies, options.known, options.sharpness});
    inspected.units = options.units.value_or(inspected.survey.units.value_or(UnitSystem::metric));
    conclude(inspected, trade);
    return inspection;
}

layout::Pages pages_of(const report::Material& material, const layout::Paper& paper) {
    return layout::paginate(report::compose_report(material), *pdf::font_metrics(), paper);
}

ClimbSheet climb_sheet(const std::filesystem::path& survey_file, const trade::Trade& trade, sheet::Scope scope,
                       sheet::Codes codes, PaperSize paper, std::int64_t made_at) {
    const Bytes bytes = read_file(survey_file, survey::largest_survey);
    Inspection inspection = read(as_text(bytes), survey_file.string(), trade);
    if (!inspection.inspected) return {{}, 0, std::move(inspection.problems), {}};
    const survey::Survey& survey = inspection.inspected->survey;
    const auto composed = codes == sheet::Codes::as_cards
                              ? sheet::compose_cards(survey, trade)
                              : sheet::compose_climb_sheet(survey, assessment::assess(survey, trade), trade, scope,
                                                           codes == sheet::Codes::with_rows);
    if (!composed) return {};
    layout::Pages pages = layout::paginate(*composed, *pdf::font_metrics(), layout::sheet_of(paper));
    pdf::DocumentFacts facts;
    facts.title = trade.wording("sheet.document", {{"number", survey.number}});
    if (survey.surveyor.name != "?") facts.author = survey.surveyor.name;
    facts.subject = trade.wording("sheet.subject");
    facts.language = trade.wording("form.language");
    facts.issued = made_at;
    facts.identity = crypto::sha256(inspection.inspected->file_text);
    const std::size_t count = pages.pages.size();
    ClimbSheet made{pdf::render_pdf(std::move(pages), std::move(facts)).bytes, count, {}, {}};
    if (codes == sheet::Codes::none) return made;
    for (const pairing::Place& place : pairing::places_of(survey)) {
        ClimbSheet::Place& told = made.places.emplace_back();
        for (const std::size_t fitting : place.fittings) told.fittings.push_back(survey.fittings[fitting].id);
        told.up = pairing::code_text(pairing::code_of(survey, place, survey::Way::up));
        told.down = pairing::code_text(pairing::code_of(survey, place, survey::Way::down));
    }
    return made;
}

LaidOut lay_out(std::unique_ptr<Inspected> inspected, const trade::Trade& trade, const IssueOptions& options) {
    inspected->on = local_from_seconds(options.issued_at).date;
    conclude(*inspected, trade);  // it may have been inspected in the words of another language
    record::Made made = made_for(*inspected, trade, options);
    if (!options.since.empty()) {
        std::vector<years::CarriedReport> carried;
        for (const years::Given& one : options.since) made.since.push_back(one.paper), carried.push_back(one.carried);
        inspected->since = years::read_since(made.since, carried, inspected->survey, inspected->assessment, trade);
        made.earlier_photos = years::choose_pictures(*inspected->since, options.earlier_picture);
        years::place_pictures(*inspected->since, made.earlier_photos);
    }
    const crypto::CertificateFacts* signer = options.signer != nullptr ? &options.signer->certificate() : nullptr;
    Composed composed = compose(*inspected, trade, options.issued_at, signer, made);
    if (!*made.timestamp) {
        inspected.reset();  // the pages hold what they print
        return {pdf::render_pdf(std::move(composed.pages), std::move(composed.facts)), {}};
    }
    LaidOut laid_out{pdf::render_pdf(composed.pages, composed.facts), {}};
    composed.made.timestamp = false;
    composed.facts = document_facts(*inspected, trade, options.issued_at, signer, composed.made);
    laid_out.without_timestamp = [composed = std::move(composed)] {
        return pdf::render_pdf(composed.pages, composed.facts);
    };
    return laid_out;
}

std::string seal_report(LaidOut laid_out, const IssueOptions& options) {
    if (options.signer == nullptr) return std::move(laid_out.pdf.bytes);
    if (!options.stamp)
        return seal::seal(std::move(laid_out.pdf.bytes), laid_out.pdf.slot.value(), *options.signer, {});
    bool none = false;
    const crypto::Stamp stamp = [&](const Digest& signature) {
        Bytes token = options.stamp(signature);
        none = token.empty();
        return token;
    };
    std::string sealed = seal::seal(std::move(laid_out.pdf.bytes), laid_out.pdf.slot.value(), *options.signer, stamp);
    if (!none) return sealed;
    pdf::RenderedPdf without = laid_out.without_timestamp();
    return seal::seal(std::move(without.bytes), without.slot.value(), *options.signer, {});
}

std::string other_build(const record::Made& made) {
    const record::Made here = made_here();
    const std::string then = program_of(made), now = program_of(here);
    if (then != now) return "it was made by " + shown(then) + ", this is " + now;
    if (made.program != here.program)
        return "it was made by " + in_quotes(made.program) + ", this is " + in_quotes(here.program);
    return made.build == here.build ? std::string() : "it was made by another build of " + now;
}

bool same_pictures(const record::Made& made) { return made.pictures == made_here().pictures; }

Reopened read_again(const Carried& carried, bool by_own_rules) {
    auto record = record::read_record(carried.issue_record);
    if (!record) throw Error("the record of how it was made cannot be read");
    trade::OwnTemplates own;
    if (by_own_rules && !carried.own_templates.empty()) {
        auto read = trade::read_carried(carried.own_templates);
        if (!read) throw Error("the templates that it carries cannot be read");
        own = std::move(*read);
    }
    Reopened reopened{std::move(*record), nullptr, nullptr};
    reopened.trade = std::make_unique<trade::Trade>(trade::load_trade(own, reopened.record.made.language));
    Inspection inspection = read(carried.survey_file, "survey.xml", *reopened.trade);
    if (!inspection.inspected) {
        const Problem& first = inspection.problems.front();
        throw Error("the survey that it carries cannot be read: " + first.what, first.at.text(), first.hint);
    }
    reopened.inspected = std::move(inspection.inspected);
    reopened.inspected->evidence = reopened.record.evidence;
    reopened.inspected->units = reopened.record.made.units;
    reopened.inspected->on = local_from_seconds(carried.issued_at).date;
    conclude(*reopened.inspected, *reopened.trade);
    const record::Made& made = reopened.record.made;
    if (!by_own_rules || !carried.compares || (made.since.empty() && carried.before.empty())) return reopened;
    const auto before = years::read_before(carried.before);
    if (!before) throw Error("the reports of before that it carries cannot be read");
    reopened.inspected->since = years::read_since(made.since, *before, reopened.inspected->survey,
                                                  reopened.inspected->assessment, *reopened.trade);
    years::place_pictures(*reopened.inspected->since, made.earlier_photos);
    return reopened;
}

std::string make_anew(const Reopened& reopened, const Carried& carried) {
    const record::Made& then = reopened.record.made;
    record::Made made = made_here();
    made.templates = crypto::sha256(trade::write_carried(reopened.trade->own));
    made.units = then.units;
    made.paper = then.paper;
    made.language = then.language;
    made.replaces = then.replaces;
    made.since = then.since;
    made.earlier_photos = then.earlier_photos;
    made.timestamp = then.timestamp;
    made.date_typed = then.date_typed;
    made.logo = then.logo;
    Composed composed = compose(*reopened.inspected, *reopened.trade, carried.issued_at, &carried.signer, made);
    return pdf::render_pdf(std::move(composed.pages), std::move(composed.facts)).bytes;
}

}  // namespace rigdeed
