#include "drawing/verdict_shape.hpp"

#include <algorithm>
#include <string>

#include "drawing/palette.hpp"
#include "drawing/paths.hpp"

namespace rigdeed::drawing {
namespace {

constexpr Points bead{4};  ///< below that the inside is a dot

Stroke stroke(Points width, Colour colour) { return {width, colour, {}, false}; }

void add_number(Drawing& drawing, Point centre, Points size, int number, Colour colour) {
    if (number <= 0) return;
    Label label;
    label.text = std::to_string(number);
    label.size = size * (number > 99 ? 0.72 : number > 9 ? 0.88 : 1.0);
    label.at = {centre.x, centre.y + label.size * 0.36};
    label.bold = true;
    label.colour = colour;
    label.anchor = Anchor::middle;
    drawing.items.push_back(label);
}

void add_dot(Drawing& drawing, Point centre, Points radius) {
    drawing.items.push_back(Shape{circle(centre, radius), {}, black, 1});
}

}  // namespace

void add_verdict_shape(Drawing& drawing, survey::Verdict verdict, Point centre, Points u, int number) {
    const Points k = std::max(u / 8, Points{0.6});
    switch (verdict) {
        case survey::Verdict::sound:
            drawing.items.push_back(Shape{circle(centre, u * 0.94), stroke(k * 0.9, black), white, 1});
            return add_number(drawing, centre, u, number, black);
        case survey::Verdict::watch:
            drawing.items.push_back(Shape{circle(centre, u * 0.95), stroke(k * 0.8, black), white, 1});
            if (u < bead) return add_dot(drawing, centre, u * 0.45);
            drawing.items.push_back(Shape{circle(centre, u * 0.70), stroke(k * 0.5, black), sky_blue, 1});
            return add_number(drawing, centre, u, number, black);
        case survey::Verdict::rectify: {
            const Points width = k * 1.9;
            drawing.items.push_back(Shape{hexagon(centre, u * 1.08 - width * 0.3), stroke(width, blue), white, 1});
            drawing.items.push_back(Shape{hexagon(centre, u * 1.08 + width * 0.42), stroke(k * 0.4, black), {}, 1});
            if (u < bead) return add_dot(drawing, centre, u * 0.36);
            return add_number(drawing, centre, u * 1.12, number, black);
        }
        case survey::Verdict::renew:
            drawing.items.push_back(Shape{diamond(centre, u * 1.34), {}, vermilion, 1});
            drawing.items.push_back(Shape{diamond(centre, u * 1.34 - k * 1.9), {}, black, 1});
            return add_number(drawing, centre, u, number, white);
        case survey::Verdict::unseen: {
            const Points half = u * 0.88;
            const Box box{{centre.x - half, centre.y - half}, {half * 2, half * 2}};
            drawing.items.push_back(Shape{rectangle(box), {}, white, 1});
            drawing.items.push_back(Shape{hatch(box, k * 2), stroke(k * 0.55, black), {}, 1});
            drawing.items.push_back(Shape{rectangle(box), stroke(k * 0.8, black), {}, 1});
            if (number <= 0) return;
            const Points plate_width = u * (number > 9 ? 1.35 : 1.0);
            drawing.items.push_back(
                Shape{rectangle({{centre.x - plate_width * 0.5, centre.y - u * 0.55}, {plate_width, u * 1.1}}),
                      {},
                      white,
                      1});
            return add_number(drawing, centre, u * 1.12, number, black);
        }
    }
}

Drawing verdict_alone(survey::Verdict verdict) {
    Drawing drawing;
    drawing.size = {24_pt, 24_pt};
    add_verdict_shape(drawing, verdict, {12_pt, 12_pt}, 8_pt, 0);
    return drawing;
}

}  // namespace rigdeed::drawing
