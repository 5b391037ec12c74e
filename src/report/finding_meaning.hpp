#pragma once

#include <string>

#include "report/compose.hpp"

namespace rigdeed::report {

/// What a finding means, and what to do, each sentence once.
[[nodiscard]] document::TwoTexts finding_meaning(const Material& material, const assessment::FittingVerdict& one);

/// By which rules, from which sources, and how such a fitting is looked at.
[[nodiscard]] std::string finding_source(const Material& material, const assessment::FittingVerdict& one);

}  // namespace rigdeed::report
