#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "pipeline.hpp"
#include "works/compose.hpp"
#include "years/since.hpp"

/// The flow of the paper that answers a report: works file, photos and the sealed report → complete? → pages → sealed
/// PDF. The report travels in it, as far as its pages are made from it.
namespace rigdeed {

/// Works that were read, with their photos, and the report that they answer. Neither copied nor moved.
struct WorksInspected {
    WorksInspected() = default;
    WorksInspected(const WorksInspected&) = delete;
    WorksInspected& operator=(const WorksInspected&) = delete;

    std::string file_text;
    works::WorksDone works;
    years::Given given;
    Reopened report;
    evidence::Evidence evidence;
    Date on;  ///< day of issue, or of the check
    works::Conclusion conclusion;

    [[nodiscard]] works::Answered answered() const;
};

/// Reads photos and concludes. `file` is where the works file stands. Throws Error if the report has no works list, or
/// the folder cannot be opened.
[[nodiscard]] std::unique_ptr<WorksInspected> inspect_works(std::string_view text, works::WorksDone works,
                                                            years::Given given, const InspectOptions& options);

/// The report that works answer, read again out of what it carries; and as it is held against them.
[[nodiscard]] Reopened read_answered(const years::Given& given);
[[nodiscard]] works::Answered answered_by(const Reopened& report, const Date& issued, const Date& on);

/// The follow-up in the language of this trade. Uses up what was inspected.
[[nodiscard]] LaidOut lay_out_works(std::unique_ptr<WorksInspected> inspected, const trade::Trade& trade,
                                    const IssueOptions& options);

/// The works that a follow-up carries, read again and concluded; `record` is its own. What is wrong with what it
/// carries is thrown as Error.
[[nodiscard]] std::unique_ptr<WorksInspected> read_works_again(const Carried& carried, const record::Reading& record);
/// A follow-up made anew: all but the pixels of its pictures, and unsealed.
[[nodiscard]] std::string make_works_anew(std::unique_ptr<WorksInspected> inspected, const Carried& carried,
                                          const record::Made& then);

/// What was done, in the survey that comes next: works as repairs in its history, renewed stays as they are said to be
/// now, to be confirmed by who sees them.
void take_over(const WorksInspected& inspected, survey::Survey& next);

/// What its record says of the rig.
[[nodiscard]] record::Concluded concluded(const WorksInspected& inspected);

}  // namespace rigdeed
