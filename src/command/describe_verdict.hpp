#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/json.hpp"
#include "command/terminal.hpp"
#include "record/record.hpp"
#include "verify/photos.hpp"
#include "verify/verify.hpp"

/// What `verify` says about a report.
namespace rigdeed::command {

struct VerifiedReport {
    std::string file;
    verify::Verdict verdict;
    Digest sha256;                                ///< of the file, if there are several
    std::optional<record::Replaced> replaces;     ///< as an intact report says
    std::string replaced_file;                    ///< that report, if it is one of those examined
    std::optional<verify::PhotosFinding> photos;  ///< if a folder was named, and the report is intact
};

/// "3 October 2026, 09:14 UTC".
[[nodiscard]] std::string utc_text(std::int64_t seconds);
/// "Coast CA", by "Harbour Root": names that anyone may have written.
[[nodiscard]] std::string chain_text(const std::vector<crypto::CertificateFacts>& chain);

[[nodiscard]] ExitCode exit_code(const VerifiedReport& report);

void describe(const VerifiedReport& report, const Terminal& terminal);
void describe(const VerifiedReport& report, JsonWriter& json);

}  // namespace rigdeed::command
