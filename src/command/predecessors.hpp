#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "command/terminal.hpp"
#include "crypto/signer.hpp"
#include "record/record.hpp"
#include "survey/survey.hpp"
#include "years/since.hpp"

/// The sealed reports that a new one refers to.
namespace rigdeed::command {

struct Replacing {
    std::string report;  ///< empty: none
    std::string because;
    std::string signer;  ///< fingerprint of the one expected; empty: the new report's
};
/// What a new report says of the one it takes the place of: one that `verify` accepts, by the same signer or the one
/// named, of a day before, and named by the survey. Throws Error for any other.
[[nodiscard]] std::optional<record::Replaced> replaced_by(const survey::Survey& survey, const Replacing& replacing,
                                                          const crypto::Signer* signer, std::int64_t moment);

/// A sealed report as what comes after it is given it; verified, and whose seal it is is said. Throws Error for one
/// that is not as issued, that was issued after `moment`, or is a follow-up; `what` names it in messages: "the report
/// of before".
struct OpenedReport {
    Bytes bytes;
    years::Given given;
    std::string yacht, hin;
    Date attended;
};
[[nodiscard]] OpenedReport open_given(const std::string& file, const std::string& what, std::int64_t moment,
                                      const Terminal& terminal);

/// The reports that a new one is compared with.
struct Before {
    std::vector<years::Given> reports;  ///< oldest first, by the days of their attendance
    std::map<Digest, Bytes> pictures;   ///< of the last of them

    /// For what makes the new report; lives as long as this.
    [[nodiscard]] years::FindPicture finder() const;
};
/// Verifies each and says whose seal it is. Throws Error for one that is not as issued, is of another yacht than the
/// survey (unless `other_yacht`), was issued after `moment`, or is named twice.
[[nodiscard]] Before read_before(const std::vector<std::string>& files, const survey::Survey& survey, bool other_yacht,
                                 std::int64_t moment, const Terminal& terminal);

}  // namespace rigdeed::command
