#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "base/process.hpp"
#include "verify/verify.hpp"

namespace rigdeed::verify {

/// What else is found out in the child, as bytes; it may change the verdict.
using Further = std::function<std::string(Verdict&)>;

struct Apart {
    Verdict verdict;
    std::string more;  ///< what `further` returned
    Digest sha256;     ///< of the file
};

/// As verify(), in a child process with limits: whatever reading does to it hurts nobody, and is told as not examined.
/// `further` is called there after every examination. That the seal of an intact report holds is then seen here once
/// more: digest, signature, certificate's fingerprint. `known` are the sums of the file, if they were made already.
/// Throws Error as verify() does.
[[nodiscard]] Apart verify_apart(std::string_view file, const Trust& trust, const Further& further = {},
                                 const ChildLimits& limits = {}, const Sums* known = nullptr);

/// A verdict as bytes, and back; nothing if they are not exactly what write_verdict makes.
[[nodiscard]] std::string write_verdict(const Verdict& verdict);
[[nodiscard]] std::optional<Verdict> read_verdict(std::string_view bytes);

}  // namespace rigdeed::verify
