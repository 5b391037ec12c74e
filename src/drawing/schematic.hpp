#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "drawing/shape.hpp"
#include "survey/survey.hpp"

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
    bool seen = true;  ///< false: measured or calculated; no damage is drawn
};

/// Names of all schematics, in the order of their sheet.
[[nodiscard]] const std::vector<std::string>& schematic_names();

/// The schematic of this name, 140 pt wide; none if there is no such.
[[nodiscard]] std::optional<Schematic> schematic(std::string_view name, const SchematicWords& words);

/// The spot a sign is at: named by `where`, else the usual one, else the middle.
[[nodiscard]] Point spot_of(const Schematic& schematic, const SignPlace& sign, const SchematicWords& words);

/// Rings each sign's place in black, with a jag in vermilion where damage was seen; the finding's numbered shape stands
/// beside the first.
void mark_signs(Schematic& schematic, survey::Verdict verdict, int number, const std::vector<SignPlace>& places,
                const SchematicWords& words);

}  // namespace rigdeed::drawing
