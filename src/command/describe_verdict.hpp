#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/json.hpp"
#include "command/describe_earlier.hpp"
#include "command/terminal.hpp"
#include "reopen/originals.hpp"
#include "reopen/reopen.hpp"
#include "verify/photos.hpp"

/// What `verify` says about a report.
namespace rigdeed::command {

struct VerifiedReport {
    reopen::SealedReport opened;
    EarlierReports earlier;                       ///< those that it is compared with
    std::string replaced_file;                    ///< the report it replaces, if that is one of those examined
    std::optional<verify::PhotosFinding> photos;  ///< if a folder was named, and the report is intact
    std::vector<reopen::CopyFinding> copies;      ///< of the photos of it that were found
    std::vector<std::string> remarks;             ///< on what was named to examine it by
    bool content_required = false;                ///< pages that were not made anew are not enough
};

/// "3 October 2026, 09:14 UTC".
[[nodiscard]] std::string utc_text(std::int64_t seconds);
/// "Coast CA", by "Harbour Root": names that anyone may have written.
[[nodiscard]] std::string chain_text(const std::vector<crypto::CertificateFacts>& chain);

[[nodiscard]] ExitCode exit_code(const VerifiedReport& report);

void describe(const VerifiedReport& report, const Terminal& terminal);
void describe(const VerifiedReport& report, JsonWriter& json);

}  // namespace rigdeed::command
