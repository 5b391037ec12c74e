#include "base/bytes.hpp"

namespace rigdeed {

std::string to_hex(const unsigned char* bytes, std::size_t count) {
    static constexpr char digits[] = "0123456789abcdef";
    std::string hex;
    hex.reserve(count * 2);
    for (std::size_t i = 0; i < count; ++i) {
        hex += digits[bytes[i] >> 4];
        hex += digits[bytes[i] & 15];
    }
    return hex;
}

std::string Digest::grouped(std::size_t groups) const {
    const std::string all = hex();
    std::string text;
    for (std::size_t group = 0; group < groups && group < 16; ++group) {
        if (group > 0) text += ' ';
        text += all.substr(group * 4, 4);
    }
    return text;
}

}  // namespace rigdeed
