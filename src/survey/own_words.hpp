#pragma once

#include <string_view>

#include "survey/survey.hpp"

namespace rigdeed::survey {

/// Whether the survey says that its words are in another language than `language`, an ISO 639-1 code.
[[nodiscard]] bool written_in_another(const Survey& survey, std::string_view language);

/// Puts the surveyor's own words, not names and not places on a fitting, between marks (base/own_words.hpp), and takes
/// these off.
void mark_own_words(Survey& survey);
void unmark_own_words(Survey& survey);

}  // namespace rigdeed::survey
