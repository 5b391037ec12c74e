#pragma once

#include "base/quantity.hpp"

namespace rigdeed {

/// A place on a page or drawing; x runs right, y runs down from the top edge.
struct Point {
    Points x;
    Points y;

    auto operator<=>(const Point&) const = default;
    friend constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
    friend constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
};

struct Size {
    Points width;
    Points height;
};

/// `at` is the top left corner.
struct Box {
    Point at;
    Size size;

    [[nodiscard]] constexpr Points left() const { return at.x; }
    [[nodiscard]] constexpr Points top() const { return at.y; }
    [[nodiscard]] constexpr Points right() const { return at.x + size.width; }
    [[nodiscard]] constexpr Points bottom() const { return at.y + size.height; }
    [[nodiscard]] constexpr Point centre() const { return {at.x + size.width * 0.5, at.y + size.height * 0.5}; }
};

/// sRGB, one byte a channel.
struct Colour {
    unsigned char red = 0;
    unsigned char green = 0;
    unsigned char blue = 0;

    bool operator==(const Colour&) const = default;
};

}  // namespace rigdeed
