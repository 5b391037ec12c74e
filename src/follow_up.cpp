#include "follow_up.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "base/text.hpp"
#include "crypto/digest.hpp"
#include "pdf/font_metrics.hpp"
#include "pdf/render.hpp"

namespace rigdeed {
namespace {

constexpr std::int64_t noon = 12 * 3600;

/// The photos of works as those of a survey that shows nothing else: the same reading, the same register.
survey::Survey photos_of(const works::WorksDone& works) {
    survey::Survey survey;
    survey.file = works.file;
    survey.number = works.number;
    survey.photos.folder = works.photos;
    survey.photos.line = works.photos_line;
    for (const std::string& name : works::photo_names(works)) {
        survey::OtherPhoto& photo = survey.photos.others.emplace_back();
        photo.name = name;
        photo.shows = "?";
    }
    return survey;
}

std::string register_of(const WorksInspected& inspected) {
    return report::write_register(photos_of(inspected.works), inspected.evidence);
}

void conclude(WorksInspected& inspected) {
    inspected.conclusion = works::conclude(inspected.works, inspected.answered(), inspected.evidence);
}

std::vector<record::Work> open_works(const works::Conclusion& conclusion) {
    std::vector<record::Work> open;
    for (const works::Line& line : conclusion.lines)
        if (!line.closed) open.push_back(*line.asked);
    return open;
}

struct Composed {
    layout::Pages pages;
    pdf::DocumentFacts facts;
};

Composed compose(const WorksInspected& inspected, const trade::Trade& trade, std::int64_t issued_at,
                 const crypto::CertificateFacts* signer, record::Made made) {
    const std::string photos = register_of(inspected);
    const Digest digest = data_digest(inspected.file_text, photos);
    const works::Answered answered = inspected.answered();
    const works::Material material{.works = inspected.works,
                                   .answered = answered,
                                   .conclusion = inspected.conclusion,
                                   .evidence = inspected.evidence,
                                   .trade = trade,
                                   .report_sha256 = inspected.given.paper.sha256.hex(),
                                   .report_signer = inspected.given.paper.signer,
                                   .data_digest = digest.hex(),
                                   .issued_on = local_from_seconds(issued_at).date,
                                   .signer = signer != nullptr ? signer->name : std::string(),
                                   .fingerprint = signer != nullptr ? signer->fingerprint.hex() : std::string()};
    made.concluded = concluded(inspected);
    made.works = open_works(inspected.conclusion);
    Composed composed;
    composed.pages =
        layout::paginate(works::compose_follow_up(material), *pdf::font_metrics(), layout::sheet_of(made.paper));
    pdf::DocumentFacts& facts = composed.facts;
    const trade::Wording& words = trade.wording;
    facts.title =
        words("works-done.document", {{"number", inspected.works.number}}) + ", " + answered.survey.yacht.name;
    facts.author = inspected.works.rigger;
    facts.subject = words("works-done.subject", {{"number", answered.survey.number}});
    facts.language = words("form.language");
    facts.issued = issued_at;
    facts.identity = digest;
    facts.files = {{"before.xml", "text/xml", words("works-done.file.report"), "Data",
                    to_bytes(years::write_before({inspected.given.carried}))},
                   {"issue.xml", "text/xml", words("document.issue"), "Data",
                    to_bytes(record::write_record(made, inspected.evidence))},
                   {"photos.xml", "text/xml", words("document.photos"), "Data", to_bytes(photos)},
                   {"works.xml", "text/xml", words("works-done.file"), "Source", to_bytes(inspected.file_text)}};
    if (!trade.own.files.empty())
        facts.files.insert(facts.files.end() - 1, {"templates.xml", "text/xml", words("document.templates"), "Data",
                                                   to_bytes(trade::write_carried(trade.own))});
    if (signer != nullptr)
        facts.signature =
            pdf::SignatureFacts{signer->name, words("works-done.reason", {{"number", inspected.works.number}}),
                                answered.survey.attendance.place};
    return composed;
}

record::Made made_for(const trade::Trade& trade, const WorksInspected& inspected) {
    record::Made made = made_here();
    made.templates = crypto::sha256(trade::write_carried(trade.own));
    made.paper = trade.letterhead.paper;
    made.language = trade.wording.language();
    made.since = {inspected.given.paper};
    return made;
}

}  // namespace

works::Answered answered_by(const Reopened& report, const Date& issued, const Date& on) {
    return {report.record.made,
            report.inspected->survey,
            report.inspected->assessment,
            *report.trade,
            report.record.evidence,
            issued,
            on};
}

works::Answered WorksInspected::answered() const { return answered_by(report, given.paper.issued, on); }

record::Concluded concluded(const WorksInspected& inspected) {
    return {inspected.conclusion.complete(), inspected.conclusion.answer, inspected.conclusion.do_not_climb,
            inspected.conclusion.open};
}

Reopened read_answered(const years::Given& given) {
    Carried carried;
    carried.survey_file = given.carried.survey_file;
    carried.issue_record = given.carried.issue_record;
    carried.own_templates = given.carried.own_templates;
    carried.compares = false;
    carried.issued_at = seconds_since_epoch({given.paper.issued, {0}}) + noon;
    Reopened report = read_again(carried, true);
    if (!report.record.made.works)
        throw Error("the record of the report has no works list: it is of " + record::program_of(report.record.made),
                    {}, "issue the survey again with this version, then answer that report");
    if (!report.record.made.concluded || !report.record.made.concluded->complete)
        throw Error("the report is of an incomplete survey: its works list may lack what nobody looked at", {},
                    "complete the survey and issue it, then answer that report");
    // By other rules the same survey may be judged otherwise; by the same it says what it said.
    if (other_build(report.record.made).empty() && report.record.made.concluded != concluded(*report.inspected))
        throw Error("the survey of the report does not say what its record says");
    return report;
}

std::unique_ptr<WorksInspected> inspect_works(std::string_view text, works::WorksDone works, years::Given given,
                                              const InspectOptions& options) {
    auto inspected = std::make_unique<WorksInspected>();
    inspected->file_text = std::string(text);
    inspected->works = std::move(works);
    inspected->given = std::move(given);
    inspected->report = read_answered(inspected->given);
    inspected->on = options.on.value_or(Date{});
    inspected->evidence = evidence::gather_evidence(
        photos_of(inspected->works), options.for_print ? works::for_print(inspected->works) : evidence::ForPrint{},
        {options.jobs, options.progress, options.copies, nullptr, false});
    conclude(*inspected);
    return inspected;
}

LaidOut lay_out_works(std::unique_ptr<WorksInspected> inspected, const trade::Trade& trade,
                      const IssueOptions& options) {
    record::Made made = made_for(trade, *inspected);
    made.date_typed = options.date_typed;
    made.timestamp = options.signer != nullptr && options.stamp != nullptr;
    const crypto::CertificateFacts* signer = options.signer != nullptr ? &options.signer->certificate() : nullptr;
    Composed composed = compose(*inspected, trade, options.issued_at, signer, made);
    LaidOut laid_out{pdf::render_pdf(composed.pages, composed.facts), {}};
    if (!*made.timestamp) return laid_out;
    made.timestamp = false;
    composed = compose(*inspected, trade, options.issued_at, signer, made);
    laid_out.without_timestamp = [composed = std::move(composed)] {
        return pdf::render_pdf(composed.pages, composed.facts);
    };
    return laid_out;
}

std::unique_ptr<WorksInspected> read_works_again(const Carried& carried, const record::Reading& record) {
    auto [works, problems] = works::read_works(carried.works_file, "works.xml");
    if (!works) {
        const Problem& first = problems.front();
        throw Error("the works file that it carries cannot be read: " + first.what, first.at.text(), first.hint);
    }
    const auto before = years::read_before(carried.before);
    if (!before || before->size() != 1 || record.made.since.size() != 1)
        throw Error("the report that it answers is not carried in it");
    if (works->report_sha256 != record.made.since.front().sha256)
        throw Error("its works file answers another report than its record names");
    auto inspected = std::make_unique<WorksInspected>();
    inspected->file_text = std::string(carried.works_file);
    inspected->works = std::move(*works);
    inspected->given = {record.made.since.front(), before->front()};
    inspected->report = read_answered(inspected->given);
    inspected->on = local_from_seconds(carried.issued_at).date;
    inspected->evidence = record.evidence;
    conclude(*inspected);
    if (!inspected->conclusion.complete())
        throw Error("the works file that it carries is not complete: " + inspected->conclusion.gaps.front().what);
    return inspected;
}

void take_over(const WorksInspected& inspected, survey::Survey& next) {
    const std::string by = inspected.works.rigger + ", works " + inspected.works.number;
    for (const works::Line& line : inspected.conclusion.lines) {
        if (line.item == nullptr || !line.item->on || line.item->done == works::Done::no ||
            line.item->done == works::Done::worse)
            continue;
        const PartDate day{line.item->on->year, line.item->on->month, line.item->on->day};
        const bool otherwise = line.item->done == works::Done::otherwise;
        next.history.repairs.push_back({0, day, otherwise ? line.item->words : line.asked->words, by});
        if (!line.closed) continue;
        for (const works::Renewed& one : line.item->renewed) {
            const auto stay = std::find_if(next.stays.begin(), next.stays.end(),
                                           [&](const survey::Stay& other) { return other.id == one.stay; });
            if (stay == next.stays.end() || !one.diameter) continue;
            stay->make = one.make;
            stay->alloy = one.alloy;
            stay->diameter = *one.diameter;
            stay->breaking_load = one.breaking_load;
            stay->fitted = day;
            stay->age_source = survey::AgeSource::invoice;
            for (const auto& [attribute, value] :
                 {std::pair("make", one.make), std::pair("alloy", one.alloy), std::pair("diameter", one.diameter->text),
                  std::pair("fitted", day.iso()), std::pair("age-source", std::string("invoice"))})
                next.open.push_back({0, stay->id, attribute, value});
        }
    }
}

std::string make_works_anew(std::unique_ptr<WorksInspected> inspected, const Carried& carried,
                            const record::Made& then) {
    trade::OwnTemplates own;
    if (!carried.own_templates.empty()) {
        auto read = trade::read_carried(carried.own_templates);
        if (!read) throw Error("the templates that it carries cannot be read");
        own = std::move(*read);
    }
    const trade::Trade trade = trade::load_trade(own, then.language);
    record::Made made = made_for(trade, *inspected);
    made.paper = then.paper;
    made.date_typed = then.date_typed;
    made.timestamp = then.timestamp;
    Composed composed = compose(*inspected, trade, carried.issued_at, &carried.signer, made);
    return pdf::render_pdf(std::move(composed.pages), std::move(composed.facts)).bytes;
}

}  // namespace rigdeed
