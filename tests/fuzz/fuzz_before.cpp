// A report that rests on reports from before, and a follow-up that answers one, as they are read again out of what they
// carry: everything is read and compared, or an error; and the survey that starts from it can be read.
// The input: survey, record, reports from before, works file, templates, each ended by a form feed.
#include <array>
#include <cstdint>
#include <string_view>

#include "base/error.hpp"
#include "completeness/completeness.hpp"
#include "follow_up.hpp"
#include "survey/read_survey.hpp"
#include "survey/write_survey.hpp"
#include "years/next.hpp"

using namespace rigdeed;

namespace {

void require(bool truth) {
    if (!truth) __builtin_trap();
}

constexpr std::int64_t sealed_at = 1'790'000'000;

void start_from(const Inspected& inspected, const trade::Trade& trade, const WorksInspected* works) {
    const auto gaps =
        completeness::check_completeness({inspected.survey, inspected.evidence, trade, Date{2026, 9, 21}});
    const auto assessment = assessment::assess(inspected.survey, trade, completeness::by_fitting(gaps));
    years::Next next = years::next_survey(inspected.survey, assessment, std::string(64, 'a'), Date{2027, 9, 21}, trade);
    if (works != nullptr) take_over(*works, next.survey);
    const auto again = survey::read_survey(survey::write_survey(next.survey), "survey.xml");
    require(again.survey.has_value() && again.problems.empty());
    require(again.survey->fittings.size() == next.survey.fittings.size());
}

// What is chosen to stand beside this time's pictures is of the last report.
void compare(years::Since& since) {
    const auto find = [](const Digest&) { return evidence::PrintCopy{}; };
    require(years::choose_pictures(since, find).empty());
    for (const auto& [fitting, picture] : since.pictures) require(picture.past == &since.last());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    std::string_view rest(reinterpret_cast<const char*>(bytes), size);
    Carried carried;
    for (std::string_view* part : std::array{&carried.survey_file, &carried.issue_record, &carried.before,
                                             &carried.works_file, &carried.own_templates}) {
        const std::size_t end = rest.find('\f');
        if (end == std::string_view::npos) return 0;
        *part = rest.substr(0, end);
        rest.remove_prefix(end + 1);
    }
    carried.issued_at = sealed_at;
    try {
        if (!carried.works_file.empty()) {
            const auto record = record::read_record(carried.issue_record);
            if (!record) return 0;
            const auto works = read_works_again(carried, *record);
            require(works->conclusion.complete());
            start_from(*works->report.inspected, *works->report.trade, works.get());
            return 0;
        }
        const Reopened reopened = read_again(carried, true);
        if (reopened.inspected->since) compare(*reopened.inspected->since);
        start_from(*reopened.inspected, *reopened.trade, nullptr);
    } catch (const Error& error) { require(error.code != ExitCode::bug); }
    return 0;
}
