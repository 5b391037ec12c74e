#pragma once

#include <optional>

#include "assessment/assessment.hpp"
#include "document/block.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"

/// The climb sheet: what is printed, taken up the mast and ticked off by hand.
namespace rigdeed::sheet {

enum class Scope {
    everything,  ///< every fitting, all boxes empty
    missing      ///< fittings whose looks or photo pair the survey file lacks; what it has stands in the boxes
};

/// Fittings in climbing order by station, numbered by their place in that order; cautions first, and what forbids
/// going up before the first fitting aloft. Whether photos named are there is not asked. None: nothing is missing.
[[nodiscard]] std::optional<document::Document> compose_climb_sheet(const survey::Survey& survey,
                                                                    const assessment::Assessment& assessment,
                                                                    const trade::Trade& trade, Scope scope);

}  // namespace rigdeed::sheet
