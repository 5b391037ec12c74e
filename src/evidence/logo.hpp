#pragma once

#include <string>

#include "base/bytes.hpp"
#include "evidence/evidence.hpp"

namespace rigdeed::evidence {

/// A letterhead's picture, PNG or JPEG, as a JPEG for print; what is transparent becomes white. Throws Error naming
/// `file` if it is neither, or damaged, or larger than 4000 pixels.
[[nodiscard]] PrintCopy logo_for_print(const Bytes& picture, const std::string& file);

}  // namespace rigdeed::evidence
