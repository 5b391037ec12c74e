#pragma once

#include <optional>
#include <string>

#include "base/json.hpp"
#include "command/terminal.hpp"
#include "verify/photos.hpp"
#include "verify/verify.hpp"

/// What `verify` says about a report.
namespace rigdeed::command {

struct VerifiedReport {
    std::string file;
    verify::Verdict verdict;
    std::optional<verify::PhotosFinding> photos;  ///< if a folder was named, and the report is intact
};

[[nodiscard]] ExitCode exit_code(const VerifiedReport& report);

void describe(const VerifiedReport& report, const Terminal& terminal);
void describe(const VerifiedReport& report, JsonWriter& json);

}  // namespace rigdeed::command
