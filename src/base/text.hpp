#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rigdeed {

/// Without white space at both ends.
[[nodiscard]] std::string_view trim(std::string_view text);

/// A character that a reader cannot see, or that makes him see another text than there is: controls, what sets the
/// direction of writing, what has no width, fillers, variation selectors, tags.
[[nodiscard]] bool is_deceptive(char32_t character);

/// A letter of a script that is written from right to left, or whose letters take their form from their neighbours: set
/// one by one from left to right they would say something else, or nothing.
[[nodiscard]] bool needs_shaping(char32_t character);

/// Fit for a message: deceptive characters and bytes that are no UTF-8 as \xNN or \u{NNNN}, long texts cut.
[[nodiscard]] std::string shown(std::string_view text);
/// The same in double quotes, of which none is in it.
[[nodiscard]] std::string in_quotes(std::string_view text);

/// Runs of white space become one blank; trimmed.
[[nodiscard]] std::string squeezed(std::string_view text);

[[nodiscard]] std::vector<std::string> split(std::string_view text, char separator);
/// Puts a word into a list that does not have it; an empty one never.
void add_once(std::vector<std::string>& list, const std::string& word);
[[nodiscard]] std::string join(const std::vector<std::string>& parts, std::string_view separator);
/// "a", "a and b", "a, b and c".
[[nodiscard]] std::string listed(const std::vector<std::string>& parts);
[[nodiscard]] std::string lower(std::string_view text);  ///< ASCII letters only
/// Letters and the marks behind them as one character each, as Unicode's form C has Latin, Greek and Cyrillic ones:
/// names that look alike are alike.
[[nodiscard]] std::string composed(std::string_view text);
[[nodiscard]] std::string capitalised(std::string_view text);  ///< first letter, of those of Latin-1
/// "1 photo", "3 photos".
[[nodiscard]] std::string counted(std::size_t count, std::string_view one, std::string_view many = {});

/// Every `{name}` replaced by its value; an unknown name is a bug and throws.
struct Filling {
    std::string_view name;
    std::string value;
};
[[nodiscard]] std::string filled(std::string_view pattern, const std::vector<Filling>& fillings);

/// The names closest to `wrong`, at most `count`, nearest first: those that hold it or lie in it, then by edit
/// distance. Only the first hundred bytes of each count.
[[nodiscard]] std::vector<std::string> nearest(std::string_view wrong, const std::vector<std::string>& names,
                                               std::size_t count = 3);

/// The Unicode code points of a UTF-8 text; nothing if it is not valid UTF-8 (RFC 3629).
[[nodiscard]] std::optional<std::u32string> decode_utf8(std::string_view text);
/// How many bytes from the beginning are valid UTF-8.
[[nodiscard]] std::size_t valid_utf8(std::string_view text);
/// Characters of valid UTF-8: as many as its bytes, or fewer.
[[nodiscard]] std::size_t count_letters(std::string_view utf8);
[[nodiscard]] std::string encode_utf8(std::u32string_view text);

}  // namespace rigdeed
