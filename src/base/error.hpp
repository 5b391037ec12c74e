#pragma once

#include <exception>
#include <string>
#include <utility>

namespace rigdeed {

/// What a process exit code tells the caller. The table stands in docs/exit-codes.md.
enum class ExitCode : int {
    done = 0,
    could_not_run = 2,
    incomplete = 3,
    not_as_issued = 4,
    signer_unknown = 5,
    bug = 70,
};

/// Thrown when a command cannot go on. Caught once, in command::run.
/// `what` is one sentence without a full stop; `where` a file or `file:line`; `hint` what to do instead.
struct Error : std::exception {
    std::string message;
    std::string where;
    std::string hint;
    ExitCode code;

    Error(std::string message_, std::string where_ = {}, std::string hint_ = {},
          ExitCode code_ = ExitCode::could_not_run)
        : message(std::move(message_)), where(std::move(where_)), hint(std::move(hint_)), code(code_) {}

    [[nodiscard]] const char* what() const noexcept override { return message.c_str(); }
};

}  // namespace rigdeed
