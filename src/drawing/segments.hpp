#pragma once

#include <algorithm>
#include <cmath>

#include "base/geometry.hpp"

/// Straight lines of a drawing, to see what is near them and what they cross.
namespace rigdeed::drawing {

struct Segment2 {
    Point from, to;
};

/// From a point to the nearest of the segment, in points.
[[nodiscard]] inline double distance(Point p, const Segment2& s) {
    const double dx = (s.to.x - s.from.x).value, dy = (s.to.y - s.from.y).value;
    const double px = (p.x - s.from.x).value, py = (p.y - s.from.y).value;
    const double square = dx * dx + dy * dy;
    const double t = square > 0 ? std::clamp((px * dx + py * dy) / square, 0.0, 1.0) : 0;
    return std::hypot(px - t * dx, py - t * dy);
}

/// Positive on one side of the line from a to b, negative on the other.
[[nodiscard]] inline double side_of(Point a, Point b, Point c) {
    return (b.x - a.x).value * (c.y - a.y).value - (b.y - a.y).value * (c.x - a.x).value;
}

[[nodiscard]] inline bool cross(const Segment2& one, const Segment2& other) {
    return side_of(one.from, one.to, other.from) * side_of(one.from, one.to, other.to) < 0 &&
           side_of(other.from, other.to, one.from) * side_of(other.from, other.to, one.to) < 0;
}

}  // namespace rigdeed::drawing
