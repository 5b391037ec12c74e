#pragma once

#include <cstddef>
#include <set>
#include <string>
#include <vector>

#include "drawing/shape.hpp"

namespace rigdeed::drawing {

/// Which of the twelve outer wires show a sign, 1 to 12. A count says how many and not where: it marks none.
struct WireStates {
    std::size_t broken = 0;  ///< at least as many as are named
    std::size_t dull = 0;
    std::set<int> broken_wires;
    std::set<int> dull_wires;
};

/// The words beside it, in the report's language.
struct StrandWords {
    std::string broken;
    std::string dull;
    std::string whole;
    std::string hidden;
    std::string unplaced;  ///< that a count says how many, not where: beside those that are not named
    std::string alternative;
};

/// The section of 1x19 strand: twelve outer wires numbered, seven inside hatched because nobody sees them,
/// those named as broken or dull marked, and told beside it how many there are.
[[nodiscard]] Drawing strand_section(const WireStates& states, const StrandWords& words);

/// Places of the 19 wires for a wire radius of 1: 12 outside, 6 inside, 1 in the middle; in units of that radius.
/// Rings of radius 2 and 2/sin(15°)/2 = 3.864 (geometry of touching circles).
[[nodiscard]] std::vector<Point> wire_places();

}  // namespace rigdeed::drawing
