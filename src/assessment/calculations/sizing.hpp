#pragma once

#include "base/quantity.hpp"

namespace rigdeed::assessment {

/// Righting moment at 30° out of a heel test: as long as the metacentre stands still, m · g · a · sin 30° / tan φ.
[[nodiscard]] NewtonMetres moment_by_heel_test(Kilograms mass, Millimetres arm, Degrees heel);

/// Change of a stay's tension for a change of temperature, mast and hull taken as stiff: E · A · (αm − αs) · ΔT.
[[nodiscard]] Kilonewtons tension_by_warmth(Stress modulus, Millimetres diameter, double mast, double stay,
                                            double kelvin);

/// Breaking load that a rope needs so that its tension at rest is no more than `most` of it.
[[nodiscard]] Kilonewtons strength_for_creep(Kilonewtons at_rest, Percent most);

}  // namespace rigdeed::assessment
