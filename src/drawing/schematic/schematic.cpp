#include "drawing/schematic.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

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

/// Of two lines of one label, one after the other in the drawing.
template <class Item>
bool is_next_line(const Item& one, const Item& other) {
    const auto *a = std::get_if<Label>(&one), *b = std::get_if<Label>(&other);
    if (a == nullptr || b == nullptr || a->anchor != b->anchor || a->at.x.value != b->at.x.value) return false;
    return std::abs(a->at.y.value - b->at.y.value) < 1.5 * a->size.value;
}

/// What was up is down; words stay upright.
void turn_over(Schematic& schematic) {
    const Points height = schematic.drawing.size.height;
    const auto turn = [&](Point& p) { p.y = height - p.y; };
    for (auto& item : schematic.drawing.items) {
        if (auto* label = std::get_if<Label>(&item)) label->at.y = height - label->at.y + label->size * 0.7;
        if (auto* shape = std::get_if<Shape>(&item))
            for (Segment& segment : shape->path) {
                if (auto* move = std::get_if<MoveTo>(&segment)) turn(move->to);
                if (auto* line = std::get_if<LineTo>(&segment)) turn(line->to);
                if (auto* curve = std::get_if<CurveTo>(&segment))
                    turn(curve->control1), turn(curve->control2), turn(curve->to);
            }
    }
    for (auto& [key, spot] : schematic.spots) turn(spot);
    // The lines of one label stand in the order in which they are read.
    auto& items = schematic.drawing.items;
    for (std::size_t i = 0; i < items.size();) {
        std::size_t end = i + 1;
        while (end < items.size() && is_next_line(items[end - 1], items[end])) ++end;
        for (std::size_t first = i, last = end - 1; first < last; ++first, --last)
            std::swap(std::get<Label>(items[first]).text, std::get<Label>(items[last]).text);
        i = end;
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

/// How much of a shape would be hidden: by lines that come near, not by their corners alone.
double covered(const Shape& shape, Point here, Points room) {
    if (!shape.stroke && shape.fill == white) return 0;
    double cost = 0;
    Point last;
    const auto to = [&](Point p) {
        constexpr int steps = 8;
        for (int i = 1; i <= steps; ++i) {
            const double t = static_cast<double>(i) / steps;
            const double x = (last.x + (p.x - last.x) * t - here.x).value,
                         y = (last.y + (p.y - last.y) * t - here.y).value;
            if (std::hypot(x, y) < room.value) cost += 1;
        }
        last = p;
    };
    for (const Segment& segment : shape.path) {
        if (const auto* move = std::get_if<MoveTo>(&segment)) last = move->to;
        if (const auto* line = std::get_if<LineTo>(&segment)) to(line->to);
        if (const auto* curve = std::get_if<CurveTo>(&segment)) to(curve->to);
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

/// "at the mouth" names the mouth and no more; "lower screw" says more than "screw".
bool names_only(const std::string& place, const std::string& label) {
    static const std::set<std::string, std::less<>> little{
        "at", "the", "on", "in",  "of", "a",  "am", "an",  "im",  "der", "die", "das", "dem", "à",
        "la", "le",  "au", "les", "du", "en", "el", "los", "las", "del", "de",  "sur", "auf"};
    if (label.empty()) return false;
    const std::string padded = " " + place + " ";
    const auto found = padded.find(" " + label + " ");
    if (found == std::string::npos) return false;
    const std::string rest = squeezed(padded.substr(0, found) + " " + padded.substr(found + label.size() + 1));
    if (rest.empty()) return true;
    const auto others = split(rest, ' ');
    return std::all_of(others.begin(), others.end(), [&](const std::string& word) { return little.contains(word); });
}

/// "wall" names the mast wall, "eye" the eye that is up, where no other part of the drawing is called so.
std::optional<Point> only_part_called(const std::string& place, const Schematic& schematic,
                                      const SchematicWords& words) {
    std::optional<Point> found;
    for (const std::string& key : schematic.label_keys) {
        const std::string label = words("schematic.label." + key);
        const std::string name = plain(label.substr(0, label.find(',')));
        const std::string parts = " " + name + " " + plain(key) + " ";
        if (parts.find(" " + place + " ") == std::string::npos) continue;
        if (found) return std::nullopt;
        found = schematic.spots.at(key);
    }
    return found;
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

std::optional<Schematic> schematic(std::string_view name, const SchematicWords& words, const SchematicFacts& facts) {
    for (const SchematicRow& row : all_rows()) {
        if (row.name != name) continue;
        Pen pen(row.unit, frame, row.axis, words, facts);
        row.draw(pen);
        Schematic result = pen.take(row.height);
        if (facts.upside_down) turn_over(result);
        translate(result.drawing, {{}, above});
        for (auto& [key, spot] : result.spots) spot.y += above;
        result.drawing.size.height += above * 1.4;
        result.drawing.alternative = words("schematic.name." + std::string(name));
        return result;
    }
    return std::nullopt;
}

bool has_label(std::string_view name, std::string_view key) {
    static const auto labels = [] {
        std::map<std::string, std::set<std::string, std::less<>>, std::less<>> all;
        for (const SchematicRow& row : all_rows()) {
            const auto drawn = schematic(row.name, [](std::string_view label) { return std::string(label); });
            all[std::string(row.name)] = {drawn->label_keys.begin(), drawn->label_keys.end()};
        }
        return all;
    }();
    const auto found = labels.find(name);
    return found != labels.end() && found->second.contains(key);
}

SignSpot spot_of(const Schematic& schematic, const SignPlace& sign, const SchematicWords& words) {
    const std::string place = plain(sign.where);
    // Which of several alike has parted, their name does not say.
    const auto named = [&](Point at) {
        const auto is_at = [&](const char* key) {
            const auto spot = schematic.spots.find(key);
            return spot != schematic.spots.end() && spot->second == at;
        };
        return !(sign.shows == trade::Shows::broken && (is_at("rope-strands") || is_at("outer-wires")));
    };
    const auto found_at = [&](Point at) { return SignSpot{at, named(at)}; };
    if (!place.empty()) {
        for (const auto& [key, spot] : schematic.spots)
            if (plain(key) == place) return found_at(spot);
        for (const std::string& key : schematic.label_keys)
            if (names_only(place, plain(words("schematic.label." + key)))) return found_at(schematic.spots.at(key));
        if (const auto only = only_part_called(place, schematic, words)) return found_at(*only);
    }
    if (const auto found = schematic.spots.find(sign.usual); found != schematic.spots.end())
        return {found->second, false};
    return {Box{{}, schematic.drawing.size}.centre(), false};
}

namespace {

/// What lies under a ring is set again over it, on white: no word is crossed out.
void lift_labels(Drawing& drawing, Point at, Points ring) {
    std::vector<std::variant<Shape, Label>> lifted;
    for (auto& item : drawing.items) {
        auto* label = std::get_if<Label>(&item);
        if (label == nullptr) continue;
        const Box box = box_of(*label);
        const double x = std::clamp(at.x.value, box.left().value, box.right().value) - at.x.value;
        const double y = std::clamp(at.y.value, box.top().value, box.bottom().value) - at.y.value;
        if (std::hypot(x, y) > ring.value + 2) continue;
        const Points width = box.size.width * 0.92;
        const Points left = label->anchor == Anchor::right ? box.right() - width : box.left();
        lifted.push_back(
            Shape{rectangle({{left - 0.6_pt, box.top() + 0.8_pt}, {width + 1.2_pt, label->size * 1.1}}), {}, white, 1});
        lifted.push_back(*label);
        label->text.clear();
    }
    std::erase_if(drawing.items, [](const auto& item) {
        const auto* label = std::get_if<Label>(&item);
        return label != nullptr && label->text.empty();
    });
    drawing.items.insert(drawing.items.end(), lifted.begin(), lifted.end());
}

/// What should be there and is not: its outlines dashed.
void draw_as_gone(Drawing& drawing) {
    constexpr Points leaders{0.4};  // thinner ones lead to words
    for (auto& item : drawing.items)
        if (auto* shape = std::get_if<Shape>(&item);
            shape != nullptr && shape->stroke && shape->stroke->width > leaders) {
            shape->stroke->dash = {2.2_pt, 2_pt};
            shape->stroke->width = 0.5_pt;
        }
}

}  // namespace

void mark_signs(Schematic& schematic, survey::Verdict verdict, int number, const std::vector<SignPlace>& places,
                const SchematicWords& words) {
    constexpr Points ring{10.5}, u{7.6};
    Drawing& drawing = schematic.drawing;
    const auto add = [&](Path path, Points width, Colour colour, std::vector<Points> dash = {}) {
        drawing.items.push_back(Shape{std::move(path), Stroke{width, colour, std::move(dash), true}, {}, 1});
    };
    const bool gone =
        std::any_of(places.begin(), places.end(), [](const SignPlace& place) { return place.all_of_it_gone; });
    if (gone) draw_as_gone(drawing);
    std::vector<SignSpot> spots;
    std::vector<std::pair<Point, trade::Shows>> drawn;
    for (const SignPlace& place : places) {
        const SignSpot spot = spot_of(schematic, place, words);
        const auto known =
            std::find_if(spots.begin(), spots.end(), [&](const SignSpot& one) { return one.at == spot.at; });
        if (known == spots.end()) spots.push_back(spot);
        else known->named = known->named || spot.named;
        const std::pair<Point, trade::Shows> glyph{spot.at, place.shows};
        const bool once =
            std::none_of(drawn.begin(), drawn.end(), [&](const auto& one) { return one.first == spot.at; });
        if (!spot.named || !once || gone || place.shows == trade::Shows::nothing) continue;
        add_sign_glyph(drawing, spot.at, place.shows);
        drawn.push_back(glyph);
    }
    for (const SignSpot& spot : spots) {
        if (gone) break;  // no place on it is
        add(circle(spot.at, ring), 2.8_pt, white);
        add(circle(spot.at, ring), 1.1_pt, black,
            spot.named ? std::vector<Points>() : std::vector<Points>{2.6_pt, 2.2_pt});
    }
    if (spots.empty()) return;
    const Point at = spots.front().at, shape = free_place(drawing, at, ring + u * 1.9);
    const double dx = (shape.x - at.x).value, dy = (shape.y - at.y).value, apart = std::hypot(dx, dy);
    const auto towards = [&](Points far) { return Point{at.x + far * (dx / apart), at.y + far * (dy / apart)}; };
    add(line(towards(gone ? 0_pt : ring), towards(Points{apart} - u)), 1.1_pt, black);
    for (const SignSpot& spot : spots) lift_labels(drawing, spot.at, ring);
    drawing.items.push_back(Shape{circle(shape, u * 1.45), {}, white, 1});
    add_verdict_shape(drawing, verdict, shape, u, number);
}

}  // namespace rigdeed::drawing
