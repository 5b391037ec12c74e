#include "pdf/sfnt.hpp"

#include <algorithm>
#include <string>

#include "base/error.hpp"

namespace rigdeed::pdf {
namespace {

[[noreturn]] void damaged(const std::string& what) { throw Error("built-in font: " + what, {}, {}, ExitCode::bug); }

std::string_view part(std::string_view bytes, std::size_t at, std::size_t size) {
    if (at > bytes.size() || size > bytes.size() - at) damaged("a part lies outside the file");
    return bytes.substr(at, size);
}

using Characters = std::vector<std::pair<char32_t, std::uint16_t>>;

void read_segments(std::string_view map, Characters& into) {  // cmap format 4: 16-bit characters
    const std::size_t count = u16_at(map, 6) / 2U;
    const std::size_t ends = 14, starts = ends + 2 * count + 2, deltas = starts + 2 * count,
                      ranges = deltas + 2 * count;
    for (std::size_t i = 0; i < count; ++i) {
        const unsigned first = u16_at(map, starts + 2 * i), last = u16_at(map, ends + 2 * i);
        const unsigned delta = u16_at(map, deltas + 2 * i), range = u16_at(map, ranges + 2 * i);
        for (unsigned c = first; c <= last && c != 0xFFFF; ++c) {
            unsigned glyph = range == 0 ? c : u16_at(map, ranges + 2 * i + range + 2 * std::size_t{c - first});
            if (range == 0 || glyph != 0) glyph = (glyph + delta) & 0xFFFF;
            if (glyph != 0) into.emplace_back(c, static_cast<std::uint16_t>(glyph));
        }
    }
}

void read_groups(std::string_view map, Characters& into) {  // cmap format 12: all of Unicode
    const std::size_t count = u32_at(map, 12);
    for (std::size_t i = 0; i < count; ++i) {
        const std::uint32_t first = u32_at(map, 16 + 12 * i), last = u32_at(map, 20 + 12 * i);
        if (last < first || last > 0x10FFFF) damaged("a group of characters is reversed");
        for (std::uint32_t c = first; c <= last; ++c)
            into.emplace_back(c, static_cast<std::uint16_t>(u32_at(map, 24 + 12 * i) + (c - first)));
    }
}

}  // namespace

std::uint16_t u16_at(std::string_view bytes, std::size_t at) {
    const auto two = part(bytes, at, 2);
    return static_cast<std::uint16_t>(static_cast<unsigned char>(two[0]) << 8 | static_cast<unsigned char>(two[1]));
}

std::int16_t i16_at(std::string_view bytes, std::size_t at) { return static_cast<std::int16_t>(u16_at(bytes, at)); }

std::uint32_t u32_at(std::string_view bytes, std::size_t at) {
    return std::uint32_t{u16_at(bytes, at)} << 16 | u16_at(bytes, at + 2);
}

Sfnt::Sfnt(std::string_view bytes) : bytes_(bytes) {
    loca_ = table("loca");
    glyf_ = table("glyf");
    hmtx_ = table("hmtx");
    long_offsets_ = u16_at(table("head"), 50) == 1;
    metric_count_ = u16_at(table("hhea"), 34);
    if (metric_count_ == 0) damaged("no widths");
    read_characters();
    read_shape();
}

std::string_view Sfnt::table(std::string_view tag) const {
    const std::size_t count = u16_at(bytes_, 4);
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t entry = 12 + 16 * i;
        if (part(bytes_, entry, 4) == tag) return part(bytes_, u32_at(bytes_, entry + 8), u32_at(bytes_, entry + 12));
    }
    damaged("no table " + std::string(tag));
}

void Sfnt::read_characters() {
    const auto cmap = table("cmap");
    std::size_t best = 0;
    unsigned best_format = 0;
    for (std::size_t i = 0; i < u16_at(cmap, 2); ++i) {
        const std::size_t at = u32_at(cmap, 4 + 8 * i + 4);
        const unsigned platform = u16_at(cmap, 4 + 8 * i), format = u16_at(cmap, at);
        const bool usable = (platform == 3 || platform == 0) && (format == 4 || format == 12);
        if (usable && format > best_format) best = at, best_format = format;
    }
    if (best_format == 0) damaged("no map of Unicode characters");
    if (best_format == 12) read_groups(cmap.substr(best), characters_);
    else read_segments(cmap.substr(best), characters_);
    std::sort(characters_.begin(), characters_.end());
}

void Sfnt::read_shape() {
    const auto head = table("head"), hhea = table("hhea"), os2 = table("OS/2"), post = table("post");
    shape_.units_per_em = u16_at(head, 18);
    shape_.left = i16_at(head, 36);
    shape_.bottom = i16_at(head, 38);
    shape_.right = i16_at(head, 40);
    shape_.top = i16_at(head, 42);
    shape_.ascent = i16_at(hhea, 4);
    shape_.descent = i16_at(hhea, 6);
    shape_.cap_height = u16_at(os2, 0) >= 2 ? i16_at(os2, 88) : shape_.ascent;
    shape_.italic_angle = static_cast<std::int32_t>(u32_at(post, 4)) / 65536.0;
    if (shape_.cap_height <= 0) {  // not recorded: the height of H
        const auto letter = outline(glyph(U'H'));
        shape_.cap_height = letter.empty() ? shape_.ascent : i16_at(letter, 8);
    }
    if (shape_.units_per_em == 0) damaged("no size");
}

std::uint16_t Sfnt::glyph(char32_t character) const {
    const auto found = std::lower_bound(characters_.begin(), characters_.end(), std::pair(character, std::uint16_t{0}));
    return found != characters_.end() && found->first == character ? found->second : std::uint16_t{0};
}

int Sfnt::advance(std::uint16_t glyph) const {
    return u16_at(hmtx_,
                  4 * std::size_t{std::min<std::uint16_t>(glyph, static_cast<std::uint16_t>(metric_count_ - 1))});
}

int Sfnt::left_bearing(std::uint16_t glyph) const {
    if (glyph < metric_count_) return i16_at(hmtx_, 4 * std::size_t{glyph} + 2);
    return i16_at(hmtx_, 4 * std::size_t{metric_count_} + 2 * std::size_t(glyph - metric_count_));
}

std::string_view Sfnt::outline(std::uint16_t glyph) const {
    const auto offset = [&](std::size_t index) -> std::size_t {
        return long_offsets_ ? u32_at(loca_, 4 * index) : 2U * std::size_t{u16_at(loca_, 2 * index)};
    };
    const std::size_t from = offset(glyph), to = offset(std::size_t{glyph} + 1);
    if (to < from) damaged("an outline ends before it starts");
    return part(glyf_, from, to - from);
}

}  // namespace rigdeed::pdf
