#pragma once

#include "base/quantity.hpp"

/// How fine a line a photo can show (photogrammetry).
namespace rigdeed::assessment {

/// The camera as Exif describes it.
struct View {
    Millimetres distance;
    Millimetres focal_length;
    Millimetres sensor;  ///< along the longer side; 36 mm with a focal length as of 35 mm film
    int pixels = 0;      ///< along the longer side
};

/// On the subject, for one pixel: distance x sensor / (focal length x pixels).
[[nodiscard]] Millimetres scale_of(const View& view);
/// A line needs about three pixels.
[[nodiscard]] Millimetres widest_scale_for(Millimetres line, Ratio pixels_a_line);
/// From how far a line of that width can still be seen.
[[nodiscard]] Millimetres farthest_for(Millimetres line, const View& view, Ratio pixels_a_line);

}  // namespace rigdeed::assessment
