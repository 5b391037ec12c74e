#include "pdf/fonts.hpp"

#include <string>

#include "base/resources.hpp"

namespace rigdeed::pdf {
namespace {

struct FontRow {
    std::string_view name;
    int stem_width;
};

// In the order of layout::Face; the fallback last.
constexpr std::array<FontRow, Fonts::count> rows{{
    {"Lato-Light", 50},
    {"Lato-Regular", 80},
    {"Lato-Italic", 80},
    {"Lato-Bold", 120},
    {"Lato-Black", 160},
    {"DejaVuSans", 90},
}};
constexpr std::size_t fallback = rows.size() - 1;

Sfnt load(std::size_t index) { return Sfnt(resource("fonts/" + std::string(rows[index].name) + ".ttf")); }

// Control characters, line separators and byte order marks have no place in a line of text, whatever the font says.
bool is_printable(char32_t c) {
    return c >= 0x20 && !(c >= 0x7F && c < 0xA0) && c != 0x2028 && c != 0x2029 && c != 0xFEFF && (c & 0xFFFE) != 0xFFFE;
}

}  // namespace

Fonts::Fonts() : fonts_{load(0), load(1), load(2), load(3), load(4), load(5)} {}

std::optional<std::size_t> Fonts::font_for(char32_t character, layout::Face face) const {
    if (!is_printable(character)) return std::nullopt;
    const auto first = static_cast<std::size_t>(face);
    if (fonts_[first].glyph(character) != 0) return first;
    if (fonts_[fallback].glyph(character) != 0) return fallback;
    return std::nullopt;
}

std::string_view Fonts::name(std::size_t index) { return rows[index].name; }
int Fonts::stem_width(std::size_t index) { return rows[index].stem_width; }

}  // namespace rigdeed::pdf
