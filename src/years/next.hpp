#pragma once

#include <string>

#include "assessment/assessment.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"

namespace rigdeed::years {

/// The survey that comes after another: the same yacht, stays, sizes and fittings, each fitting with what was said of
/// it; what was seen, photographed and measured is empty, and what may have changed stands as a proposal. Fittings that
/// the plan has by now and the survey before neither has nor declares absent come in. `sha256` is that of its sealed
/// report, in hex; empty: it is not known.
struct Next {
    survey::Survey survey;
    std::size_t added = 0;  ///< fittings that the plan has by now
};
[[nodiscard]] Next next_survey(const survey::Survey& before, const assessment::Assessment& assessment,
                               const std::string& sha256, const Date& today, const trade::Trade& trade);

}  // namespace rigdeed::years
