#pragma once

#include <string>

#include "drawing/shape.hpp"

namespace rigdeed::drawing {

/// A QR code (ISO/IEC 18004) with level Q, a quarter of which may be lost: letters A to Z and digits alone, up to 16 in
/// 21 by 21 modules, longer texts in more. `side` is without the white margin of four modules that must be kept free
/// around it.
[[nodiscard]] Drawing code_drawing(const std::string& text, Points side, std::string alternative);

}  // namespace rigdeed::drawing
