#pragma once

#include <vector>

#include "drawing/elevation.hpp"
#include "drawing/segments.hpp"

/// Where the numbered shapes of marks stand.
namespace rigdeed::drawing {

/// What the shapes keep clear of, in points.
struct MarkField {
    Box frame;  ///< their middles stay within
    const std::vector<Segment2>& lines;
    const std::vector<Box>& words;
    Points size;  ///< nominal radius of a shape
};

/// One for each spot: no two leaders cross, no shape lies on words; clear of lines, other shapes and their leaders as
/// far as there is room, and on the outboard side of what stands to port or starboard.
[[nodiscard]] std::vector<Point> places_of_marks(const std::vector<ElevationSpot>& spots, const MarkField& field);

}  // namespace rigdeed::drawing
