#pragma once

#include <string>
#include <vector>

#include "evidence/evidence.hpp"

namespace rigdeed::evidence {

/// Finds the file for each photo name ("A0012" is A0012.jpg, A0012.JPG …; a camera raw beside it goes with it),
/// and the photo files that no name leads to.
[[nodiscard]] Evidence find_files(const std::vector<std::string>& names, const std::vector<std::string>& files);

}  // namespace rigdeed::evidence
