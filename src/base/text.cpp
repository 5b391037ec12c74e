#include "base/text.hpp"

#include <algorithm>
#include <numeric>
#include <tuple>

#include "base/error.hpp"

namespace rigdeed {

namespace {
constexpr std::string_view white = " \t\r\n";

// Long texts are cut; what a reader could not see, or would be misled by, is written as its number.
std::string made_visible(std::string_view text, bool quotes_too) {
    static constexpr char digits[] = "0123456789abcdef";
    static constexpr std::size_t longest = 80;
    std::string result;
    const auto number = [&](char32_t c) {
        std::string hex;
        for (; c > 0 || hex.size() < 2; c >>= 4) hex.insert(hex.begin(), digits[c & 15]);
        result += hex.size() == 2 ? "\\x" + hex : "\\u{" + hex + "}";
    };
    std::size_t at = 0;
    for (; at < text.size() && at < longest;) {
        std::size_t length = 1;
        while (at + length < text.size() && (static_cast<unsigned char>(text[at + length]) & 0xC0) == 0x80) ++length;
        const std::string_view piece = text.substr(at, length);
        const auto points = decode_utf8(piece);
        if (!points)
            for (const char c : piece) number(static_cast<unsigned char>(c));
        else if (is_deceptive(points->front()) || (quotes_too && points->front() == '"')) number(points->front());
        else result += piece;
        at += length;
    }
    return at < text.size() ? result + "…" : result;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t above = row[j];
            row[j] = std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0U : 1U)});
            diagonal = above;
        }
    }
    return row.back();
}

struct CodePoint {
    char32_t point;
    std::size_t length;
};

/// Nothing at the end, and where no valid sequence begins.
std::optional<CodePoint> code_point_at(std::string_view text, std::size_t at) {
    if (at >= text.size()) return std::nullopt;
    const auto lead = static_cast<unsigned char>(text[at]);
    const std::size_t length = lead < 0x80                    ? 1
                               : lead >= 0xF0 && lead <= 0xF4 ? 4
                               : lead >= 0xE0 && lead < 0xF0  ? 3
                               : lead >= 0xC2 && lead < 0xE0  ? 2
                                                              : 0;
    if (length == 0 || at + length > text.size()) return std::nullopt;
    char32_t point = length == 1 ? lead : lead & (0xFFU >> (length + 1));
    for (std::size_t k = 1; k < length; ++k) {
        const auto next = static_cast<unsigned char>(text[at + k]);
        if ((next & 0xC0) != 0x80) return std::nullopt;
        point = (point << 6) | (next & 0x3F);
    }
    const bool overlong = (length == 3 && point < 0x800) || (length == 4 && point < 0x10000);
    if (overlong || point > 0x10FFFF || (point >= 0xD800 && point <= 0xDFFF)) return std::nullopt;
    return CodePoint{point, length};
}
}  // namespace

std::string_view trim(std::string_view text) {
    const auto first = text.find_first_not_of(white);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(white) - first + 1);
}

std::string in_quotes(std::string_view text) { return "\"" + made_visible(text, true) + "\""; }

std::string shown(std::string_view text) { return made_visible(text, false); }

bool is_deceptive(char32_t c) {
    const auto within = [c](char32_t first, char32_t last) { return c >= first && c <= last; };
    return c < 0x20 || within(0x7F, 0x9F) || c == 0xAD || c == 0x34F || c == 0x61C || within(0x115F, 0x1160) ||
           within(0x17B4, 0x17B5) || within(0x180B, 0x180F) || within(0x200B, 0x200F) || within(0x2028, 0x202E) ||
           within(0x2060, 0x206F) || c == 0x3164 || within(0xFE00, 0xFE0F) || c == 0xFEFF || c == 0xFFA0 ||
           within(0xFFF0, 0xFFFB) || (c & 0xFFFE) == 0xFFFE || within(0xE0000, 0xE0FFF);
}

bool needs_shaping(char32_t c) {
    const auto within = [c](char32_t first, char32_t last) { return c >= first && c <= last; };
    return within(0x0590, 0x109F) || within(0x1780, 0x18AF) || within(0x1900, 0x1CFF) || within(0xA800, 0xABFF) ||
           within(0xFB1D, 0xFDFF) || within(0xFE70, 0xFEFC) || within(0x10800, 0x11FFF) || within(0x1E800, 0x1EFFF);
}

std::string squeezed(std::string_view text) {
    std::string result;
    for (const char c : trim(text)) {
        const bool blank = white.find(c) != std::string_view::npos;
        if (!blank) result += c;
        else if (!result.empty() && result.back() != ' ') result += ' ';
    }
    return result;
}

