#pragma once

#include <string>

#include "drawing/shape.hpp"

namespace rigdeed::drawing {

/// How a drawing is inked on a page of a browser.
enum class Ink {
    as_drawn,  ///< its own colours
    of_page,   ///< black and its tints in the colour of the text around it, white as the page: for day and night
};

/// The drawing as an <svg> element (SVG 1.1, presentation attributes only): no script, no style, no link, its words as
/// text. Labelled with its alternative, or hidden from screen readers where it has none.
[[nodiscard]] std::string svg(const Drawing& drawing, Ink ink);

/// The same inside a <symbol> of this id, to be used several times.
[[nodiscard]] std::string svg_symbol(const Drawing& drawing, Ink ink, const std::string& id);

}  // namespace rigdeed::drawing
