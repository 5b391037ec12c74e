#pragma once

#include <array>
#include <string_view>

namespace rigdeed {

/// The languages a report can be written in, as ISO 639-1 has them.
inline constexpr std::array<std::string_view, 4> languages{"en", "de", "es", "fr"};

}  // namespace rigdeed
