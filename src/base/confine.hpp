#pragma once

namespace rigdeed {

/// Gives up for good, in this process, what reading bytes that are already in memory does not need: every open file but
/// `keep`, new privileges, and as far as the kernel has the means (seccomp, Landlock) opening files, the network, other
/// processes and programs, memory that can be run. What is refused afterwards fails with an error, not with the end of
/// the process. `keep_errors` leaves standard error open, for builds that are watched; `threads` leaves it threads of
/// its own, for libraries that do not work without.
void confine(int keep, bool keep_errors, bool threads = false);

/// Whether the kernel takes filters of system calls.
[[nodiscard]] bool can_filter_calls();

}  // namespace rigdeed
