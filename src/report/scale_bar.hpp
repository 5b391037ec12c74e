#pragma once

#include <optional>
#include <string>

#include "base/unit.hpp"

namespace rigdeed::report {

/// A length to lay beside a picture, and what stands at it.
struct ScaleBar {
    Millimetres length;
    std::string words;  ///< "20 mm", "0.5 in"
};

/// The longest round length of at most two fifths of the picture, in inches where only US units are printed. None: the
/// picture shows less than any.
[[nodiscard]] std::optional<ScaleBar> scale_bar(Millimetres across, UnitSystem units);

}  // namespace rigdeed::report
