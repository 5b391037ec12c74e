#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "assessment/assessment.hpp"
#include "record/record.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"
#include "years/compare.hpp"

/// The reports from before that a report compares with.
namespace rigdeed::years {

/// What of a sealed report travels on in those that follow it.
struct CarriedReport {
    std::string survey_file;
    std::string issue_record;
    std::string own_templates;  ///< by which it was judged; empty: none, or not needed

    bool operator==(const CarriedReport&) const = default;
};

/// One of them as a line of the file that carries them, and how many lines stand above the first.
[[nodiscard]] std::string written(const CarriedReport& report);
inline constexpr std::size_t lines_before_reports = 2;

/// As they are carried (before.xml), oldest first, and back; nothing if the text is no such file.
[[nodiscard]] std::string write_before(const std::vector<CarriedReport>& reports);
[[nodiscard]] std::optional<std::vector<CarriedReport>> read_before(std::string_view text);

/// A report from before, its survey read and judged by the rules of the report that follows.
struct Past {
    Past() = default;
    Past(const Past&) = delete;  // `assessment` points into `survey`
    Past& operator=(const Past&) = delete;

    record::Earlier paper;
    survey::Survey survey;
    assessment::Assessment assessment;
    evidence::Evidence evidence;  ///< as its record says it
};

/// A picture of a fitting as a report from before shows it.
struct PastPicture {
    const Past* past = nullptr;
    std::string photo;  ///< its name there
    evidence::PrintCopy print;
    Digest sha256;  ///< of the picture
};

struct Since {
    std::vector<std::unique_ptr<Past>> reports;  ///< oldest first; one at least
    std::vector<CarriedReport> carried;          ///< what of each travels on
    Comparison comparison;
    std::map<std::string, PastPicture> pictures;  ///< by the fitting's id in the survey that is reported

    [[nodiscard]] const Past& last() const { return *reports.back(); }
};

/// Reads, judges and compares. Throws Error where a survey cannot be read by these rules, or was not before the next.
[[nodiscard]] std::unique_ptr<Since> read_since(const std::vector<record::Earlier>& papers,
                                                const std::vector<CarriedReport>& carried, const survey::Survey& survey,
                                                const assessment::Assessment& assessment, const trade::Trade& trade);

/// What a report to be made is given of one from before: who made it, what travels on.
struct Given {
    record::Earlier paper;
    CarriedReport carried;
};

/// Finds a picture in the last report by its digest.
using FindPicture = std::function<evidence::PrintCopy(const Digest&)>;
/// The close photo of the last report for each fitting that needs work now, or whose verdict changed: what stands
/// beside this time's.
[[nodiscard]] std::vector<record::EarlierPhoto> choose_pictures(const Since& since, const FindPicture& find);
/// Puts them to their fittings; what fits none is left out.
void place_pictures(Since& since, const std::vector<record::EarlierPhoto>& photos);

}  // namespace rigdeed::years
