#pragma once

#include <optional>

#include "base/quantity.hpp"

/// Pins and the plates they bear in, by the elementary formulas of mechanics of materials; split pins.
namespace rigdeed::assessment {

/// A pin through a fork, and the plate in the fork.
struct PinJoint {
    Kilonewtons load;
    Millimetres pin;
    Millimetres plate;
    Millimetres edge;  ///< from the middle of the hole to the edge, along the load
};

/// Of one cross section.
[[nodiscard]] SquareMillimetres pin_area(Millimetres pin);
[[nodiscard]] Stress double_shear(Kilonewtons load, Millimetres pin);
/// The load at which both cross sections reach `ultimate`.
[[nodiscard]] Kilonewtons pin_strength(Millimetres pin, Stress ultimate);
[[nodiscard]] Stress bearing(Kilonewtons load, Millimetres pin, Millimetres plate);
/// Nothing where the hole reaches the edge.
[[nodiscard]] std::optional<Stress> tear_out(const PinJoint& joint);
[[nodiscard]] std::optional<Kilonewtons> tear_out_strength(Millimetres pin, Millimetres plate, Millimetres edge,
                                                           Stress ultimate);
/// The plate beside its hole, torn across; nothing where the hole is as wide as the plate.
/// What a plate bears before its pin crushes it.
[[nodiscard]] Kilonewtons bearing_strength(Millimetres pin, Millimetres plate, Stress ultimate);
[[nodiscard]] std::optional<Kilonewtons> net_section_strength(Millimetres width, Millimetres hole, Millimetres plate,
                                                              Stress ultimate);
/// What a pin worn to `worn` has left of its area.
[[nodiscard]] Percent worn_area(Millimetres worn, Millimetres whole);
/// Between the legs of a split pin; nothing if the gap is wider than both legs together.
[[nodiscard]] std::optional<Degrees> leg_angle(Millimetres leg, Millimetres gap);

}  // namespace rigdeed::assessment
