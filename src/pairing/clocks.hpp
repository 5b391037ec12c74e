#pragma once

#include <set>
#include <string>
#include <utility>
#include <vector>

#include "evidence/look.hpp"
#include "survey/survey.hpp"

namespace rigdeed::pairing {

/// Clocks of cameras that the survey says nothing of, as far as photos tell how much they are off: by three photos
/// or more that the survey names with a time, or by two codes or more that this and the camera with most photos both
/// took. Those that differ by more than ten minutes among themselves tell nothing; nor is one told that is off by less
/// than three minutes. Times of looks that are `open` mean nothing.
[[nodiscard]] std::vector<survey::CameraClock> find_clocks(const survey::Survey& survey,
                                                           const std::vector<evidence::Looked>& looked,
                                                           const std::set<std::pair<std::string, survey::Way>>& open);

}  // namespace rigdeed::pairing
