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

/// A sign to be marked on a schematic.
struct SchematicMark {
    survey::Verdict verdict = survey::Verdict::watch;
    int number = 0;
    std::string code;   ///< of the sign
    std::string where;  ///< as the surveyor wrote it
};

/// Names of all schematics, in the order of their sheet.
[[nodiscard]] const std::vector<std::string>& schematic_names();

/// The schematic of this name, 140 pt wide; none if there is no such.
[[nodiscard]] std::optional<Schematic> schematic(std::string_view name, const SchematicWords& words);

/// The spot a sign is at: named by `where`, else the usual one for its code, else the first labelled.
[[nodiscard]] Point spot_of(const Schematic& schematic, std::string_view code, std::string_view where,
                            const SchematicWords& words);

/// Rings the sign's place in vermilion and black, with its numbered shape beside it.
void mark_sign(Schematic& schematic, const SchematicMark& mark, const SchematicWords& words);

}  // namespace rigdeed::drawing
