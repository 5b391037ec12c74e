#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.hpp"
#include "base/problem.hpp"

/// Strict reading of small XML files: a plain tree with line numbers. Stricter than XML 1.0 asks for:
/// UTF-8 only, no DOCTYPE, no processing instructions, no control or text-direction characters,
/// no prefixed names but xsi:schemaLocation, at most 32 elements deep, 64 attributes an element, 200 000 elements a
/// file. All offsets are bytes from the beginning of the text read, a byte order mark included.
namespace rigdeed::xml {

struct Attribute {
    std::string name;
    std::string value;
    int line = 0;
    std::size_t at = 0;     ///< where its name begins
    std::size_t quote = 0;  ///< the opening quote
    std::size_t end = 0;    ///< behind the closing quote
};

/// Where an element stands in the text.
struct Span {
    std::size_t at = 0;           ///< its '<'
    std::size_t content = 0;      ///< behind the '>' of its start tag
    std::size_t content_end = 0;  ///< the '<' of its end tag; `content` for one that ends in "/>"
    std::size_t end = 0;          ///< behind it

    [[nodiscard]] bool has_end_tag() const { return content_end < end; }
};

struct Comment {
    std::size_t at = 0;   ///< its '<'
    std::size_t end = 0;  ///< behind its '>'
};

struct Element {
    std::string name;
    int line = 0;
    std::vector<Attribute> attributes;
    std::vector<Element> children;
    std::string text;  ///< character data directly inside, joined
    Span span;

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

/// Every comment of a text that was read without problems, in order.
[[nodiscard]] std::vector<Comment> comments(std::string_view text);

/// `text` fit to stand in an attribute or element.
[[nodiscard]] std::string escaped(std::string_view text);
/// The same for a value between quotes of this kind; the other kind stays as it is.
[[nodiscard]] std::string escaped(std::string_view text, char quote);
/// `text` with every character reference (&#228;, &#xE4;) replaced by its character. It must have been read without
/// problems.
[[nodiscard]] std::string resolved(std::string_view text);

}  // namespace rigdeed::xml
