#pragma once

#include <string>
#include <vector>

#include "evidence/upright.hpp"

namespace rigdeed::evidence {

/// Texts of the QR codes in a picture of grey pixels, one channel, whichever way it is turned; each once.
[[nodiscard]] std::vector<std::string> codes_in(const Raster& grey);

}  // namespace rigdeed::evidence
