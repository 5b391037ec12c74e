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
                                 &stay_schematics(), &mast_schematics(), &aloft_schematics()})
            all.insert(all.end(), some->begin(), some->end());
        return all;
    }();
    return rows;
}

/// Where a sign usually sits, if the surveyor's words name no place on the drawing; the first spot that exists counts.
struct UsualPlace {
    std::string_view code;
    std::vector<std::string_view> spots;
};

const std::vector<UsualPlace>& usual_places() {
    static const std::vector<UsualPlace> places{
        {"crack-along", {"mouth", "barrel"}},
        {"crack-across", {"neck", "first-thread", "barrel", "eye"}},
        {"rust-bleed", {"mouth", "thread", "boss"}},
        {"mouth-wire", {"mouth"}},
        {"slipped", {"mouth"}},
        {"cup-full", {"mouth"}},
        {"hole-oval", {"pin-hole", "eye"}},
        {"rust-weep", {"cover", "deck", "base"}},
        {"seal-open", {"cover"}},
        {"deck-lifting", {"deck"}},
        {"out-of-line", {"plate", "bend"}},
        {"screw-bent", {"screw"}},
        {"thread-short", {"thread"}},
        {"thread-marginal", {"thread"}},
        {"thread-damaged", {"thread"}},
        {"not-locked", {"split-pin", "lock-nut"}},
        {"nut-slack", {"lock-nut"}},
        {"wires-uneven", {"wires-on-cone"}},
        {"no-split-pin", {"split-pin"}},
        {"ring-instead", {"split-pin"}},
        {"head-down", {"pin-head", "split-eye"}},
        {"leg-broken", {"leg-root"}},
        {"leg-cracked", {"leg-root"}},
        {"legs-wide", {"legs"}},
        {"legs-closed", {"legs"}},
        {"bolt-loose", {"bolt", "nut"}},
        {"paint-bubbles", {"isolator", "fastenings", "exit-plate", "mast-wall"}},
        {"white-powder", {"isolator", "fastenings", "exit-plate", "mast-wall"}},
        {"not-seized", {"seizing"}},
        {"not-bisecting", {"groove"}},
        {"hidden", {"seizing", "cover"}},
        {"sheave-worn", {"groove", "sheave"}},
        {"pin-worn", {"pin"}},
        {"pin-unlocked", {"keeper", "split-pin", "pin"}},
        {"drain-blocked", {"drain-hole"}},
        {"line-chafed", {"line"}},
        {"edge-sharp", {"lower-edge", "hole", "thimble"}},
        {"grub-screw-loose", {"grub-screw"}},
        {"does-not-burn", {"lamp"}},
        {"corroded", {"contacts", "shank"}},
        {"pecked", {"cable", "cups"}},
        {"chafed", {"line", "cable", "guardwire", "strand"}},
        {"chafe", {"lashing", "eye"}},
        {"worn", {"shank", "crown"}},
        {"stepped", {"shank"}},
        {"loose", {"base", "cranse-iron", "arm", "bolt"}},
        {"rust-under-cover", {"guardwire", "cover", "wire"}},
        {"wire-broken", {"wire", "guardwire"}},
        {"wire-dull", {"wire"}},
        {"pits", {"wire", "barrel", "rod"}},
        {"fibre-chafe", {"fibres"}},
        {"cover-chafe", {"cover"}},
        {"crack", {"neck", "corner", "weld", "pin-hole", "screw", "sleeve", "bracket", "link-plate", "box", "eye"}},
    };
    return places;
}

std::string plain(std::string_view text) {
    std::string lower;
    for (const char c : text) lower += c == '-' || c == '/' || c == '\'' ? ' ' : static_cast<char>(std::tolower(c));
    return squeezed(lower);
}

void translate(Drawing& drawing, Point by) {
    const auto moved = [&](Point p) { return p + by; };
    for (auto& item : drawing.items) {
        if (auto* label = std::get_if<Label>(&item)) label->at = moved(label->at);
        if (auto* shape = std::get_if<Shape>(&item))
            for (Segment& segment : shape->path) {
                if (auto* move = std::get_if<MoveTo>(&segment)) move->to = moved(move->to);
                if (auto* line = std::get_if<LineTo>(&segment)) line->to = moved(line->to);
                if (auto* curve = std::get_if<CurveTo>(&segment))
                    *curve = {moved(curve->control1), moved(curve->control2), moved(curve->to)};
            }
    }
}

