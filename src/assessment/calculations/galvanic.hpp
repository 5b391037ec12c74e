#pragma once

#include "base/quantity.hpp"

/// Pairs of metals that touch.
namespace rigdeed::assessment {

/// The more and the less noble end of a metal's band of potentials.
struct PotentialBand {
    Volts noble;
    Volts base;
};

[[nodiscard]] Volts difference(Volts one, Volts other);
[[nodiscard]] Volts middle(const PotentialBand& band);

}  // namespace rigdeed::assessment
