#pragma once

#include <string>
#include <string_view>

#include "record/record.hpp"

/// What writing and reading of the record share.
namespace rigdeed::record {

/// The shortest digits that read back as the same number.
[[nodiscard]] std::string exact(double value);

}  // namespace rigdeed::record
