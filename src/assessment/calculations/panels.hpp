#pragma once

#include <optional>
#include <vector>

#include "base/quantity.hpp"

/// Statics of the panels of a mast: pinned at each spreader, an even load athwartships, caps and intermediates that run
/// over the tips, spreaders that lie level. Swept legs are longer for the same upright part; what they pull aft is held
/// by the forestay and is not reckoned.
namespace rigdeed::assessment {

/// A pair of spreaders: how high above the chainplates, and how far its tip stands off the mast.
struct PanelLevel {
    Millimetres height;
    Millimetres tip;
    Millimetres aft{};  ///< how far aft of the mast its tip lies
};

struct Panels {
    NewtonMetres moment;                ///< about the chainplates
    Millimetres half_base;              ///< from the mast to the chainplate
    Millimetres head;                   ///< of the caps, above the chainplates
    std::vector<PanelLevel> spreaders;  ///< from the lowest
    Millimetres base_aft{};             ///< how far aft of the mast the chainplate stands
};

/// The greatest pull in each shroud: of the lower to the first spreader, of the intermediates to the others, of the
/// cap.
struct PanelLoads {
    std::vector<Kilonewtons> to_spreader;  ///< the lower, then the intermediates
    Kilonewtons cap;
};
/// Nothing where the geometry is none: heights that do not rise, a tip or base of nothing.
[[nodiscard]] std::optional<PanelLoads> panel_loads(const Panels& panels);

/// Least moment of inertia of a panel pinned at its ends, mm⁴ (Euler): factor · C · L² / (π² · E).
[[nodiscard]] double least_inertia(Kilonewtons compression, Millimetres panel, Stress modulus, double factor);

}  // namespace rigdeed::assessment
