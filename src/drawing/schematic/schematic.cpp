#include "drawing/schematic.hpp"

#include <algorithm>
#include <cmath>

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
    // the number stands where no label does: at the side of the frame that is farther from the sign's own half
    const bool left = at.x < drawing.size.width * 0.5;
    const Point shape{left ? at.x - ring - u * 1.9 : at.x + ring + u * 1.9, at.y};
    add(line({left ? at.x - ring : at.x + ring, at.y}, {left ? shape.x + u : shape.x - u, at.y}), 1.1_pt, black);
    drawing.items.push_back(Shape{circle(shape, u * 1.45), {}, white, 1});
    add_verdict_shape(drawing, mark.verdict, shape, u, mark.number);
}

}  // namespace rigdeed::drawing
