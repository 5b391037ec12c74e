#pragma once

#include <array>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "layout/page.hpp"
#include "pdf/fonts.hpp"
#include "pdf/subset.hpp"

namespace rigdeed::pdf {

/// What the pages of one document share: the fonts, and which characters of each were used so far.
struct Typesetting {
    Fonts fonts;
    std::vector<Subset> subsets;  ///< one for each font

    Typesetting();
    Typesetting(const Typesetting&) = delete;
    Typesetting& operator=(const Typesetting&) = delete;
};

/// The painting operators of one page (ISO 32000-1, annex A) and the names they use.
struct Content {
    std::string operators;         ///< never empty
    std::set<std::size_t> fonts;   ///< index into Typesetting; named "F" and the index
    std::set<std::size_t> images;  ///< index into Pages; named "I" and the index
    std::set<int> alphas;          ///< thousandths; named "A" and the number
    /// The element of each marked-content sequence, by its MCID (ISO 32000-1, 14.7.4).
    std::vector<layout::ElementIndex> marked;
};

/// Links are no content and are passed over. Runs of items of one element are one
/// marked-content sequence; what belongs to none is an artifact. Throws Error for a character that no font has.
[[nodiscard]] Content page_content(const layout::Page& page, const layout::Pages& pages, Typesetting& typesetting);

/// A number as PDF writes it: at most `decimals` decimals, no exponent, no trailing zeros.
[[nodiscard]] std::string number(double value, int decimals = 3);
/// A text string (ISO 32000-1, 7.9.2.2): UTF-16BE with byte order mark.
[[nodiscard]] Bytes utf16(std::string_view utf8);

}  // namespace rigdeed::pdf
