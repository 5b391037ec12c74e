#pragma once

#include <string>
#include <string_view>

#include "base/geometry.hpp"
#include "layout/page.hpp"

namespace rigdeed::layout {

/// The one thing layout must know about fonts. Plain advances: no kerning, no ligatures.
class TextMetrics {
 public:
    virtual ~TextMetrics() = default;
    [[nodiscard]] virtual Points width(std::string_view text, Face face, Points size) const = 0;
    /// The characters of `text` that no font of ours has; empty if all can be printed.
    [[nodiscard]] virtual std::string missing(std::string_view text) const = 0;
};

}  // namespace rigdeed::layout
