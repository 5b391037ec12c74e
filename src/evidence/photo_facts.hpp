#pragma once

#include <string>
#include <string_view>

#include "evidence/evidence.hpp"

namespace rigdeed::evidence {

/// What was found out about a photo, and its copies, as bytes: all but its name, file, size and digest.
[[nodiscard]] std::string write_facts(const Photo& photo);

/// False if they are not what write_facts makes of a photo.
[[nodiscard]] bool read_facts(std::string_view bytes, Photo& photo);

}  // namespace rigdeed::evidence
