#include "verify/object.hpp"

#include "base/text.hpp"

namespace rigdeed::verify {

const Object* Dict::find(std::string_view key) const {
    for (const Entry& entry : entries)
        if (entry.key == key) return &entry.value;
    return nullptr;
}

std::string utf8_of(const Text& text) {
    const std::string_view bytes = text.bytes();
    std::u32string characters;
    const auto unit = [&](std::size_t i) {
        return static_cast<char32_t>(static_cast<unsigned char>(bytes[i]) << 8 |
                                     static_cast<unsigned char>(bytes[i + 1]));
    };
    if (bytes.size() >= 2 && unit(0) == 0xFEFF) {
        for (std::size_t i = 2; i + 1 < bytes.size(); i += 2) {
            char32_t c = unit(i);
            const bool pair = c >= 0xD800 && c < 0xDC00 && i + 3 < bytes.size() && (unit(i + 2) & 0xFC00) == 0xDC00;
            if (pair) c = 0x10000 + ((c - 0xD800) << 10) + (unit(i + 2) - 0xDC00), i += 2;
            characters += c >= 0xD800 && c < 0xE000 ? U'\uFFFD' : c;
        }
    } else {
        for (const char c : bytes)
            characters += static_cast<unsigned char>(c) < 0x80 ? static_cast<char32_t>(c) : U'\uFFFD';
    }
    for (char32_t& c : characters)
        if (c < 0x20 || (c >= 0x7F && c < 0xA0)) c = U'\uFFFD';  // never let a file steer the terminal
    return encode_utf8(characters);
}

}  // namespace rigdeed::verify
