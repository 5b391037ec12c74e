#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "drawing/shape.hpp"

namespace rigdeed::drawing {

/// How many of the twelve outer wires show a sign. Where round the strand they lie is not known from a count.
struct WireStates {
    std::size_t broken = 0;
    std::size_t dull = 0;
};

/// The words beside it, in the report's language.
struct StrandWords {
    std::string broken;
    std::string dull;
    std::string whole;
    std::string hidden;
    std::string unplaced;  ///< that the count says how many, not where
    std::string alternative;
};

/// The section of 1x19 strand: twelve outer wires numbered, seven inside hatched because nobody sees them,
/// broken and dull ones marked and named beside it.
[[nodiscard]] Drawing strand_section(const WireStates& states, const StrandWords& words);

/// Places of the 19 wires for a wire radius of 1: 12 outside, 6 inside, 1 in the middle; in units of that radius.
/// Rings of radius 2 and 2/sin(15°)/2 = 3.864 (geometry of touching circles).
[[nodiscard]] std::vector<Point> wire_places();

}  // namespace rigdeed::drawing
