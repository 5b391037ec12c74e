#pragma once

#include <optional>

#include "base/quantity.hpp"

/// Bolts that hold a tang to the mast or a chainplate to the hull, and what they bear in; elementary formulas of
/// mechanics of materials. Bolts share the load alike.
namespace rigdeed::assessment {

/// One plate or wall, and the bolts through it.
struct BoltGroup {
    double bolts = 1;      ///< how many
    Millimetres diameter;  ///< that bears: of the bolt, or of a tube that goes through with it
    Millimetres plate;     ///< its thickness
};

/// p = F / (n d t).
[[nodiscard]] Stress bearing(Kilonewtons load, const BoltGroup& group);
/// The load at which plate or wall reaches `ultimate`.
[[nodiscard]] Kilonewtons bearing_strength(const BoltGroup& group, Stress ultimate);
/// Of bolts cut at one cross section each, as those of a tang or a chainplate are.
[[nodiscard]] Stress single_shear(Kilonewtons load, double bolts, Millimetres diameter);
[[nodiscard]] Kilonewtons single_shear_strength(double bolts, Millimetres diameter, Stress ultimate);

}  // namespace rigdeed::assessment
