#pragma once

#include <string>

#include "survey/survey.hpp"

namespace rigdeed::survey {

/// The survey as a file that read_survey reads back to the same values. Measures stand as they were written.
[[nodiscard]] std::string write_survey(const Survey& survey);

}  // namespace rigdeed::survey