/// Words cover about this box; widths without font metrics, a little generous.
Box box_of(const Label& label) {
    const Points width = label.size * (0.54 * static_cast<double>(label.text.size()));
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

/// A place at this distance that lies in the frame and hides no words, as far as there is one.
Point free_place(const Drawing& drawing, Point at, Points reach) {
    constexpr Points room{11};
    Point best{at.x + reach, at.y};
    double least = 1e9;
    for (int step = 0; step < 24; ++step) {
        const double angle = (step % 2 == 0 ? step / 2 : 24 - (step + 1) / 2) * 15.0;  // right first, then round it
        const Point here{at.x + reach * std::cos(angle * std::numbers::pi / 180),
                         at.y + reach * std::sin(angle * std::numbers::pi / 180)};
        double cost = std::abs(std::sin(angle * std::numbers::pi / 180)) * 20;
        if (here.x < room || here.x > drawing.size.width - room || here.y < room || here.y > drawing.size.height - room)
            cost += 500;
        for (const auto& item : drawing.items) {
            if (const auto* shape = std::get_if<Shape>(&item)) cost += covered(*shape, here, room);
            if (const auto* label = std::get_if<Label>(&item)) {
                const Box box = box_of(*label);
                if (here.x + room > box.left() && here.x - room < box.right() && here.y + room > box.top() &&
                    here.y - room < box.bottom())
                    cost += 100;
            }
        }
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

Point spot_of(const Schematic& schematic, std::string_view code, std::string_view where, const SchematicWords& words) {
    const std::string place = plain(where);
    if (!place.empty()) {
        for (const auto& [key, spot] : schematic.spots)
            if (plain(key) == place) return spot;
        for (const std::string& key : schematic.label_keys)
            if (const std::string label = plain(words("schematic.label." + key));
                label == place || place.find(label) != std::string::npos)
                return schematic.spots.at(key);
    }
    for (const UsualPlace& usual : usual_places())
        if (usual.code == code)
            for (const std::string_view key : usual.spots)
                if (const auto found = schematic.spots.find(key); found != schematic.spots.end()) return found->second;
    return schematic.label_keys.empty() ? Box{{}, schematic.drawing.size}.centre()
                                        : schematic.spots.at(schematic.label_keys.front());
}

void mark_sign(Schematic& schematic, const SchematicMark& mark, const SchematicWords& words) {
    Drawing& drawing = schematic.drawing;
    const Point at = spot_of(schematic, mark.code, mark.where, words);
    constexpr Points ring{10.5}, u{7.6};
    const auto add = [&](Path path, Points width, Colour colour) {
        drawing.items.push_back(Shape{std::move(path), Stroke{width, colour, {}, true}, {}, 1});
    };
    const Path jag{MoveTo{{at.x - 0.8_pt, at.y - 5_pt}}, LineTo{{at.x + 1.2_pt, at.y - 1.6_pt}},
                   LineTo{{at.x - 1_pt, at.y + 1.4_pt}}, LineTo{{at.x + 0.8_pt, at.y + 5_pt}}};
    add(jag, 2.8_pt, white);
    add(jag, 1.4_pt, vermilion);
    add(circle(at, ring), 2.8_pt, white);
    add(circle(at, ring), 1.1_pt, black);
    const Point shape = free_place(drawing, at, ring + u * 1.9);
    const double dx = (shape.x - at.x).value, dy = (shape.y - at.y).value, apart = std::hypot(dx, dy);
    const auto towards = [&](Points far) { return Point{at.x + far * (dx / apart), at.y + far * (dy / apart)}; };
    add(line(towards(ring), towards(Points{apart} - u)), 1.1_pt, black);
    drawing.items.push_back(Shape{circle(shape, u * 1.45), {}, white, 1});
    add_verdict_shape(drawing, mark.verdict, shape, u, mark.number);
}

}  // namespace rigdeed::drawing
