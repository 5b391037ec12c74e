#pragma once

#include "base/date.hpp"

/// Age of a part, counted in whole months.
namespace rigdeed::assessment {

/// Whole months from the first day to the second; 0 if the second is not later.
[[nodiscard]] int whole_months(const Date& from, const Date& to);

}  // namespace rigdeed::assessment
