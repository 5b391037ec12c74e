#pragma once

#include "base/fields.hpp"
#include "survey/survey.hpp"

namespace rigdeed::survey {

/// Masts of a yacht that has several.
inline const std::vector<std::string> mast_names{"fore", "main", "mizzen"};

/// Fills `survey` from the seven sections under `root`; collects what is wrong with them.
void read_sections(const xml::Element& root, Survey& survey, Problems& problems);

[[nodiscard]] Stay read_stay(const xml::Element& element, const std::string& file, Problems& problems);
[[nodiscard]] Fitting read_fitting(const xml::Element& element, const std::string& file, Problems& problems);

/// A photo's name: relative, '/' between its parts, no part ".", ".." or empty, nothing that could lead elsewhere.
[[nodiscard]] bool is_photo_name(std::string_view name);

}  // namespace rigdeed::survey
