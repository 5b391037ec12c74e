#pragma once

#include <optional>

#include "evidence/evidence.hpp"
#include "evidence/upright.hpp"

namespace rigdeed::evidence {

/// How many pixels the sharpest edges of a picture take: contrast across them over their steepest slope, the tenth part
/// of them that is sharpest; 2 for edges from one pixel to the next. At a mark, or in the middle. Nothing if there are
/// no edges to speak of. A picture out of focus has none that are sharp; one shaken in one direction alone may have.
[[nodiscard]] std::optional<double> finest_edge_of(const Raster& grey, const std::optional<survey::Mark>& at);

/// Whether a photo is so unsharp that its finest edges take more than a 200th of its longer side: less than what a
/// print at the size of a hand shows. False if it was not measured.
[[nodiscard]] bool is_blurred(const Photo& photo);

}  // namespace rigdeed::evidence
