#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "layout/page.hpp"
#include "pdf/sfnt.hpp"

namespace rigdeed::pdf {

/// The built-in fonts: one for each face, and one more for characters those lack.
class Fonts {
 public:
    static constexpr std::size_t count = 6;

    Fonts();

    /// Which font prints a character in a face; nothing if neither the face's nor the fallback has it.
    [[nodiscard]] std::optional<std::size_t> font_for(char32_t character, layout::Face face) const;
    [[nodiscard]] const Sfnt& font(std::size_t index) const { return fonts_[index]; }
    [[nodiscard]] static std::string_view name(std::size_t index);  ///< PostScript name
    [[nodiscard]] static int stem_width(std::size_t index);         ///< of upright stems, in thousandths of the size

 private:
    std::array<Sfnt, count> fonts_;
};

}  // namespace rigdeed::pdf
