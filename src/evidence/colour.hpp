#pragma once

#include <string>

#include "base/bytes.hpp"
#include "evidence/upright.hpp"

namespace rigdeed::evidence {

/// Turns red, green and blue of a picture with this colour profile (ICC.1) into sRGB, in place: what a phone takes
/// in a wider gamut would print dull otherwise. A profile that cannot be read, or is not for red, green and blue,
/// changes nothing.
void to_srgb(Raster& raster, const Bytes& profile);

/// "Little CMS 2.14".
[[nodiscard]] std::string colour_library();

}  // namespace rigdeed::evidence
