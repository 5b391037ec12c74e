#pragma once

#include <optional>
#include <vector>

#include "drawing/shape.hpp"
#include "report/compose.hpp"

namespace rigdeed::report {

/// A drawing, and which of the fitting's measures stand on it.
struct FittingDrawing {
    std::optional<drawing::Drawing> drawing;
    std::vector<bool> told;
};

/// The fitting of a finding with what was recorded of it and nothing else: its schematic with its signs, of wires the
/// section of their strand; pointers to where it was measured. Nothing where there is no sign.
[[nodiscard]] FittingDrawing finding_drawing(const Material& material, const assessment::FittingVerdict& one);

/// What stands beyond a limit was measured or calculated, not seen.
[[nodiscard]] bool is_limit(const trade::SignRule& rule, const trade::Trade& trade);

}  // namespace rigdeed::report
