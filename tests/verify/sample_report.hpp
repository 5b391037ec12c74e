#pragma once

#include <string>
#include <string_view>

#include "crypto/sample_signer.hpp"
#include "verify/verify.hpp"

/// A small sealed report, and tools to forge it.
namespace rigdeed::sample {

[[nodiscard]] const std::string& sealed_report();

/// The first `from` replaced by `to`; a test that finds none has lost its subject, and throws.
[[nodiscard]] std::string replaced(std::string file, std::string_view from, std::string_view to);
/// The cross-reference table made new, so that only the forgery itself is wrong.
[[nodiscard]] std::string with_table(std::string file);
/// The same, and sealed again: what a forger with a key of his own, or a careless signer, can make.
[[nodiscard]] std::string resealed(const std::string& file, const crypto::Signer& signer = ann());

/// What verify says of a file; throws if the door that `unpack` and `--replaces` go through, too, would let through
/// what is refused here.
[[nodiscard]] verify::Verdict examined(std::string_view file);

/// Where RIGDEED_KEEP_EXAMINED names a folder, the file is kept there, by its verdict and the test that asks: for other
/// verifiers. "contents" is what is refused for its contents alone.
void keep(std::string_view file, const verify::Verdict& verdict);

/// The name of the check that fails; empty if only the signer is in question.
[[nodiscard]] std::string failing_check(std::string_view file);

/// How many objects the report's table holds, with the free one: "57".
[[nodiscard]] std::string object_count(const std::string& report);
[[nodiscard]] std::string one_more(const std::string& count);

}  // namespace rigdeed::sample
