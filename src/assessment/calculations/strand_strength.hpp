#pragma once

#include "base/quantity.hpp"

namespace rigdeed::survey {
struct Stay;
struct Survey;
}  // namespace rigdeed::survey
namespace rigdeed::trade {
struct Trade;
}

/// Strength of a strand by its size, and what is left of it.
namespace rigdeed::assessment {

/// F = K d² R / 1000, the form of EN 12385-2 and ISO 17893; `factor` is K, `grade` is R.
[[nodiscard]] Kilonewtons breaking_force(Millimetres diameter, Stress grade, Ratio factor);
/// Of the circle round the strand.
[[nodiscard]] SquareMillimetres circle(Millimetres diameter);
/// Of the wires alone: the circle by the fill factor.
[[nodiscard]] SquareMillimetres metal_area(Millimetres diameter, Ratio fill);
/// By area, of all wires alike.
[[nodiscard]] Percent area_left(int wires, int broken);
/// Wires at the surface; the others are hidden from every eye.
[[nodiscard]] Percent wires_seen(int wires, int outer);
/// How much weaker the one is than the other.
[[nodiscard]] Percent loss(Kilonewtons of_this, Kilonewtons against);

/// Of the strand's fitting with the most of them; a sign without a count is one wire.
[[nodiscard]] int broken_wires(const survey::Stay& stay, const survey::Survey& survey, const trade::Trade& trade);

}  // namespace rigdeed::assessment
