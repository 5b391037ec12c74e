#include "crypto/der.hpp"

#include <algorithm>

namespace rigdeed::crypto::der {
namespace {

std::optional<Element> first(std::string_view bytes) {
    if (bytes.size() < 2 || (bytes[0] & 0x1F) == 0x1F) return std::nullopt;
    std::size_t length = static_cast<unsigned char>(bytes[1]), header = 2;
    if (length >= 0x80) {
        const std::size_t count = length & 0x7F;
        if (count < 1 || count > 3 || bytes.size() < 2 + count) return std::nullopt;
        length = 0;
        for (std::size_t i = 0; i < count; ++i) length = length << 8 | static_cast<unsigned char>(bytes[2 + i]);
        if (length < 0x80 || length >> (8 * (count - 1)) == 0) return std::nullopt;
        header += count;
    }
    if (length > bytes.size() - header) return std::nullopt;
    return Element{static_cast<unsigned char>(bytes[0]), bytes.substr(header, length),
                   bytes.substr(0, header + length)};
}

}  // namespace

std::string element(Tag tag, std::string_view content) {
    std::string result(1, static_cast<char>(tag));
    if (content.size() < 0x80) {
        result += static_cast<char>(content.size());
    } else {
        std::string length;
        for (std::size_t rest = content.size(); rest > 0; rest >>= 8) length += static_cast<char>(rest & 0xFF);
        std::reverse(length.begin(), length.end());
        result += static_cast<char>(0x80 | length.size());
        result += length;
    }
    return result.append(content);
}

std::optional<std::vector<Element>> elements(std::string_view content) {
    std::vector<Element> found;
    while (!content.empty()) {
        const auto next = first(content);
        if (!next) return std::nullopt;
        found.push_back(*next);
        content.remove_prefix(next->whole.size());
    }
    return found;
}

std::optional<Element> only(std::string_view bytes, Tag tag) {
    const auto found = first(bytes);
    if (!found || found->tag != tag || found->whole.size() != bytes.size()) return std::nullopt;
    return found;
}

}  // namespace rigdeed::crypto::der
