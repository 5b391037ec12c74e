#pragma once

#include <random>
#include <vector>

#include "pairing/pairing.hpp"

/// Climbs that did not happen: a surveyor goes up and down a rig with a camera and habits, and what he did is known. It
/// works forward in time by decisions of a person; of the model that has to find out it knows nothing.
namespace rigdeed::sample {

using pairing::Way;

struct Noise {
    double skips = 0.04;        ///< fittings not photographed though their neighbours are
    double only_looked = 0.25;  ///< places where the way down has no photos
    double shares_far = 0.5;    ///< places where one far photo does for all
    double close_first = 0.02;
    double burst = 0.06;
    double stray = 0.02;  ///< a photo of nothing in turn
    double swapped =
        0.01;  ///< two neighbouring fittings in the other order; a fifth of it where he has the rows before him
    double signs = 0.0;  ///< fittings with a sign, which is seen on each pass and nearly always photographed
    double no_time = 0.0;
    double second_camera = 0.0;
    double blurred_view = 1.3;  ///< how far off the log odds of far and close are
    bool place_out_of_turn = false;
};
Noise mild();
Noise usual();
Noise rough();

struct Truth {
    std::vector<std::size_t> fittings;  ///< those that stand in it
    std::size_t fitting = 0;            ///< the one it is of
    std::size_t place = 0;
    Way pass = Way::up;
    pairing::View view = pairing::View::other;
};

struct Climb {
    pairing::Facts facts;
    std::vector<Truth> truth;
};

/// `places`: the fittings at each place, in climbing order. `anchors`: the share of looks with their time written down.
/// `codes`: the share of places whose code was photographed and can be read.
Climb climb(const std::vector<int>& places, const Noise& noise, double anchors, double codes, unsigned seed);

}  // namespace rigdeed::sample
