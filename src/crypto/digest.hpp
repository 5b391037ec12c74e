#pragma once

#include <string_view>

#include "base/bytes.hpp"

namespace rigdeed::crypto {

/// SHA-256 (FIPS 180-4). Throws Error (code bug) if the library refuses.
[[nodiscard]] Digest sha256(std::string_view bytes);
[[nodiscard]] inline Digest sha256(const Bytes& bytes) { return sha256(as_text(bytes)); }

}  // namespace rigdeed::crypto
