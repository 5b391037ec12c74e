#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

/// PDF objects (ISO 32000-1, 7.3). Views point into the file.
namespace rigdeed::verify {

struct Null {};

struct Name {
    std::string_view text;
};

/// Decoded. Reports have a hundred thousand objects and few texts: objects are kept small.
struct Text {
    std::vector<char> characters;

    [[nodiscard]] std::string_view bytes() const { return {characters.data(), characters.size()}; }
};

struct Reference {
    std::size_t number = 0;
};

struct Object;

struct Array {
    std::vector<Object> items;
};

struct Entry;

struct Dict {
    std::vector<Entry> entries;

    [[nodiscard]] const Object* find(std::string_view key) const;
};

struct Object {
    std::variant<Null, bool, std::int64_t, double, Name, Text, Reference, Array, Dict> value;
    std::uint32_t begin = 0;  ///< offsets in the file, which is no larger than largest_report
    std::uint32_t end = 0;

    template <class T>
    [[nodiscard]] const T* as() const {
        return std::get_if<T>(&value);
    }
};

struct Entry {
    std::string_view key;
    Object value;
};

/// The value under a key if it is there and of that type.
template <class T>
[[nodiscard]] const T* get(const Dict& dict, std::string_view key) {
    const Object* found = dict.find(key);
    return found == nullptr ? nullptr : found->as<T>();
}

/// A text string (ISO 32000-1, 7.9.2.2) as UTF-8; what is not UTF-16BE with its mark is taken as ASCII.
[[nodiscard]] std::string utf8_of(const Text& text);

}  // namespace rigdeed::verify
