#pragma once

#include <string>
#include <string_view>

/// Words within a text that are in another language than it, between two marks that are never printed. A reader aloud
/// is told of them.
namespace rigdeed {

inline constexpr char32_t own_words_begin = U'\uE000', own_words_end = U'\uE001';  // of the private use area

[[nodiscard]] inline bool is_own_words_mark(char32_t c) { return c == own_words_begin || c == own_words_end; }

/// The text between marks; a full stop at its end stays outside. Nothing is put round nothing.
[[nodiscard]] std::string as_own_words(std::string_view text);
/// The text without any such mark.
[[nodiscard]] std::string without_own_words_marks(std::string_view text);
/// Whether words that began in this text, or before it where `open`, have not ended.
[[nodiscard]] bool own_words_open(std::string_view text, bool open = false);

}  // namespace rigdeed
