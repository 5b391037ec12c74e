#pragma once

#include <string_view>

namespace rigdeed {

/// "0.2.0", as CMakeLists.txt has it: the one place where it stands.
[[nodiscard]] std::string_view version();

/// SHA-256 in hex of everything that can change a page: sources, templates, fonts, colour profile. Two builds of the
/// same digest make the same pages; taken when the program is built, by build.cmake.
[[nodiscard]] std::string_view build_digest();

}  // namespace rigdeed
