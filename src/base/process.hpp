#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace rigdeed {

/// To be called once, before anything is opened. Afterwards a write beyond a limit or into a closed pipe is an error of
/// that call and not the end of the process, and no file is ever opened as descriptor 0, 1 or 2 because the caller had
/// closed it: what is printed must not end up in a report.
void settle_process();

/// What a child process may use. It opens no file, writes none, and has nothing of the outside (confine.hpp), whatever
/// these say.
struct ChildLimits {
    std::uint64_t more_memory = std::uint64_t{2} << 30;  ///< bytes of address space beyond what we have ourselves
    unsigned seconds = 60;                               ///< of processor time; five times as many by the clock
    std::uint64_t most_result = std::uint64_t{256} << 20;
    bool threads = false;  ///< it may start threads of its own
};

struct ChildResult {
    bool ended_well = false;
    std::string bytes;  ///< what `work` returned; whole if it ended well
    std::string fault;  ///< why it did not, without a full stop
};

/// Runs `work` in a child process, so that whatever becomes of it is a value here: a crash, a hang, an exception, too
/// much memory. To be called while there is one thread only. Throws Error if no process can be started.
[[nodiscard]] ChildResult in_child(const std::function<std::string()>& work, const ChildLimits& limits);

/// The same, in `count` children at once: each runs `work` with its number.
[[nodiscard]] std::vector<ChildResult> in_children(std::size_t count,
                                                   const std::function<std::string(std::size_t)>& work,
                                                   const ChildLimits& limits);

}  // namespace rigdeed
