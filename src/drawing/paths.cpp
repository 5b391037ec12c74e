#include "drawing/paths.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rigdeed::drawing {

Path circle(Point centre, Points radius) {
    const Points k = radius * 0.5522847498;  // handles of a quarter circle
    const auto at = [&](Points dx, Points dy) { return Point{centre.x + dx, centre.y + dy}; };
    const Points zero;
    return {MoveTo{at(radius, zero)},
            CurveTo{at(radius, k), at(k, radius), at(zero, radius)},
            CurveTo{at(-k, radius), at(-radius, k), at(-radius, zero)},
            CurveTo{at(-radius, -k), at(-k, -radius), at(zero, -radius)},
            CurveTo{at(k, -radius), at(radius, -k), at(radius, zero)},
            Close{}};
}

Path polygon(const std::vector<Point>& corners) {
    Path path;
    for (const Point& corner : corners) {
        if (path.empty()) path.push_back(MoveTo{corner});
        else path.push_back(LineTo{corner});
    }
    path.push_back(Close{});
    return path;
}

Path line(Point from, Point to) { return {MoveTo{from}, LineTo{to}}; }

Path rectangle(const Box& box) {
    return polygon(
        {{box.left(), box.top()}, {box.right(), box.top()}, {box.right(), box.bottom()}, {box.left(), box.bottom()}});
}

Path hexagon(Point centre, Points radius) {
    std::vector<Point> corners;
    for (int i = 0; i < 6; ++i) {
        const double angle = i * std::numbers::pi / 3;
        corners.push_back({centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)});
    }
    return polygon(corners);
}

Path diamond(Point centre, Points half) {
    return polygon({{centre.x - half, centre.y},
                    {centre.x, centre.y - half},
                    {centre.x + half, centre.y},
                    {centre.x, centre.y + half}});
}

void move_by(Path& path, Point by) {
    for (Segment& segment : path) {
        if (auto* move = std::get_if<MoveTo>(&segment)) move->to = move->to + by;
        if (auto* line = std::get_if<LineTo>(&segment)) line->to = line->to + by;
        if (auto* curve = std::get_if<CurveTo>(&segment))
            *curve = {curve->control1 + by, curve->control2 + by, curve->to + by};
    }
}

Path hatch(const Box& box, Points pitch) {
    Path path;
    const Points step = pitch * std::numbers::sqrt2;
    const Points end = box.size.width + box.size.height;
    for (Points c = step * 0.5; c < end; c += step) {  // x - left + (bottom - y) … = c along the foot
        const Point low{box.left() + std::min(c, box.size.width),
                        box.bottom() - (c > box.size.width ? c - box.size.width : Points{})};
        const Point high{box.left() + (c > box.size.height ? c - box.size.height : Points{}),
                         box.bottom() - std::min(c, box.size.height)};
        // mirrored so that the lines rise to the right
        const auto mirror = [&](Point p) { return Point{box.left() + box.right() - p.x, p.y}; };
        path.push_back(MoveTo{mirror(low)});
        path.push_back(LineTo{mirror(high)});
    }
    return path;
}

Path hatch(Point centre, Points radius, Points pitch) {
    Path path;
    for (Points offset = pitch * 0.5 - radius; offset < radius; offset += pitch) {
        const double half = std::sqrt(std::max(0.0, radius.value * radius.value - offset.value * offset.value));
        const double c = std::numbers::sqrt2 / 2;
        const Point middle{centre.x + offset * c, centre.y + offset * c};
        const Points d{half * c};
        path.push_back(MoveTo{{middle.x - d, middle.y + d}});
        path.push_back(LineTo{{middle.x + d, middle.y - d}});
    }
    return path;
}

}  // namespace rigdeed::drawing
