#pragma once

#include "base/geometry.hpp"

/// Black, its tints, and three colours of the Okabe-Ito set, told apart by colour-blind readers too.
namespace rigdeed::drawing {

inline constexpr Colour black{0x00, 0x00, 0x00};
inline constexpr Colour white{0xFF, 0xFF, 0xFF};
inline constexpr Colour vermilion{0xD5, 0x5E, 0x00};  ///< what is wrong, nothing else
inline constexpr Colour blue{0x00, 0x72, 0xB2};
inline constexpr Colour sky_blue{0x56, 0xB4, 0xE9};
inline constexpr Colour sky_tint{0xEA, 0xF5, 0xFC};
inline constexpr Colour black_70{0x4D, 0x4D, 0x4D};
inline constexpr Colour black_62{0x5E, 0x5E, 0x5E};
inline constexpr Colour black_35{0xA6, 0xA6, 0xA6};
inline constexpr Colour black_20{0xCC, 0xCC, 0xCC};
inline constexpr Colour black_10{0xE6, 0xE6, 0xE6};
inline constexpr Colour black_5{0xF3, 0xF3, 0xF3};

}  // namespace rigdeed::drawing
