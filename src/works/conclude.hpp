#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "assessment/assessment.hpp"
#include "base/date.hpp"
#include "evidence/evidence.hpp"
#include "record/record.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"
#include "works/works.hpp"

namespace rigdeed::works {

/// The report whose works list is answered, read again.
struct Answered {
    const record::Made& record;
    const survey::Survey& survey;
    const assessment::Assessment& assessment;
    const trade::Trade& trade;
    const evidence::Evidence& photos;  ///< of the report
    Date issued;                       ///< the report
    Date on;                           ///< day of the follow-up's issue, or of the check
};

/// What is missing in the answers; as long as there is any, no follow-up is issued.
struct Gap {
    std::string code;
    int line = 0;
    int item = 0;  ///< 0: of no single one
    std::string what;
    std::string hint;
};

/// Whether an item is closed: done as the list asks, with its photos.
struct Line {
    const record::Work* asked = nullptr;
    const Item* item = nullptr;          ///< none: not answered
    const survey::Stay* stay = nullptr;  ///< which it renews
    bool closed = false;
};

struct Conclusion {
    std::vector<Line> lines;  ///< of the works list, in its order
    std::vector<Gap> gaps;
    std::string answer;                 ///< name of assessment::Answer, or "works-done", or "found-worse"
    bool do_not_climb = true;           ///< the bar of the report stands
    std::array<std::size_t, 5> open{};  ///< how many items of each verdict are

    [[nodiscard]] bool complete() const { return gaps.empty(); }
};

/// Worse answers are never concluded milder: "not to be sailed" is lifted only when every item to be renewed is done as
/// the list asks, the bar to climbing only when every item is that comes before anyone climbs; what was found worse
/// lifts nothing. `evidence` is of the photos named in `works`.
[[nodiscard]] Conclusion conclude(const WorksDone& works, const Answered& answered, const evidence::Evidence& evidence);

/// The form to fill in for a report's works list.
[[nodiscard]] WorksDone form_for(const Answered& answered);

/// Every photo named, once.
[[nodiscard]] std::vector<std::string> photo_names(const WorksDone& works);

}  // namespace rigdeed::works
