#pragma once

#include "base/quantity.hpp"

/// What a lamp takes from the battery.
namespace rigdeed::assessment {

[[nodiscard]] Amperes lamp_current(Watts power, Volts voltage);
[[nodiscard]] AmpereHours charge(Amperes current, Hours time);

}  // namespace rigdeed::assessment
