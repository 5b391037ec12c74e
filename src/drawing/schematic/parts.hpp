#pragma once

#include "drawing/schematic/pen.hpp"

namespace rigdeed::drawing {

/// A schematic: its name, how large its unit is on paper, where its axis stands in the frame, how high it is.
struct SchematicRow {
    const char* name;
    Points unit;
    Points axis;
    double height;  ///< in units
    void (*draw)(Pen& pen);
};

[[nodiscard]] const std::vector<SchematicRow>& deck_schematics();
[[nodiscard]] const std::vector<SchematicRow>& hull_schematics();
[[nodiscard]] const std::vector<SchematicRow>& terminal_schematics();
[[nodiscard]] const std::vector<SchematicRow>& joint_schematics();
[[nodiscard]] const std::vector<SchematicRow>& stay_schematics();
[[nodiscard]] const std::vector<SchematicRow>& mast_schematics();
[[nodiscard]] const std::vector<SchematicRow>& aloft_schematics();
[[nodiscard]] const std::vector<SchematicRow>& gear_schematics();

/// A fork opening downwards from `top`, its pin at `top` + 5.4: for swages and turnbuckles. Height 7.
void draw_fork(Pen& pen, double top, double neck);

}  // namespace rigdeed::drawing
