#pragma once

#include "evidence/upright.hpp"

namespace rigdeed::evidence {

/// The picture in fewer pixels, each the mean of the area it stands for; in whole numbers, so the same everywhere.
/// `width` and `height` are at least 1 and at most the picture's own.
[[nodiscard]] Raster shrunk(const Raster& raster, int width, int height);

}  // namespace rigdeed::evidence