std::vector<std::string> split(std::string_view text, char separator) {
    std::vector<std::string> parts;
    std::size_t start = 0;
    for (std::size_t end = text.find(separator); end != std::string_view::npos; end = text.find(separator, start)) {
        parts.emplace_back(text.substr(start, end - start));
        start = end + 1;
    }
    parts.emplace_back(text.substr(start));
    return parts;
}

void add_once(std::vector<std::string>& list, const std::string& word) {
    if (!word.empty() && std::find(list.begin(), list.end(), word) == list.end()) list.push_back(word);
}

std::string join(const std::vector<std::string>& parts, std::string_view separator) {
    std::string result;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0) result += separator;
        result += parts[i];
    }
    return result;
}

std::string listed(const std::vector<std::string>& parts) {
    if (parts.size() < 2) return join(parts, "");
    return join({parts.begin(), parts.end() - 1}, ", ") + " and " + parts.back();
}

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return result;
}

std::string capitalised(std::string_view text) {
    std::string result(text);
    if (!result.empty() && result[0] >= 'a' && result[0] <= 'z') result[0] = static_cast<char>(result[0] - 'a' + 'A');
    // U+00E0 … U+00FE are C3 A0 … C3 BE, their capitals 32 before them; U+00F7 is no letter.
    const auto second = result.size() > 1 ? static_cast<unsigned char>(result[1]) : 0U;
    if (second >= 0xA0 && second <= 0xBE && second != 0xB7 && static_cast<unsigned char>(result[0]) == 0xC3)
        result[1] = static_cast<char>(second - 0x20);
    return result;
}

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
    const std::string plural = many.empty() ? std::string(one) + "s" : std::string(many);
    return std::to_string(count) + " " + (count == 1 ? std::string(one) : plural);
}

std::string filled(std::string_view pattern, const std::vector<Filling>& fillings) {
    std::string result;
    std::size_t at = 0;
    while (at < pattern.size()) {
        const auto open = pattern.find('{', at);
        if (open == std::string_view::npos) break;
        const auto close = pattern.find('}', open);
        if (close == std::string_view::npos) break;
        const std::string_view name = pattern.substr(open + 1, close - open - 1);
        const auto found =
            std::find_if(fillings.begin(), fillings.end(), [&](const Filling& f) { return f.name == name; });
        if (found == fillings.end())
            throw Error("no value for {" + std::string(name) + "} in " + in_quotes(pattern), {}, {}, ExitCode::bug);
        result += pattern.substr(at, open - at);
        result += found->value;
        at = close + 1;
    }
    return result + std::string(pattern.substr(at));
}

std::vector<std::string> nearest(std::string_view wrong, const std::vector<std::string>& names, std::size_t count) {
    constexpr std::size_t longest = 100;
    wrong = wrong.substr(0, longest);
    std::vector<std::tuple<bool, std::size_t, std::size_t>> ranks;  // no part of one another, distance, place
    for (std::size_t i = 0; i < names.size(); ++i) {
        const auto name = std::string_view(names[i]).substr(0, longest);
        const bool part = name.find(wrong) != std::string_view::npos || wrong.find(name) != std::string_view::npos;
        ranks.emplace_back(!part || wrong.empty(), edit_distance(wrong, name), i);
    }
    std::sort(ranks.begin(), ranks.end());
    ranks.resize(std::min(count, ranks.size()));
    std::vector<std::string> closest;
    for (const auto& [apart, distance, place] : ranks) closest.push_back(names[place]);
    return closest;
}

std::size_t valid_utf8(std::string_view text) {
    std::size_t at = 0;
    while (const auto next = code_point_at(text, at)) at += next->length;
    return at;
}

std::optional<std::u32string> decode_utf8(std::string_view text) {
    std::u32string points;
    points.reserve(text.size());
    std::size_t at = 0;
    while (const auto next = code_point_at(text, at)) {
        points += next->point;
        at += next->length;
    }
    return at == text.size() ? std::optional(std::move(points)) : std::nullopt;
}

std::size_t count_letters(std::string_view utf8) {
    return static_cast<std::size_t>(std::count_if(
        utf8.begin(), utf8.end(), [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0) != 0x80; }));
}

std::string encode_utf8(std::u32string_view text) {
    std::string result;
    for (const char32_t point : text) {
        const auto tail = [&](unsigned shift) { return static_cast<char>(0x80 | ((point >> shift) & 0x3F)); };
        if (point < 0x80) {
            result += static_cast<char>(point);
        } else if (point < 0x800) {
            result += static_cast<char>(0xC0 | (point >> 6));
            result += tail(0);
        } else if (point < 0x10000) {
            result += static_cast<char>(0xE0 | (point >> 12));
            result += tail(6);
            result += tail(0);
        } else {
            result += static_cast<char>(0xF0 | (point >> 18));
            result += tail(12);
            result += tail(6);
            result += tail(0);
        }
    }
    return result;
}

}  // namespace rigdeed
