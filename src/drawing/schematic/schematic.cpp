#include "drawing/schematic.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/text.hpp"
#include "drawing/palette.hpp"
#include "drawing/paths.hpp"
#include "drawing/schematic/parts.hpp"
#include "drawing/verdict_shape.hpp"

namespace rigdeed::drawing {
namespace {

constexpr Points frame{140};
constexpr Points above{9};  ///< room over the top of the body: axes and rings reach beyond it

const std::vector<SchematicRow>& all_rows() {
    static const std::vector<SchematicRow> rows = [] {
        std::vector<SchematicRow> all;
        for (const auto* some : {&deck_schematics(), &hull_schematics(), &terminal_schematics(), &joint_schematics(),
                                 &stay_schematics(), &mast_schematics(), &aloft_schematics(), &gear_schematics()})
            all.insert(all.end(), some->begin(), some->end());
        return all;
    }();
    return rows;
}

std::string plain(std::string_view text) {
    std::string lower;
    for (const char c : text) lower += c == '-' || c == '/' || c == '\'' ? ' ' : static_cast<char>(std::tolower(c));
    return squeezed(lower);
}

void translate(Drawing& drawing, Point by) {
    for (auto& item : drawing.items) {
        if (auto* label = std::get_if<Label>(&item)) label->at = label->at + by;
        if (auto* shape = std::get_if<Shape>(&item)) move_by(shape->path, by);
    }
}

/// Words cover about this box; widths without font metrics, a little generous.
Box box_of(const Label& label) {
    const Points width = label.size * (0.54 * static_cast<double>(count_letters(label.text)));
    const Points left = label.anchor == Anchor::left     ? label.at.x
                        : label.anchor == Anchor::middle ? label.at.x - width * 0.5
                                                         : label.at.x - width;
    return {{left, label.at.y - label.size}, {width, label.size * 1.3}};
}

/// How much of a shape would be hidden.
double covered(const Shape& shape, Point here, Points room) {
    double cost = 0;
    const auto count = [&](Point p) {
        if (std::hypot((p.x - here.x).value, (p.y - here.y).value) < room.value) cost += 3;
    };
    for (const Segment& segment : shape.path) {
        if (const auto* move = std::get_if<MoveTo>(&segment)) count(move->to);
        if (const auto* line = std::get_if<LineTo>(&segment)) count(line->to);
        if (const auto* curve = std::get_if<CurveTo>(&segment)) count(curve->to);
    }
    return cost;
}

/// How bad a place is for a shape of this size: out of the frame, on words, on lines.
double cost_of(const Drawing& drawing, Point here, Points room) {
    double cost = 0;
    if (here.x < room || here.x > drawing.size.width - room || here.y < room || here.y > drawing.size.height - room)
        cost += 500;
    for (const auto& item : drawing.items) {
        if (const auto* shape = std::get_if<Shape>(&item)) cost += covered(*shape, here, room);
        if (const auto* label = std::get_if<Label>(&item)) {
            const Box box = box_of(*label);
            if (here.x + room > box.left() && here.x - room < box.right() && here.y + room > box.top() &&
                here.y - room < box.bottom())
                cost += 200;
        }
    }
    return cost;
}

/// A place not much farther than `reach` that lies in the frame and hides no words, as far as there is one; level with
/// the sign for choice, to its right before its left.
Point free_place(const Drawing& drawing, Point at, Points reach) {
    constexpr Points room{11};
    Point best{at.x + reach, at.y};
    double least = 1e9;
    for (const double farther : {1.0, 1.3, 1.7, 2.2})
        for (int step = 0; step < 24; ++step) {
            const double angle = step * std::numbers::pi / 12;
            const Point here{at.x + reach * (farther * std::cos(angle)), at.y + reach * (farther * std::sin(angle))};
            const double cost = cost_of(drawing, here, room) + std::abs(std::sin(angle)) * 20 + (farther - 1) * 30;
            if (cost < least) least = cost, best = here;
        }
    return best;
}

}  // namespace

const std::vector<std::string>& schematic_names() {
    static const std::vector<std::string> names = [] {
        std::vector<std::string> all;
        for (const SchematicRow& row : all_rows()) all.emplace_back(row.name);
        return all;
    }();
    return names;
}

std::optional<Schematic> schematic(std::string_view name, const SchematicWords& words) {
    for (const SchematicRow& row : all_rows()) {
        if (row.name != name) continue;
        Pen pen(row.unit, frame, row.axis, words);
        row.draw(pen);
        Schematic result = pen.take(row.height);
        translate(result.drawing, {{}, above});
        for (auto& [key, spot] : result.spots) spot.y += above;
        result.drawing.size.height += above * 1.4;
        result.drawing.alternative = words("schematic.name." + std::string(name));
        return result;
    }
    return std::nullopt;
}

Point spot_of(const Schematic& schematic, const SignPlace& sign, const SchematicWords& words) {
    const std::string place = plain(sign.where);
    if (!place.empty()) {
        for (const auto& [key, spot] : schematic.spots)
            if (plain(key) == place) return spot;
        for (const std::string& key : schematic.label_keys)
            if (const std::string label = plain(words("schematic.label." + key));
                label == place || place.find(label) != std::string::npos)
                return schematic.spots.at(key);
    }
    if (const auto found = schematic.spots.find(sign.usual); found != schematic.spots.end()) return found->second;
    return Box{{}, schematic.drawing.size}.centre();
}

void mark_signs(Schematic& schematic, survey::Verdict verdict, int number, const std::vector<SignPlace>& places,
                const SchematicWords& words) {
    constexpr Points ring{10.5}, u{7.6};
    Drawing& drawing = schematic.drawing;
    const auto add = [&](Path path, Points width, Colour colour) {
        drawing.items.push_back(Shape{std::move(path), Stroke{width, colour, {}, true}, {}, 1});
    };
    std::vector<Point> spots, damaged;
    for (const SignPlace& place : places) {
        const Point at = spot_of(schematic, place, words);
        if (std::find(spots.begin(), spots.end(), at) == spots.end()) spots.push_back(at);
        if (place.seen) damaged.push_back(at);
    }
    for (const Point at : spots) {
        const Path jag{MoveTo{{at.x - 0.8_pt, at.y - 5_pt}}, LineTo{{at.x + 1.2_pt, at.y - 1.6_pt}},
                       LineTo{{at.x - 1_pt, at.y + 1.4_pt}}, LineTo{{at.x + 0.8_pt, at.y + 5_pt}}};
        if (std::find(damaged.begin(), damaged.end(), at) != damaged.end()) {
            add(jag, 2.8_pt, white);
            add(jag, 1.4_pt, vermilion);
        }
        add(circle(at, ring), 2.8_pt, white);
        add(circle(at, ring), 1.1_pt, black);
    }
    if (spots.empty()) return;
    const Point at = spots.front(), shape = free_place(drawing, at, ring + u * 1.9);
    const double dx = (shape.x - at.x).value, dy = (shape.y - at.y).value, apart = std::hypot(dx, dy);
    const auto towards = [&](Points far) { return Point{at.x + far * (dx / apart), at.y + far * (dy / apart)}; };
    add(line(towards(ring), towards(Points{apart} - u)), 1.1_pt, black);
    drawing.items.push_back(Shape{circle(shape, u * 1.45), {}, white, 1});
    add_verdict_shape(drawing, verdict, shape, u, number);
}

}  // namespace rigdeed::drawing
