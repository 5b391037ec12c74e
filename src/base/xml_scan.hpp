#pragma once

#include <string_view>

#include "base/problem.hpp"

namespace rigdeed::xml {

/// What the parser behind `read` would let pass, found by reading the bytes ourselves first:
/// encoding, forbidden characters, DOCTYPE, entities, depth, a second root, text outside the root.
/// Empty if there is nothing to say. `line_of` counts from 1.
[[nodiscard]] Problems scan(std::string_view text, const std::string& file);
[[nodiscard]] int line_of(std::string_view text, std::size_t offset);

}  // namespace rigdeed::xml
