#pragma once

#include <cstdint>
#include <string_view>
#include <utility>
#include <vector>

namespace rigdeed::pdf {

/// What a reader of the PDF must know of a font beside its outlines; in font units.
struct FontShape {
    int units_per_em = 1000;
    int left = 0, bottom = 0, right = 0, top = 0;  ///< box around all glyphs
    int ascent = 0;
    int descent = 0;
    int cap_height = 0;
    double italic_angle = 0;  ///< degrees
};

/// A TrueType font (ISO/IEC 14496-22) read in place. The bytes are our own: damage is a bug and throws Error.
class Sfnt {
 public:
    explicit Sfnt(std::string_view bytes);

    [[nodiscard]] std::uint16_t glyph(char32_t character) const;  ///< 0 if the font has none
    [[nodiscard]] int advance(std::uint16_t glyph) const;
    [[nodiscard]] int left_bearing(std::uint16_t glyph) const;
    [[nodiscard]] std::string_view outline(std::uint16_t glyph) const;  ///< its entry in "glyf"; empty for a blank
    [[nodiscard]] std::string_view table(std::string_view tag) const;
    [[nodiscard]] const FontShape& shape() const { return shape_; }

 private:
    void read_characters();
    void read_shape();

    std::string_view bytes_;
    FontShape shape_;
    std::string_view loca_, glyf_, hmtx_;
    bool long_offsets_ = false;
    std::uint16_t metric_count_ = 0;
    std::vector<std::pair<char32_t, std::uint16_t>> characters_;  // sorted
};

/// Big-endian numbers, as fonts have them. Reading past the end throws Error.
[[nodiscard]] std::uint16_t u16_at(std::string_view bytes, std::size_t at);
[[nodiscard]] std::int16_t i16_at(std::string_view bytes, std::size_t at);
[[nodiscard]] std::uint32_t u32_at(std::string_view bytes, std::size_t at);

}  // namespace rigdeed::pdf
