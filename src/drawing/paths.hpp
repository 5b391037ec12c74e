#pragma once

#include <vector>

#include "drawing/shape.hpp"

/// Paths that drawings are made of.
namespace rigdeed::drawing {

[[nodiscard]] Path circle(Point centre, Points radius);
[[nodiscard]] Path polygon(const std::vector<Point>& corners);
[[nodiscard]] Path line(Point from, Point to);
[[nodiscard]] Path rectangle(const Box& box);
/// A regular hexagon with points left and right.
[[nodiscard]] Path hexagon(Point centre, Points radius);
/// A square standing on its corner.
[[nodiscard]] Path diamond(Point centre, Points half_diagonal);

void move_by(Path& path, Point by);

/// Lines at 45° rising to the right, `pitch` apart, as far as they lie inside.
[[nodiscard]] Path hatch(const Box& box, Points pitch);
[[nodiscard]] Path hatch(Point centre, Points radius, Points pitch);

}  // namespace rigdeed::drawing
