#pragma once

#include <string>

namespace rigdeed::pdf {

/// Name and version of the library that writes the objects; another one may write the same page otherwise.
[[nodiscard]] std::string library();

}  // namespace rigdeed::pdf
