#pragma once

#include "pdf/render.hpp"

/// A small report with one of everything a page may hold, for tests of what comes after layout.
namespace rigdeed::sample {

/// A gradient with 8 bits a channel; grey or sRGB.
[[nodiscard]] layout::Image picture(int width, int height, bool grey = false);
[[nodiscard]] layout::PlacedText text(double x, double y, std::string words);
/// Two pages: text, a picture, a link, a bookmark.
[[nodiscard]] layout::Pages small_pages();
/// Three pages with every kind of item, face, dash, clip and tilt.
[[nodiscard]] layout::Pages full_pages();
/// A title, one embedded survey, and a signature by "Ann Rigger".
[[nodiscard]] pdf::DocumentFacts facts();

}  // namespace rigdeed::sample
