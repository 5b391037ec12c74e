#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.hpp"
#include "base/problem.hpp"

/// Strict reading of small XML files: a plain tree with line numbers. Stricter than XML 1.0 asks for:
/// UTF-8 only, no DOCTYPE, no processing instructions, no control or text-direction characters,
/// no prefixed names but xsi:schemaLocation, at most 32 elements deep.
namespace rigdeed::xml {

struct Attribute {
    std::string name;
    std::string value;
    int line = 0;
};

struct Element {
    std::string name;
    int line = 0;
    std::vector<Attribute> attributes;
    std::vector<Element> children;
    std::string text;  ///< character data directly inside, joined

    [[nodiscard]] const Attribute* find(std::string_view attribute) const;
    /// The attribute's value, or nothing.
    [[nodiscard]] std::optional<std::string> get(std::string_view attribute) const;
    [[nodiscard]] const Element* child(std::string_view child_name) const;
};

struct Reading {
    std::optional<Element> root;  ///< nothing if any problem was found
    Problems problems;
};

/// `file` is only used in the problems' positions.
[[nodiscard]] Reading read(std::string_view text, const std::string& file);

/// `text` fit to stand in an attribute or element.
[[nodiscard]] std::string escaped(std::string_view text);

}  // namespace rigdeed::xml
