#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

#include "base/problem.hpp"
#include "survey/survey.hpp"

namespace rigdeed::survey {

inline constexpr std::uint64_t largest_survey = 16 * 1024 * 1024;  ///< bytes
inline constexpr std::string_view survey_namespace = "urn:rigdeed:survey:1";

struct Reading {
    std::optional<Survey> survey;  ///< nothing if there is any problem
    Problems problems;             ///< all of the file, in the order of their lines
};

/// Reads a survey file's text strictly; `file` is its name in messages.
[[nodiscard]] Reading read_survey(std::string_view text, const std::string& file);

}  // namespace rigdeed::survey
