#pragma once

#include <optional>
#include <string_view>

#include "base/bytes.hpp"

namespace rigdeed::verify {

/// What exactly these bytes unpack to (RFC 1950); nothing if they are not one whole packed stream, or unpack to more
/// than `most` bytes: a bomb goes off in a room of known size.
[[nodiscard]] std::optional<Bytes> inflated(std::string_view packed, std::size_t most);

}  // namespace rigdeed::verify
