#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "pdf/sfnt.hpp"

namespace rigdeed::pdf {

/// The part of a font that one document uses. Every character gets a code of its own, which is also its glyph
/// number in the written font, so that text copied out of the PDF is exactly what was put in.
class Subset {
 public:
    explicit Subset(const Sfnt& font) : font_(&font) {}

    /// The code of a character that the font has.
    [[nodiscard]] std::uint16_t code(char32_t character);
    /// Used characters by code; code 0 is the missing glyph and stands for none.
    [[nodiscard]] const std::vector<char32_t>& characters() const { return characters_; }
    [[nodiscard]] bool used() const { return characters_.size() > 1; }
    [[nodiscard]] const Sfnt& font() const { return *font_; }
    /// A TrueType file with the used glyphs, those they are composed of, and no instructions.
    [[nodiscard]] std::string file() const;

 private:
    const Sfnt* font_;
    std::vector<char32_t> characters_{0};
    std::map<char32_t, std::uint16_t> codes_;
};

}  // namespace rigdeed::pdf
