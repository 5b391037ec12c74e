#pragma once

#include <string>
#include <vector>

#include "verify/document.hpp"
#include "verify/schema.hpp"
#include "verify/verify.hpp"

namespace rigdeed::verify {

/// The files in a report: both lists of them agree, the names are those we write, each unpacks to its stated size.
/// Returns what is wrong, or nothing.
[[nodiscard]] std::string read_carried(const Document& document, const Roles& roles, std::vector<CarriedFile>& files);

}  // namespace rigdeed::verify
