#pragma once

#include <functional>
#include <memory>

#include "drawing/elevation.hpp"
#include "report/compose.hpp"

namespace rigdeed::report {

/// The words of drawings, from the wording.
[[nodiscard]] drawing::ElevationWords elevation_words(const Material& material);

/// The whole rig with its findings, of more than 25 the urgent ones, for the cover: drawn in the size that is asked
/// for.
[[nodiscard]] std::function<drawing::Drawing(Size, std::size_t listed)> rig_with_findings(const Material& material);

/// The rig, small, with one finding on it.
[[nodiscard]] drawing::Drawing place_on_rig(const Material& material, const assessment::FittingVerdict& one, Size size);

/// "seen from astern, port, 1.62 m above the waterline"
[[nodiscard]] std::string place_in_words(const Material& material, const assessment::FittingVerdict& one);

[[nodiscard]] document::MarginMast margin_mast(const Material& material);

}  // namespace rigdeed::report
