#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "verify/object.hpp"

namespace rigdeed::verify {

/// One numbered object, and the bytes of its stream as they stand in the file.
struct Numbered {
    Object object;
    std::optional<std::string_view> stream;
};

/// A report taken apart. Number 0 is not used.
struct Document {
    std::string_view bytes;
    std::vector<Numbered> objects;
    Dict trailer;

    /// The dictionary of a numbered object; null if there is no such object or it is no dictionary.
    [[nodiscard]] const Dict* dict(std::size_t number) const;
    /// The dictionary under a key, directly or by reference; null if there is none.
    [[nodiscard]] const Dict* dict(const Dict& in, std::string_view key) const;
};

/// The first two lines, fixed to the byte.
inline constexpr std::string_view file_start = "%PDF-1.7\n%\xB7\xBE\xAD\xAA\n";
inline constexpr std::string_view file_end = "\n%%EOF\n";

/// The cross-reference table, from the end of the file backwards (ISO 32000-1, 7.5.4 and 7.5.5). Empty if all is well.
struct Table {
    std::size_t at = 0;                ///< where it starts
    std::vector<std::size_t> offsets;  ///< by object number
    Dict trailer;
};
[[nodiscard]] std::string read_table(std::string_view bytes, Table& table);

/// The objects from the first lines to the table, in the order of their numbers, without a byte between them.
[[nodiscard]] std::string read_objects(std::string_view bytes, Table table, Document& document);

}  // namespace rigdeed::verify
