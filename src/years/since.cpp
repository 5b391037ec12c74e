#include "years/since.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "base/hollow_jpeg.hpp"
#include "base/text.hpp"
#include "base/xml.hpp"
#include "completeness/completeness.hpp"
#include "survey/read_survey.hpp"

namespace rigdeed::years {
namespace {

std::unique_ptr<Past> read_past(const record::Earlier& paper, const CarriedReport& carried, const trade::Trade& trade) {
    auto past = std::make_unique<Past>();
    past->paper = paper;
    const std::string file = "survey " + paper.number + " of before";
    auto [survey, problems] = survey::read_survey(carried.survey_file, file);
    if (survey) problems = trade::check_names(*survey, trade);
    if (!problems.empty()) {
        const Problem& first = problems.front();
        throw Error("the survey in it cannot be read by the rules of this report: " + first.what, first.at.text(),
                    first.hint);
    }
    past->survey = std::move(*survey);
    if (auto record = record::read_record(carried.issue_record)) past->evidence = std::move(record->evidence);
    // What its survey left open was not sound then, either.
    const auto gaps = completeness::check_completeness({past->survey, past->evidence, trade, paper.issued});
    past->assessment = assessment::assess(past->survey, trade, completeness::by_fitting(gaps));
    return past;
}

const survey::Fitting* fitting(const survey::Survey& survey, const std::string& id) {
    const auto found = std::find_if(survey.fittings.begin(), survey.fittings.end(),
                                    [&](const survey::Fitting& one) { return one.id == id; });
    return found == survey.fittings.end() ? nullptr : &*found;
}

/// The close photo of the pass that saw most, the first where both saw as much.
std::string close_of(const survey::Fitting& fitting) {
    const survey::Seen* best = nullptr;
    for (const survey::Seen& seen : fitting.seen)
        if (!seen.close.empty() && (best == nullptr || seen.signs.size() > best->signs.size())) best = &seen;
    return best == nullptr ? std::string() : best->close;
}

bool wants_picture(const FittingChange& one) {
    if (one.id.empty() || one.id_before.empty()) return false;
    return *one.verdict >= survey::Verdict::rectify || (one.change != Change::same && one.change != Change::fresh);
}

}  // namespace

std::string written(const CarriedReport& report) {
    return "  <report survey=\"" + xml::escaped(report.survey_file) + "\" record=\"" +
           xml::escaped(report.issue_record) + "\"" +
           (report.own_templates.empty() ? "" : " templates=\"" + xml::escaped(report.own_templates) + "\"") + "/>\n";
}

std::string write_before(const std::vector<CarriedReport>& reports) {
    std::string text = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<before xmlns=\"urn:rigdeed:before:1\">\n";
    for (const CarriedReport& one : reports) text += written(one);
    return text + "</before>\n";
}

std::optional<std::vector<CarriedReport>> read_before(std::string_view text) {
    const auto [root, problems] = xml::read(text, "before.xml");
    if (!root || root->name != "before") return std::nullopt;
    std::vector<CarriedReport> reports;
    for (const xml::Element& child : root->children) {
        const auto survey = child.get("survey"), record = child.get("record");
        if (child.name != "report" || !survey || !record) return std::nullopt;
        reports.push_back({*survey, *record, child.get("templates").value_or("")});
    }
    return reports;
}

std::unique_ptr<Since> read_since(const std::vector<record::Earlier>& papers, const std::vector<CarriedReport>& carried,
                                  const survey::Survey& survey, const assessment::Assessment& assessment,
                                  const trade::Trade& trade) {
    if (papers.size() != carried.size() || papers.empty())
        throw Error("its record names " + counted(papers.size(), "report") + " of before, and it carries " +
                    std::to_string(carried.size()));
    auto since = std::make_unique<Since>();
    since->carried = carried;
    std::vector<Visit> visits;
    for (std::size_t i = 0; i < papers.size(); ++i) {
        since->reports.push_back(read_past(papers[i], carried[i], trade));
        visits.push_back({&since->last().survey, &since->last().assessment});
    }
    visits.push_back({&survey, &assessment});
    since->comparison = compare(visits, trade);
    return since;
}

std::vector<record::EarlierPhoto> choose_pictures(const Since& since, const FindPicture& find) {
    std::vector<record::EarlierPhoto> photos;
    const Past& last = since.last();
    for (const FittingChange& one : since.comparison.fittings) {
        const survey::Fitting* before = wants_picture(one) ? fitting(last.survey, one.id_before) : nullptr;
        const evidence::Photo* photo = before != nullptr ? last.evidence.find(close_of(*before)) : nullptr;
        if (photo == nullptr || !photo->print.jpeg) continue;
        const auto digest = stands_for(as_text(*photo->print.jpeg));
        evidence::PrintCopy print = digest ? find(*digest) : evidence::PrintCopy{};
        const bool known = std::any_of(photos.begin(), photos.end(),
                                       [&](const record::EarlierPhoto& other) { return other.name == photo->name; });
        if (print.jpeg && print.width == photo->print.width && print.height == photo->print.height && !known)
            photos.push_back({since.reports.size() - 1, photo->name, std::move(print), *digest});
    }
    return photos;
}

void place_pictures(Since& since, const std::vector<record::EarlierPhoto>& photos) {
    for (const FittingChange& one : since.comparison.fittings) {
        const survey::Fitting* before = wants_picture(one) ? fitting(since.last().survey, one.id_before) : nullptr;
        if (before == nullptr) continue;
        for (const record::EarlierPhoto& photo : photos)
            if (photo.of + 1 == since.reports.size() && photo.name == close_of(*before))
                since.pictures[one.id] = {&since.last(), photo.name, photo.print, photo.sha256};
    }
}

}  // namespace rigdeed::years
