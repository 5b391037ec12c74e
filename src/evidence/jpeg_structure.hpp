#pragma once

#include <string>
#include <string_view>

#include "base/bytes.hpp"
#include "evidence/trouble.hpp"

namespace rigdeed::evidence {

/// What the markers of a JPEG file say (ITU-T T.81), read before any library sees the file.
struct JpegStructure {
    Trouble trouble;  ///< why it is no photo of ours
    int width = 0;
    int height = 0;
    int components = 0;
    bool progressive = false;  ///< all of its coefficients must be held at once
    Bytes profile;             ///< the colour profile of its APP2 segments (ICC.1, annex B); empty if there is none
    std::string_view picture;  ///< from its first scan to its end; empty if it has none
    std::string_view exif;     ///< the TIFF block of the Exif segment; empty if there is none
};

inline constexpr long long most_pixels = 210'000'000;
/// Of one whose coefficients must all be held, and of what is decoded of any.
inline constexpr long long most_held_pixels = 100'000'000;
inline constexpr int most_scans = 100;
/// Pixels times scans: what a decoder goes through.
inline constexpr long long most_work = 1'000'000'000;

/// `bytes` must outlive the result.
[[nodiscard]] JpegStructure read_structure(const Bytes& bytes);

}  // namespace rigdeed::evidence
