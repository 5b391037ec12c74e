#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "reopen/reopen.hpp"

namespace rigdeed::reopen {

/// What the child found beside the verdict, as bytes, and back into `report`. False if they are not exactly that.
[[nodiscard]] std::string write_facts(const SealedReport& report);
[[nodiscard]] bool read_facts(std::string_view bytes, SealedReport& report);

/// All that is found out of an intact report beside its seal, in the child: contents against data, timestamp against
/// what was sealed, survey, register. May change the verdict.
void examine(std::string_view bytes, const Opening& opening, SealedReport& report);

}  // namespace rigdeed::reopen
