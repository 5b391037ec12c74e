#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "base/process.hpp"
#include "verify/verify.hpp"

namespace rigdeed::verify {

/// As verify(), in a child process with limits: a file that brings its reader down is refused like any other.
/// `further` is done in the child to the verdict of an intact report. Throws Error as verify() does.
[[nodiscard]] Verdict verify_apart(std::string_view file, const Trust& trust,
                                   const std::function<void(Verdict&)>& further = {}, const ChildLimits& limits = {});

/// As embedded_files(), in such a child; none also if that comes to no good end.
[[nodiscard]] std::vector<CarriedFile> embedded_files_apart(std::string_view file, const ChildLimits& limits = {});

/// A verdict as bytes, and back; nothing if they are not exactly what write_verdict makes.
[[nodiscard]] std::string write_verdict(const Verdict& verdict);
[[nodiscard]] std::optional<Verdict> read_verdict(std::string_view bytes);

}  // namespace rigdeed::verify
