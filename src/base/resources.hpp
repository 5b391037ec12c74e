#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rigdeed {

/// A file built into the program: everything in templates/ under its relative path
/// ("kinds/chainplate.xml"), fonts as "fonts/Lato-Regular.ttf", "fonts/DejaVuSans.ttf", the profile as "sRGB.icc".
struct Resource {
    std::string_view name;
    std::string_view bytes;
};

[[nodiscard]] const std::vector<Resource>& resources();
/// Throws Error (code bug) if there is none of that name.
[[nodiscard]] std::string_view resource(std::string_view name);

}  // namespace rigdeed
