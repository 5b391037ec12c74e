#pragma once

#include <string_view>

#include "evidence/evidence.hpp"

namespace rigdeed::evidence {

/// The facts in the TIFF block of an Exif segment (CIPA DC-008). Damaged blocks give no facts, never an error.
[[nodiscard]] CameraFacts read_exif(std::string_view tiff);

/// Must run once before threads call read_exif.
void prepare_exif();

}  // namespace rigdeed::evidence
