#pragma once

#include <optional>
#include <string_view>

#include "base/bytes.hpp"

namespace rigdeed {

/// A JPEG with a frame but no pixels, in the place of a real one where pages are made anew without the photos. Its
/// comment holds the SHA-256 of the one it stands for. `width` and `height` up to 65535, `components` 1 or 3.
[[nodiscard]] Bytes hollow_jpeg(int width, int height, int components, const std::optional<Digest>& stands_for);

[[nodiscard]] bool is_hollow_jpeg(std::string_view jpeg);
/// What a hollow one stands for; nothing if it does not say so, or is none.
[[nodiscard]] std::optional<Digest> stands_for(std::string_view jpeg);

}  // namespace rigdeed
