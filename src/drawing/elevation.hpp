#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "drawing/rig_geometry.hpp"
#include "drawing/shape.hpp"

namespace rigdeed::drawing {

/// A finding to be marked on the elevation.
inline constexpr Points elevation_mark{7.6};  ///< of a mark's shape, from its middle

struct ElevationMark {
    const survey::Fitting* fitting = nullptr;
    survey::Verdict verdict = survey::Verdict::watch;
    int number = 0;
};

struct ElevationWords {
    std::string side_view;
    std::string from_astern;
    std::string port;
    std::string starboard;
    std::string metre;  ///< "m"
    std::string alternative;
    std::map<std::string, std::string, std::less<>> masts = {};  ///< what they are called, where there are several
};

struct ElevationOptions {
    Size size;
    bool scale = true;  ///< the heights at the left edge
    bool air = true;    ///< tint behind it
    bool side_view = true;
    bool from_astern = true;
    const survey::Fitting* only_mast_of = nullptr;  ///< from astern, just the mast of this one
    bool aloft_unseen = false;                   ///< the inspection stopped at the deck: everything above it is hatched
    std::set<std::string, std::less<>> renewed;  ///< stays to be renewed: their line is underlaid
};

/// Where a fitting was drawn, for tests and for marks: which view, and the point in the drawing.
struct ElevationSpot {
    bool from_astern = false;
    Point at;
    int out = 0;  ///< which way is outboard: -1 port, 1 starboard, from astern
};

struct Elevation {
    Drawing drawing;
    std::vector<ElevationSpot> spots;  ///< of the marks, in their order
    std::vector<Point> shapes;         ///< where their numbered shapes stand
    int scale_one_to = 0;              ///< on paper
    Points waterline;
};

/// The rig to scale: side view with the bow to the left, and each mast from astern with port to the left, on one
/// waterline; every mark at its own height, its numbered shape clear of the lines as far as there is room.
[[nodiscard]] Elevation elevation(const RigGeometry& rig, const std::vector<ElevationMark>& marks,
                                  const ElevationOptions& options, const ElevationWords& words);

/// The room that both views need at a scale.
[[nodiscard]] Size room_of(const RigGeometry& rig, int scale_one_to);

/// Whether a fitting is better seen from astern: it stands off the centreline.
[[nodiscard]] bool seen_from_astern(const RigGeometry& rig, const survey::Fitting& fitting);

}  // namespace rigdeed::drawing
