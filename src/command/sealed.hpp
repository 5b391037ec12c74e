#pragma once

#include <string>
#include <string_view>

#include "base/bytes.hpp"
#include "verify/verify.hpp"

/// What commands other than `verify` want of a sealed report.
namespace rigdeed::command {

struct SealedReport {
    verify::Verdict verdict;
    Digest sha256;       ///< of the file
    std::string number;  ///< of the survey in it; empty if it cannot be read
};
[[nodiscard]] SealedReport read_sealed(const std::string& file);

/// A file carried in an intact report; empty if there is none of that name.
[[nodiscard]] std::string_view carried(const verify::Verdict& verdict, std::string_view name);

}  // namespace rigdeed::command
