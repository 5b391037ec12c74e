#pragma once

#include <optional>
#include <vector>

#include "base/quantity.hpp"
#include "survey/survey.hpp"

/// How tight a stay is set up, from how much a part of it grew longer.
namespace rigdeed::assessment {

struct Stretch {
    Millimetres by;
    Millimetres over;  ///< length of the part that was measured
};

/// Common practice for 1x19: two metres that grow by 1 mm carry 5 % of the breaking load.
[[nodiscard]] Percent tension_by_rule(const Stretch& stretch);
/// Elastic: E A stretch / length, E and A both of the circle round the strand.
[[nodiscard]] Kilonewtons tension_by_modulus(const Stretch& stretch, Millimetres diameter, Stress modulus);
/// The stretch under a load, by the same.
[[nodiscard]] Millimetres stretch_under(Kilonewtons load, Millimetres over, Millimetres diameter, Stress modulus);
/// A wire-rope handbook's G in "stretch % = W G / D²" (lbf, in), as a modulus of the circle.
[[nodiscard]] Stress modulus_from_stretch_factor(Ratio factor);
[[nodiscard]] Percent percent_of(Kilonewtons part, Kilonewtons whole);
/// How far two lie apart, in percent of their mean; zero if both are zero.
[[nodiscard]] Percent apart(Kilonewtons one, Kilonewtons other);

/// What a gauge's reading means by the rows of its table for this diameter, straight between two of them; nothing
/// outside of the table.
[[nodiscard]] std::optional<Kilonewtons> by_gauge_table(double reading, Millimetres diameter,
                                                        const std::vector<survey::GaugeRow>& table);

}  // namespace rigdeed::assessment
