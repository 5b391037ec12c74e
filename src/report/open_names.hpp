#pragma once

#include <string>
#include <vector>

#include "report/compose.hpp"

namespace rigdeed::report {

/// The text with this finding's stay and fitting left open: what is then the same of several can be told once.
[[nodiscard]] std::string names_open(std::string text, const assessment::FittingVerdict& one,
                                     const trade::Trade& trade);

/// The same with the names of several in their places.
[[nodiscard]] std::string names_filled(std::string text, const std::vector<std::string>& stays,
                                       const std::vector<std::string>& fittings, const trade::Wording& words);

}  // namespace rigdeed::report
