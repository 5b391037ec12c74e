#pragma once

#include "base/date.hpp"
#include "trade/wording.hpp"

/// Age of a part, counted in whole months.
namespace rigdeed::assessment {

/// Whole months from the first day to the second; 0 if the second is not later.
[[nodiscard]] int whole_months(const Date& from, const Date& to);
/// "12 years 4 months".
[[nodiscard]] std::string years_and_months(int months, const trade::Wording& words);

}  // namespace rigdeed::assessment
