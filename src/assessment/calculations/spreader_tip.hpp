#pragma once

#include "base/quantity.hpp"

/// Forces at a spreader's tip and at the mast, by statics.
namespace rigdeed::assessment {

/// Angles of the shroud from the vertical above and below the tip, and the spreader's rise above the horizontal.
struct TipAngles {
    Degrees above;
    Degrees below;
    Degrees rise;
};

struct TipForces {
    Kilonewtons compression;  ///< along the spreader
    Kilonewtons slip;         ///< along the shroud, upwards if positive
};

/// The rise at which the tip halves the shroud's angle: (a1 - a2) / 2.
[[nodiscard]] Degrees bisecting(const TipAngles& angles);
/// N = 2 T sin((a1 + a2) / 2); compression N cos(rise - bisecting), slip N sin(rise - bisecting).
[[nodiscard]] TipForces tip_forces(Kilonewtons tension, const TipAngles& angles);
/// Tension of a shroud that holds `across` at the mast under an angle of `angle` from it: H / sin b.
[[nodiscard]] Kilonewtons shroud_tension(Kilonewtons across, Degrees angle);
/// The same for a load of one: how many times the load across the boat the shroud carries.
[[nodiscard]] Ratio times_across(Degrees angle);

}  // namespace rigdeed::assessment
