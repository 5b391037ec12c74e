// The written font holds the tables ISO 32000-1, 9.9 asks of an embedded TrueType font: glyf, head, hhea, hmtx,
// loca, maxp. Instructions are left out: no table they call on is there, and print does not need them.
#include "pdf/subset.hpp"

#include <algorithm>
#include <array>

#include "base/error.hpp"

namespace rigdeed::pdf {
namespace {

constexpr unsigned words = 0x1, scale = 0x8, more = 0x20, two_scales = 0x40, matrix = 0x80, instructions = 0x100;

void put16(std::string& to, unsigned value) {
    to += static_cast<char>(value >> 8 & 0xFF);
    to += static_cast<char>(value & 0xFF);
}

void put32(std::string& to, std::uint32_t value) {
    put16(to, value >> 16);
    put16(to, value & 0xFFFF);
}

void set16(std::string& in, std::size_t at, unsigned value) {
    in.at(at) = static_cast<char>(value >> 8 & 0xFF);
    in.at(at + 1) = static_cast<char>(value & 0xFF);
}

bool is_composite(std::string_view outline) { return !outline.empty() && i16_at(outline, 0) < 0; }

std::string without_instructions(std::string_view outline) {
    const std::size_t contours = u16_at(outline, 0);
    const std::size_t at = 10 + 2 * contours;
    std::string result(outline.substr(0, at));
    put16(result, 0);
    return result + std::string(outline.substr(at + 2U + u16_at(outline, at)));
}

std::size_t component_size(unsigned flags) {
    return 4U + ((flags & words) != 0 ? 4U : 2U) +
           ((flags & scale) != 0        ? 2U
            : (flags & two_scales) != 0 ? 4U
            : (flags & matrix) != 0     ? 8U
                                        : 0U);
}

// The glyphs of the new font by their numbers in the old one; grows while composites are followed.
struct Glyphs {
    std::vector<std::uint16_t> old_numbers;
    std::map<std::uint16_t, std::uint16_t> new_numbers;

    std::uint16_t number(std::uint16_t old) {
        const auto [place, is_new] = new_numbers.try_emplace(old, static_cast<std::uint16_t>(old_numbers.size()));
        if (is_new) old_numbers.push_back(old);
        return place->second;
    }
};

std::string renumbered(std::string_view outline, Glyphs& glyphs) {
    std::string result(outline.substr(0, 10));
    for (std::size_t at = 10;;) {
        const unsigned flags = u16_at(outline, at);
        const std::size_t size = component_size(flags);
        put16(result, flags & ~instructions);
        put16(result, glyphs.number(u16_at(outline, at + 2)));
        result += outline.substr(at + 4, size - 4);
        at += size;
        if ((flags & more) == 0) return result;
    }
}

std::uint32_t checksum(std::string_view bytes) {
    std::uint32_t sum = 0;
    for (std::size_t i = 0; i < bytes.size(); ++i)
        sum += std::uint32_t{static_cast<unsigned char>(bytes[i])} << (24 - 8 * (i % 4));
    return sum;
}

using Tables = std::map<std::string, std::string>;

std::string sfnt_of(const Tables& tables) {
    unsigned power = 1, log = 0;
    while (power * 2 <= tables.size()) power *= 2, ++log;
    std::string file;
    put32(file, 0x00010000);
    put16(file, static_cast<unsigned>(tables.size()));
    put16(file, power * 16);
    put16(file, log);
    put16(file, static_cast<unsigned>(tables.size()) * 16 - power * 16);
    std::size_t offset = 12 + 16 * tables.size();
    std::size_t head = 0;
    for (const auto& [tag, content] : tables) {
        if (tag == "head") head = offset;
        file += tag;
        put32(file, checksum(content));
        put32(file, static_cast<std::uint32_t>(offset));
        put32(file, static_cast<std::uint32_t>(content.size()));
        offset += (content.size() + 3) / 4 * 4;
    }
    for (const auto& [tag, content] : tables) {
        file += content;
        file.resize((file.size() + 3) / 4 * 4);
    }
    const std::uint32_t adjustment = 0xB1B0AFBA - checksum(file);
    set16(file, head + 8, adjustment >> 16);
    set16(file, head + 10, adjustment & 0xFFFF);
    return file;
}

}  // namespace

std::uint16_t Subset::code(char32_t character) {
    const auto [place, is_new] = codes_.try_emplace(character, static_cast<std::uint16_t>(characters_.size()));
    if (is_new) {
        if (characters_.size() > 0x7FFF)
            throw Error("too many different characters in one font", {}, {}, ExitCode::bug);
        characters_.push_back(character);
    }
    return place->second;
}

std::string Subset::file() const {
    Glyphs glyphs;
    glyphs.number(0);
    for (std::size_t code = 1; code < characters_.size(); ++code) {
        const std::uint16_t old = font_->glyph(characters_[code]);
        glyphs.new_numbers.try_emplace(old, static_cast<std::uint16_t>(code));
        glyphs.old_numbers.push_back(old);
    }
    Tables tables;
    std::string &glyf = tables["glyf"], &loca = tables["loca"], &hmtx = tables["hmtx"];
    for (std::size_t i = 0; i < glyphs.old_numbers.size(); ++i) {
        const std::uint16_t old = glyphs.old_numbers[i];
        const auto outline = font_->outline(old);
        put32(loca, static_cast<std::uint32_t>(glyf.size()));
        if (is_composite(outline)) glyf += renumbered(outline, glyphs);
        else if (!outline.empty()) glyf += without_instructions(outline);
        glyf.resize((glyf.size() + 3) / 4 * 4);
        put16(hmtx, static_cast<unsigned>(font_->advance(old)));
        put16(hmtx, static_cast<unsigned>(font_->left_bearing(old)) & 0xFFFF);
    }
    put32(loca, static_cast<std::uint32_t>(glyf.size()));
    const auto count = static_cast<unsigned>(glyphs.old_numbers.size());
    tables["head"] = font_->table("head");
    set16(tables["head"], 8, 0);
    set16(tables["head"], 10, 0);
    set16(tables["head"], 50, 1);
    tables["hhea"] = font_->table("hhea");
    set16(tables["hhea"], 34, count);
    tables["maxp"] = font_->table("maxp");
    set16(tables["maxp"], 4, count);
    for (std::size_t at = 14; at < 28; at += 2) set16(tables["maxp"], at, at == 14 ? 1 : 0);  // no instructions
    return sfnt_of(tables);
}

}  // namespace rigdeed::pdf
