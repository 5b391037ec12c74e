#pragma once

#include <vector>

#include "pairing/pairing.hpp"

/// A hidden Markov model of the climb: its states are visits, from the first fitting up to the last and back, each from
/// far, from close, or beside the point.
namespace rigdeed::pairing {

struct Habits {
    double skip_up = 0.05;        ///< that a fitting is not photographed going up, where its neighbours are
    double skip_down = 0.05;      ///< the same going down
    double skip_place_up = 0.15;  ///< that nothing is photographed at a whole place
    double skip_place_down = 0.15;
    double skip_sign = 0.003;  ///< that a fitting is not photographed on the pass that saw a sign on it
    double back = 0.03;        ///< that at one place the next is one of those before
    double pace = 90;          ///< seconds from one photo to the next at one place, of its slower ones
    double burst = 0.06;       ///< that a close photo is followed by another of the same
    double shared_far = 0.4;   ///< that at one place the next fitting needs no far photo of its own
    double stray = 0.03;       ///< that a photo shows nothing in turn
    double jump = 0.004;       ///< that the next is anywhere at all
    double clock = 70;         ///< seconds by which a time written down is off
};

/// A state: visit * 3 + view.
struct Chain {
    std::size_t visits = 0;
    std::vector<std::vector<double>> posterior;  ///< [photo][state], each sums up to 1
    double likelihood = 0;                       ///< logarithm
};

/// Visit of a fitting: up in the climbing order, then down from the last.
[[nodiscard]] std::size_t visit_of(std::size_t fitting, Way pass, std::size_t fittings);
[[nodiscard]] std::size_t fitting_of(std::size_t visit, std::size_t fittings);
[[nodiscard]] Way pass_of(std::size_t visit, std::size_t fittings);

/// `bonus`: added to the logarithm of what speaks for a state of a photo, as of photos of the other pass; may be empty.
[[nodiscard]] Chain run_chain(const Facts& facts, const Habits& habits, const std::vector<std::vector<double>>& bonus);

}  // namespace rigdeed::pairing
