#pragma once

#include "base/fields.hpp"
#include "survey/survey.hpp"

namespace rigdeed::survey {

/// Masts of a yacht that has several.
inline const std::vector<std::string> mast_names{"fore", "main", "mizzen"};

/// Fills `survey` from the sections under `root`; collects what is wrong with them.
void read_sections(const xml::Element& root, Survey& survey, Problems& problems);

[[nodiscard]] Stay read_stay(const xml::Element& element, const std::string& file, Problems& problems);
[[nodiscard]] History read_history(const xml::Element& element, const std::string& file, Problems& problems);
[[nodiscard]] Fitting read_fitting(const xml::Element& element, const std::string& file, Problems& problems);

/// "deck", "mast", "spreader-1" … "spreader-6", "masthead"; nothing else.
[[nodiscard]] std::optional<std::string> read_station(std::string_view text);

/// Takes every "?" that stands for something to be filled in or confirmed off the values under `root`, but where it is
/// all that there is, and tells where they were.
[[nodiscard]] std::vector<Open> take_open(xml::Element& root);
/// The name of an element in `Open::of`: its id, else its name behind that of `parent`.
[[nodiscard]] std::string place_of(std::string_view parent, std::string_view name, std::string_view id);

/// A photo's name: relative, '/' between its parts, no part ".", ".." or empty, nothing that could lead elsewhere.
[[nodiscard]] bool is_photo_name(std::string_view name);

}  // namespace rigdeed::survey
