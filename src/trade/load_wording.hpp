#pragma once

#include <string_view>

#include "trade/wording.hpp"

namespace rigdeed::trade {

/// The program's own words alone, for what needs nothing else of the trade.
[[nodiscard]] Wording load_wording(std::string_view language = "en");

}  // namespace rigdeed::trade
