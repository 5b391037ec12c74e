#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "base/xml.hpp"

namespace rigdeed::xml {

inline constexpr int deepest = 32;                        ///< elements in one another
inline constexpr std::size_t most_attributes = 64;        ///< of one element
inline constexpr std::size_t most_elements = 200 * 1000;  ///< of one file

/// What is in the bytes: problems, or else where each element and comment stands, in the order of their beginnings.
struct Scanned {
    Problems problems;
    std::vector<Span> elements;
    std::vector<Comment> comments;
};

/// What the parser behind `read` would let pass, found by reading the bytes ourselves first:
/// encoding, forbidden characters, DOCTYPE, entities, depth, amounts, a second root, text outside the root.
[[nodiscard]] Scanned scan(std::string_view text, const std::string& file);
/// The character that a reference names, given without '&' and ';' ("#xE4"); nothing if there is no such character.
[[nodiscard]] std::optional<char32_t> referred(std::string_view reference);
/// The line an offset is in, counted from 1.
[[nodiscard]] int line_of(std::string_view text, std::size_t offset);

}  // namespace rigdeed::xml
