#pragma once

#include <map>
#include <string_view>

#include "base/bytes.hpp"

namespace rigdeed::reopen {

/// The pictures that a sealed report shows, by their SHA-256. The report is taken apart in a child process; none of one
/// that cannot be. To be called while there is one thread only.
[[nodiscard]] std::map<Digest, Bytes> pictures_in(std::string_view report);

}  // namespace rigdeed::reopen
