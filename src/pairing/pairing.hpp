#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "survey/survey.hpp"

/// Which photo shows which fitting, on which pass, from far or close. Takes facts, gives assignments; no file, no
/// pixel.
namespace rigdeed::pairing {

using survey::Way;

enum class View { far, close, other };

/// What is known of one fitting on one pass.
struct Look {
    std::optional<double> at;          ///< when it was looked at, seconds, on the clock of the photos' times
    std::optional<std::size_t> far;    ///< photo that the survey names already
    std::optional<std::size_t> close;  ///< the same
    bool named_far = false;            ///< the survey names one, whether or not it is among the photos
    bool named_close = false;
    bool sign = false;  ///< the survey says of a sign seen on this pass
    bool none = false;  ///< it was not seen on this pass, so the survey says
};

/// In climbing order.
struct FittingFacts {
    std::size_t place = 0;
    Look up, down;
    bool has_sign = false;  ///< the survey says of a sign on it
};

/// A code in a photo: a place of this survey, and the pass if no code of the other pass is beside it.
struct CodeSeen {
    std::size_t place = 0;
    std::optional<Way> pass;
};

struct PhotoFacts {
    std::optional<double> time;  ///< seconds; none: it lies between its neighbours
    int camera = 0;
    std::optional<CodeSeen> code;
    bool other = false;    ///< the survey names it as showing no single fitting
    double closeness = 0;  ///< natural logarithm of how much more likely it is a close one than a far one
    double sharpness = 0;  ///< the larger the sharper, among photos of one fitting
};

/// Of two photos; what is not there counts as nothing known.
using Scores = std::map<std::pair<std::size_t, std::size_t>, double>;

struct Facts {
    std::vector<FittingFacts> fittings;
    std::vector<PhotoFacts> photos;  ///< in the order they were taken
    Scores inside;                   ///< (close, far): logarithm of how much likelier with the one inside the other
    Scores alike;                    ///< (earlier, later): logarithm of how much likelier if both show the same
};

struct Proposal {
    std::vector<std::size_t> fittings;  ///< several only for far
    Way pass = Way::up;
    View view = View::other;
    double certainty = 0;  ///< the least that any of the models gave it, 0 … 1
    bool sure = false;
    bool named = false;                    ///< the survey says so already
    std::optional<std::size_t> next_best;  ///< another fitting that it may show
};

/// One proposal a photo.
[[nodiscard]] std::vector<Proposal> pair_photos(const Facts& facts);

}  // namespace rigdeed::pairing
