#pragma once

#include <vector>

#include "assessment/assessment.hpp"

namespace rigdeed::assessment {

/// A stay finished by corrosion or fatigue makes every stay of the same make and age `watch` at least
/// (common practice). The verdict goes to one fitting of each such stay that was seen: the strand, rod or
/// rope itself where possible. An unknown age counts as the same age.
void watch_siblings(std::vector<FittingVerdict>& fittings);

}  // namespace rigdeed::assessment
