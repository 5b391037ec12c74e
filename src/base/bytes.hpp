#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rigdeed {

using Bytes = std::vector<unsigned char>;

/// The bytes of a text, unchanged.
[[nodiscard]] inline Bytes to_bytes(std::string_view text) { return {text.begin(), text.end()}; }

/// The same bytes seen as text; valid as long as `bytes` is.
[[nodiscard]] inline std::string_view as_text(const Bytes& bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

/// Lower-case hexadecimal, two digits a byte.
[[nodiscard]] std::string to_hex(const unsigned char* bytes, std::size_t count);
[[nodiscard]] inline std::string to_hex(const Bytes& bytes) { return to_hex(bytes.data(), bytes.size()); }

/// A SHA-256 digest (FIPS 180-4): 32 bytes.
struct Digest {
    std::array<unsigned char, 32> bytes{};

    [[nodiscard]] std::string hex() const { return to_hex(bytes.data(), bytes.size()); }
    /// The hex digits in groups of four, `groups` of them, or all 16.
    [[nodiscard]] std::string grouped(std::size_t groups = 16) const;
    auto operator<=>(const Digest&) const = default;
};

}  // namespace rigdeed
