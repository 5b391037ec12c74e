#include <fcntl.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <exception>

#include "base/confine.hpp"
#include "base/error.hpp"
#include "base/process.hpp"

namespace rigdeed {
namespace {

enum ChildExit : int { exit_well = 0, exit_limits = 1, exit_memory = 2, exit_exception = 3, exit_pipe = 4 };

// The sanitizers reserve more address space than any limit would leave, and open pipes to look at memory.
#if defined(RIGDEED_SANITIZED)
constexpr bool is_watched = true;
#else
constexpr bool is_watched = false;
#endif

std::uint64_t address_space() {
    std::FILE* file = std::fopen("/proc/self/statm", "re");
    unsigned long long pages = 0;
    const bool read = file != nullptr && std::fscanf(file, "%llu", &pages) == 1;
    if (file != nullptr) std::fclose(file);
    return read ? pages * static_cast<std::uint64_t>(::sysconf(_SC_PAGESIZE)) : std::uint64_t{1} << 30;
}

// Never above what we may use ourselves. `more` lies between the limit and its end: where the system first warns.
bool set_limit(int resource, std::uint64_t most, std::uint64_t more = 0) {
    rlimit limit{};
    if (::getrlimit(static_cast<__rlimit_resource_t>(resource), &limit) != 0) return false;
    if (limit.rlim_max == RLIM_INFINITY || limit.rlim_max > most + more) limit.rlim_max = most + more;
    if (limit.rlim_cur == RLIM_INFINITY || limit.rlim_cur > most)
        limit.rlim_cur = std::min<rlim_t>(most, limit.rlim_max);
    return ::setrlimit(static_cast<__rlimit_resource_t>(resource), &limit) == 0;
}

bool set_limits(const ChildLimits& limits, std::uint64_t address_space_now) {
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);
    ::alarm(5 * limits.seconds);
    for (const int signal : {SIGSEGV, SIGBUS, SIGILL, SIGFPE, SIGABRT, SIGTERM}) std::signal(signal, SIG_DFL);
    return set_limit(RLIMIT_CORE, 0) && set_limit(RLIMIT_FSIZE, 0) && set_limit(RLIMIT_CPU, limits.seconds, 2) &&
           (is_watched ||
            (set_limit(RLIMIT_NOFILE, 0) && set_limit(RLIMIT_AS, address_space_now + limits.more_memory)));
}

int write_all(int to, const std::string& bytes) {
    for (std::size_t done = 0; done < bytes.size();) {
        const ssize_t written = ::write(to, bytes.data() + done, bytes.size() - done);
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) return exit_pipe;
        done += static_cast<std::size_t>(written);
    }
    return exit_well;
}

int run_child(const std::function<std::string()>& work, int to) {
    try {
        return write_all(to, work());
    } catch (const std::bad_alloc&) { return exit_memory; } catch (...) {
        return exit_exception;
    }
}

// False if more came than is allowed.
bool read_all(int from, std::uint64_t most, std::string& bytes) {
    std::array<char, 65536> buffer{};
    for (;;) {
        const ssize_t count = ::read(from, buffer.data(), buffer.size());
        if (count < 0 && errno == EINTR) continue;
        if (count <= 0) return count == 0;
        if (bytes.size() + static_cast<std::size_t>(count) > most) return false;
        bytes.append(buffer.data(), static_cast<std::size_t>(count));
    }
}

int wait_for(pid_t child) {
    int status = 0;
    while (::waitpid(child, &status, 0) < 0)
        if (errno != EINTR) return -1;
    return status;
}

std::string fault_of(int status) {
    if (WIFSIGNALED(status)) {
        const int signal = WTERMSIG(status);
        if (signal == SIGXCPU || signal == SIGALRM) return "it took too long";
        if (signal == SIGKILL) return "what read it was killed";  // by whom, nobody can tell
        return "reading it ended with signal " + std::to_string(signal);
    }
    switch (WIFEXITED(status) ? WEXITSTATUS(status) : -1) {
        case exit_well: return {};
        case exit_memory: return "it took too much memory";
        case exit_exception: return "reading it failed";
        default: return "reading it did not come to its end";
    }
}

}  // namespace

// A parent that ignores its children has them reaped behind its back, and hands that on to what it starts.
class WithChildren {
 public:
    WithChildren() {
        struct sigaction usual {};
        usual.sa_handler = SIG_DFL;
        ::sigaction(SIGCHLD, &usual, &before_);
    }
    ~WithChildren() { ::sigaction(SIGCHLD, &before_, nullptr); }
    WithChildren(const WithChildren&) = delete;
    WithChildren& operator=(const WithChildren&) = delete;

 private:
    struct sigaction before_ {};
};

namespace {

struct Started {
    pid_t child = -1;
    int from = -1;
};

Started start(const std::function<std::string()>& work, const ChildLimits& limits) {
    std::array<int, 2> ends{};
    if (::pipe2(ends.data(), O_CLOEXEC) != 0) throw Error(std::string("cannot open a pipe: ") + std::strerror(errno));
    const std::uint64_t address_space_now = address_space();
    const pid_t child = ::fork();
    if (child < 0) {
        const int error = errno;
        ::close(ends[0]);
        ::close(ends[1]);
        throw Error(std::string("cannot start a process: ") + std::strerror(error));
    }
    if (child == 0) {
        const bool limited = set_limits(limits, address_space_now);
        confine(ends[1], is_watched, limits.threads);
        ::_exit(limited ? run_child(work, ends[1]) : exit_limits);
    }
    ::close(ends[1]);
    return {child, ends[0]};
}

ChildResult finish(const Started& started, const ChildLimits& limits) {
    ChildResult result;
    const bool all = read_all(started.from, limits.most_result, result.bytes);
    ::close(started.from);
    if (!all) ::kill(started.child, SIGKILL);
    const int status = wait_for(started.child);
    result.fault = all ? fault_of(status) : "it has more in it than a report";
    result.ended_well = result.fault.empty();
    return result;
}

}  // namespace

ChildResult in_child(const std::function<std::string()>& work, const ChildLimits& limits) {
    const WithChildren with_children;
    return finish(start(work, limits), limits);
}

std::vector<ChildResult> in_children(std::size_t count, const std::function<std::string(std::size_t)>& work,
                                     const ChildLimits& limits) {
    const WithChildren with_children;
    std::vector<Started> started;
    std::vector<ChildResult> results;
    for (std::size_t i = 0; i < count; ++i) {
        try {
            started.push_back(start([&work, i] { return work(i); }, limits));
        } catch (const Error& error) {
            for (const Started& one : started) ::kill(one.child, SIGKILL), (void)finish(one, limits);
            throw;
        }
    }
    for (const Started& one : started) results.push_back(finish(one, limits));
    return results;
}

}  // namespace rigdeed
