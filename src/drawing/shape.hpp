#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/geometry.hpp"

namespace rigdeed::drawing {

struct MoveTo {
    Point to;
};
struct LineTo {
    Point to;
};
struct CurveTo {
    Point control1;
    Point control2;
    Point to;
};  ///< cubic Bezier
struct Close {};
using Segment = std::variant<MoveTo, LineTo, CurveTo, Close>;
using Path = std::vector<Segment>;

struct Stroke {
    Points width{0.9};
    Colour colour;
    std::vector<Points> dash;  ///< lengths on, off, on …; empty: solid
    bool round = true;         ///< round caps and joins; otherwise butt and mitre
};

/// One path, filled, stroked or both; fill first.
struct Shape {
    Path path;
    std::optional<Stroke> stroke;
    std::optional<Colour> fill;
    double alpha = 1;  ///< opacity of fill and stroke, 0 … 1
};

enum class Anchor { left, middle, right };

/// A short text in a drawing; `at` is on its baseline, at the side the anchor says.
struct Label {
    Point at;
    std::string text;
    Points size{6.75};
    bool bold = false;
    Colour colour;
    Anchor anchor = Anchor::left;
};

/// A place that leads elsewhere in the paper; `to` is an anchor.
struct Lead {
    Point centre;
    Points radius;
    std::string to;
};

/// Shapes and labels in drawing order, in a frame whose top left corner is 0, 0.
struct Drawing {
    Size size;
    std::vector<std::variant<Shape, Label>> items;
    std::string alternative;  ///< what it shows, in words, for those who cannot see it
    std::vector<Lead> leads = {};
};

}  // namespace rigdeed::drawing
