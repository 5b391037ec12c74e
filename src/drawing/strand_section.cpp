#include "drawing/strand_section.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "drawing/palette.hpp"
#include "drawing/paths.hpp"

namespace rigdeed::drawing {
namespace {

constexpr Points wire{7};  // radius on paper
constexpr std::size_t outer_wires = 12;

Stroke stroke(double width, Colour colour) { return {Points{width}, colour, {}, true}; }

Label words_at(Point at, std::string text, bool bold, Anchor anchor, Points size = Points{8.25}) {
    Label label;
    label.at = at;
    label.text = std::move(text);
    label.size = size;
    label.bold = bold;
    label.anchor = anchor;
    return label;
}

class Section {
 public:
    Section(const WireStates& states, const StrandWords& words) : states_(states), words_(words) {
        const Points radius = wire * 4.864;
        centre_ = {radius + 2_pt, radius + 2_pt};
        drawing_.size = {140_pt, centre_.y * 2};
        centre_.x = 70_pt;
    }

    Drawing draw() {
        const auto places = wire_places();
        for (std::size_t i = 0; i < places.size(); ++i) {
            const Point at{centre_.x + wire * places[i].x.value, centre_.y + wire * places[i].y.value};
            if (i < outer_wires) outer(i, at);
            else hidden(at);
        }
        legend();
        drawing_.alternative = words_.alternative;
        return std::move(drawing_);
    }

 private:
    bool is_broken(std::size_t i) const { return states_.broken_wires.contains(static_cast<int>(i) + 1); }
    bool is_dull(std::size_t i) const { return !is_broken(i) && states_.dull_wires.contains(static_cast<int>(i) + 1); }
    bool all_named() const {
        return states_.broken <= states_.broken_wires.size() && states_.dull <= states_.dull_wires.size();
    }

    void outer(std::size_t i, Point at) {
        if (is_broken(i)) {
            drawing_.items.push_back(Shape{circle(at, wire), stroke(2.2, vermilion), white, 1});
            const Points d = wire * 0.45;
            drawing_.items.push_back(
                Shape{line({at.x - d, at.y - d}, {at.x + d, at.y + d}), stroke(1.3, black), {}, 1});
            drawing_.items.push_back(
                Shape{line({at.x - d, at.y + d}, {at.x + d, at.y - d}), stroke(1.3, black), {}, 1});
            return;
        }
        drawing_.items.push_back(Shape{circle(at, wire), stroke(0.9, black), is_dull(i) ? black_35 : white, 1});
        drawing_.items.push_back(words_at({at.x, at.y + 2.3_pt}, std::to_string(i + 1), false, Anchor::middle, 6.5_pt));
    }

    void hidden(Point at) {
        drawing_.items.push_back(Shape{circle(at, wire), {}, white, 1});
        drawing_.items.push_back(Shape{hatch(at, wire, 2.2_pt), stroke(0.35, black), {}, 1});
        drawing_.items.push_back(Shape{circle(at, wire), stroke(0.5, black), {}, 1});
    }

    void legend() {
        const Points x = 12_pt;
        Points y = centre_.y * 2 + 9_pt;
        const auto row = [&](const std::string& text, bool bold) {
            drawing_.items.push_back(words_at({x + 12_pt, y + 2.7_pt}, text, bold, Anchor::left, 7.25_pt));
            y += 13_pt;
        };
        if (states_.broken > 0) {
            drawing_.items.push_back(Shape{circle({x + 4_pt, y}, 4_pt), stroke(1.8, vermilion), white, 1});
            row(words_.broken, true);
        }
        if (states_.dull > 0) {
            drawing_.items.push_back(Shape{circle({x + 4_pt, y}, 4_pt), stroke(0.9, black), black_35, 1});
            row(words_.dull, true);
        }
        if (!words_.whole.empty()) {
            drawing_.items.push_back(Shape{circle({x + 4_pt, y}, 4_pt), stroke(0.9, black), white, 1});
            row(words_.whole, false);
        }
        drawing_.items.push_back(Shape{hatch({x + 4_pt, y}, 4_pt, 2.2_pt), stroke(0.35, black), {}, 1});
        drawing_.items.push_back(Shape{circle({x + 4_pt, y}, 4_pt), stroke(0.5, black), {}, 1});
        row(words_.hidden, false);
        if (!all_named()) row(words_.unplaced, false);
        drawing_.size.height = y;
    }

    WireStates states_;
    const StrandWords& words_;
    Point centre_;
    Drawing drawing_;
};

}  // namespace

std::vector<Point> wire_places() {
    std::vector<Point> places;
    const double outer_ring = 1 / std::sin(std::numbers::pi / outer_wires);
    for (std::size_t i = 0; i < outer_wires; ++i) {
        const double angle = (static_cast<double>(i) + 0.5) * 2 * std::numbers::pi / outer_wires;
        places.push_back({{outer_ring * std::sin(angle)}, {-outer_ring * std::cos(angle)}});
    }
    for (int i = 0; i < 6; ++i) {
        const double angle = (i + 0.5) * std::numbers::pi / 3;
        places.push_back({{2 * std::sin(angle)}, {-2 * std::cos(angle)}});
    }
    places.push_back({});
    return places;
}

Drawing strand_section(const WireStates& states, const StrandWords& words) { return Section(states, words).draw(); }

}  // namespace rigdeed::drawing
