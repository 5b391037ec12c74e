#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "drawing/shape.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"

namespace rigdeed::drawing {

/// Gives the words of a key: "schematic.label.mouth".
using SchematicWords = std::function<std::string(std::string_view)>;

/// A fitting as a rigger would draw it, and where on it things are.
struct Schematic {
    Drawing drawing;
    std::map<std::string, Point, std::less<>> spots;  ///< by the key of their label: "mouth", "pin-hole"
    std::vector<std::string> label_keys;              ///< in drawing order
};

/// Where a sign is: as the surveyor wrote it, and where such a sign usually is (a key of the schematic's spots).
struct SignPlace {
    std::string usual;
    std::string where;
    trade::Shows shows = trade::Shows::nothing;  ///< nothing, too, for what was measured or calculated
    bool all_of_it_gone = false;                 ///< the fitting itself, not a part of it
};

/// What is known of this fitting, that its drawing shows as it is.
struct SchematicFacts {
    std::optional<double> leg_angle;      ///< degrees between the legs of a split pin
    std::optional<double> spreader_rise;  ///< degrees above the horizontal
    bool upside_down = false;             ///< a pin put in from below
};

/// Names of all schematics, in the order of their sheet.
[[nodiscard]] const std::vector<std::string>& schematic_names();

/// Whether the schematic of this name has a part that is labelled by this key.
[[nodiscard]] bool has_label(std::string_view name, std::string_view key);

/// The schematic of this name, 140 pt wide; none if there is no such.
[[nodiscard]] std::optional<Schematic> schematic(std::string_view name, const SchematicWords& words,
                                                 const SchematicFacts& facts = {});

/// The spot a sign is at: named by `where`, else the usual one, else the middle; and whether it was named.
struct SignSpot {
    Point at;
    bool named = false;
};
[[nodiscard]] SignSpot spot_of(const Schematic& schematic, const SignPlace& sign, const SchematicWords& words);

/// What a sign looks like, in vermilion on white, some 14 pt across; nothing where there is nothing to draw of it.
void add_sign_glyph(Drawing& drawing, Point at, trade::Shows shows);

/// Rings each sign's place in black: with what it looks like where the place was named, dashed and empty where it was
/// not; a fitting that is gone is drawn dashed, and not ringed. The finding's numbered shape stands beside the first.
void mark_signs(Schematic& schematic, survey::Verdict verdict, int number, const std::vector<SignPlace>& places,
                const SchematicWords& words);

/// A measure, with the spot of the schematic that it is taken at.
struct MeasureTag {
    Point at;
    std::string words;  ///< "12.8 mm"
};

/// A pointer from each tag to its spot, clear of words and of what was marked before, as far as there is room;
/// which of them have found a place.
std::vector<bool> add_measure_tags(Schematic& schematic, const std::vector<MeasureTag>& tags);

/// The spot that a measure is taken at, by its name; none where that is no one place, or not drawn.
[[nodiscard]] std::optional<Point> spot_of_measure(const Schematic& schematic, std::string_view measure);

}  // namespace rigdeed::drawing
