#include "pdf/font_metrics.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "base/own_words.hpp"
#include "base/text.hpp"
#include "pdf/fonts.hpp"

namespace rigdeed::pdf {
namespace {

class FontMetrics : public layout::TextMetrics {
 public:
    [[nodiscard]] Points width(std::string_view text, layout::Face face, Points size) const override {
        double ems = 0;
        for (const char32_t character : points_of(text)) {
            if (is_own_words_mark(character)) continue;
            const std::size_t index = fonts_.font_for(character, face).value_or(static_cast<std::size_t>(face));
            const Sfnt& font = fonts_.font(index);
            ems += double{1} * font.advance(font.glyph(character)) / font.shape().units_per_em;
        }
        return size * ems;
    }

    [[nodiscard]] std::string missing(std::string_view text) const override {
        std::u32string none;
        for (const char32_t character : points_of(text))
            if (!fonts_.font_for(character, layout::Face::regular) && none.find(character) == std::u32string::npos)
                none += character;
        return encode_utf8(none);
    }

 private:
    static std::u32string points_of(std::string_view text) {
        auto points = decode_utf8(text);
        if (!points) throw Error("a text to print is not UTF-8: " + in_quotes(text), {}, {}, ExitCode::bug);
        return *std::move(points);
    }

    Fonts fonts_;
};

}  // namespace

std::unique_ptr<layout::TextMetrics> font_metrics() { return std::make_unique<FontMetrics>(); }

}  // namespace rigdeed::pdf
