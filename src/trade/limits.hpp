#pragma once

#include <array>
#include <string_view>

#include "base/unit.hpp"

/// What can be held against a limit; assessment/quantities.cpp finds each on a fitting.
namespace rigdeed::trade {

struct QuantityName {
    std::string_view id;
    Unit unit = Unit::none;
    int decimals = 0;
};

inline constexpr std::array quantity_names{
    QuantityName{"thread-turns", Unit::none, 2},       // thread engaged, in diameters of the screw
    QuantityName{"pin-wear", Unit::percent, 0},        // of its diameter
    QuantityName{"hole-clearance", Unit::percent, 0},  // hole over pin, of the pin
    QuantityName{"plate-left", Unit::percent, 0},      // of its thickness
    QuantityName{"wall-left", Unit::percent, 0},       // of the mast's wall
    QuantityName{"rest-tension", Unit::percent, 0},    // of the breaking load
    QuantityName{"tension-apart", Unit::percent, 0},   // port against starboard, of the mean
    QuantityName{"stay-safety", Unit::none, 2},        // breaking load over load
    QuantityName{"link-ratio", Unit::none, 2},         // a link over its strand
    QuantityName{"wall-bearing", Unit::none, 2},       // what the mast's wall bears under its bolts, over the strand
    QuantityName{"bolt-ratio", Unit::none, 2},         // what bolts, and plate under them, hold, over the strand
    QuantityName{"shroud-angle", Unit::degree, 1},     // to the mast
    QuantityName{"tip-off", Unit::degree, 1},          // from the angle that halves the shroud's
    QuantityName{"leg-angle", Unit::degree, 0},        // between the legs of a split pin
    QuantityName{"split-pin-size", Unit::percent, 0},  // of the size wanted
    QuantityName{"wires-broken", Unit::none, 0},       // counted
    QuantityName{"wires-corroded", Unit::none, 0},     // counted
    QuantityName{"dent-depth", Unit::millimetre, 1},
    QuantityName{"play", Unit::millimetre, 1},
    QuantityName{"growth", Unit::percent, 1},  // of a rope's length
    QuantityName{"bow", Unit::percent, 2},     // of a mast panel, off its line
    QuantityName{"potential", Unit::volt, 2},  // between metals that nothing keeps apart
};

}  // namespace rigdeed::trade
