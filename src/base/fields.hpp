#pragma once

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "base/quantity.hpp"
#include "base/xml.hpp"

namespace rigdeed {

/// Smallest and largest value a field may have, in the base unit of its measure.
struct Range {
    double least;
    double most;
};

/// Takes the attributes of one element one by one, each checked, and collects what is wrong.
/// `finish` reports every attribute and child element that nobody asked for.
class Fields {
 public:
    /// `label` names the element for the surveyor: `fitting "tang-3"`.
    Fields(const xml::Element& element, std::string label, const std::string& file, Problems& problems);

    /// One line of text, at most `longest` characters (of UTF-8, counted in bytes).
    std::string text(std::string_view name, std::size_t longest = 200);
    std::string optional_text(std::string_view name, std::size_t longest = 200);
    /// Letters, digits, '.', '_' and '-', at most 64.
    std::string token(std::string_view name);
    std::string optional_token(std::string_view name);
    /// One of a few words, as text; empty if it is absent.
    std::string choice_text(std::string_view name, const std::vector<std::string>& known);
    std::optional<int> whole(std::string_view name, int least, int most);
    std::optional<Written> measure(std::string_view name, Measure measure, Range range, bool required);

    template <class Q>
    std::optional<As<Q>> quantity(std::string_view name, Measure kind, Range range, bool required) {
        const auto written = measure(name, kind, range, required);
        return written ? std::optional(As<Q>{{written->value}, written->text}) : std::nullopt;
    }

    /// Any value that `read` understands; `kind` and `example` make the message.
    template <class T>
    std::optional<T> value(std::string_view name, bool required,
                           const std::function<std::optional<T>(std::string_view)>& read, std::string_view kind,
                           std::string_view example) {
        const auto* attribute = take(name, required);
        if (attribute == nullptr) return std::nullopt;
        auto result = read(attribute->value);
        if (!result) wrong(*attribute, "is not " + std::string(kind), "write for example " + example_text(example));
        return result;
    }

    /// One of a few words.
    template <class Row>
    auto choice(std::string_view name, const std::vector<Row>& rows, bool required)
        -> std::optional<decltype(Row::value)> {
        const auto* attribute = take(name, required);
        if (attribute == nullptr) return std::nullopt;
        std::vector<std::string> known;
        for (const Row& row : rows) {
            if (row.name == attribute->value) return row.value;
            known.emplace_back(row.name);
        }
        unknown_word(*attribute, known);
        return std::nullopt;
    }

    void say(int line, std::string what, std::string hint);
    /// Reports unknown attributes, unknown child elements and stray text.
    void finish(const std::vector<std::string>& children = {}, bool text_allowed = false);

 private:
    const xml::Attribute* take(std::string_view name, bool required);
    void wrong(const xml::Attribute& attribute, const std::string& what, std::string hint);
    void unknown_word(const xml::Attribute& attribute, const std::vector<std::string>& known);
    static std::string example_text(std::string_view example);
    std::string checked_text(const xml::Attribute* attribute, std::size_t longest);
    std::string checked_token(const xml::Attribute* attribute);

    const xml::Element& element_;
    std::string label_;
    const std::string& file_;
    Problems& problems_;
    std::vector<std::string> asked_;
};

}  // namespace rigdeed
