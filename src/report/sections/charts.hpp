#pragma once

#include <vector>

#include "assessment/calculation.hpp"
#include "document/measures.hpp"
#include "report/compose.hpp"

namespace rigdeed::report {

/// The charts of a group of calculations of one id: chain of strength for each stay with a measured link, ages
/// against the custom of each make, tension port against starboard.
[[nodiscard]] std::vector<document::Illustration> charts_of(const std::vector<const assessment::Calculation*>& members,
                                                            const Material& material);

}  // namespace rigdeed::report
