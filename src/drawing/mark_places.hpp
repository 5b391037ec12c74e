#pragma once

#include <utility>
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
    /// Left and right edge of each spot's own view, in the order of the spots; none: all is one view.
    std::vector<std::pair<Points, Points>> views = {};
};

/// One for each spot: no two leaders cross, no shape lies on words; on the outboard side of what stands to port or
/// starboard, within its own view, clear of other shapes and their leaders, and of lines, as far as there is room.
[[nodiscard]] std::vector<Point> places_of_marks(const std::vector<ElevationSpot>& spots, const MarkField& field);

/// Where a leader parts the lines that it crosses: none along which it runs, or at which it begins.
[[nodiscard]] std::vector<Segment2> partings(const Segment2& leader, const std::vector<Segment2>& lines);

}  // namespace rigdeed::drawing
