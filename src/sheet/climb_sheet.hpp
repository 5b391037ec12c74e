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

/// What is printed to be photographed, so that photos find their place by themselves.
enum class Codes {
    with_rows,  ///< before the rows of each place
    none,
    as_cards  ///< alone, as cards for a ring
};

/// Fittings in climbing order by station, numbered by their place in that order; cautions first, and what forbids
/// going up before the first fitting aloft. Whether photos named are there is not asked. None: nothing is missing.
[[nodiscard]] std::optional<document::Document> compose_climb_sheet(const survey::Survey& survey,
                                                                    const assessment::Assessment& assessment,
                                                                    const trade::Trade& trade, Scope scope,
                                                                    bool with_codes = true);

/// The codes of all places as cards.
[[nodiscard]] document::Document compose_cards(const survey::Survey& survey, const trade::Trade& trade);

}  // namespace rigdeed::sheet
