#include "base/confine.hpp"

#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/landlock.h>
#include <linux/seccomp.h>
#include <sched.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace rigdeed {
namespace {

#if defined(__x86_64__)
constexpr std::uint32_t architecture = AUDIT_ARCH_X86_64;
#elif defined(__aarch64__)
constexpr std::uint32_t architecture = AUDIT_ARCH_AARCH64;
#else
constexpr std::uint32_t architecture = 0;
#endif

// What computing, memory, the pipe and the end need.
constexpr std::array allowed{
    __NR_read,         __NR_write,          __NR_writev,      __NR_close,         __NR_exit,         __NR_exit_group,
    __NR_brk,          __NR_munmap,         __NR_mremap,      __NR_madvise,       __NR_futex,        __NR_rt_sigreturn,
    __NR_rt_sigaction, __NR_rt_sigprocmask, __NR_sigaltstack, __NR_clock_gettime, __NR_gettimeofday, __NR_getpid,
    __NR_gettid,       __NR_getrandom,      __NR_sched_yield, __NR_getrusage,     __NR_newfstatat,
};

void close_all_but(int keep, bool keep_errors) {
    const unsigned first = keep_errors ? 3 : 0;
    if (keep > static_cast<int>(first)) ::close_range(first, static_cast<unsigned>(keep) - 1, 0);
    ::close_range(static_cast<unsigned>(keep) + 1, ~0U, 0);
}

// No rule is added to the set, so nothing beneath "/" may be touched.
void forbid_files() {
    landlock_ruleset_attr everything{};
    everything.handled_access_fs = (LANDLOCK_ACCESS_FS_MAKE_SYM << 1) - 1;
    const long set = ::syscall(SYS_landlock_create_ruleset, &everything, sizeof everything, 0);
    if (set < 0) return;
    (void)::syscall(SYS_landlock_restrict_self, set, 0);
    ::close(static_cast<int>(set));
}

using Program = std::vector<sock_filter>;

constexpr std::uint32_t refusal = SECCOMP_RET_ERRNO | EPERM;

void load(Program& program, std::size_t offset) {
    program.push_back(BPF_STMT(BPF_LD | BPF_W | BPF_ABS, static_cast<std::uint32_t>(offset)));
}

void answer(Program& program, std::uint32_t what) { program.push_back(BPF_STMT(BPF_RET | BPF_K, what)); }

// Argument `index`, its lower half: Linux keeps flags, protections and process numbers there.
std::size_t argument(std::size_t index) { return offsetof(seccomp_data, args) + 8 * index; }

// Memory that can be run is refused.
void unless_executable(Program& program, std::uint32_t call) {
    program.push_back(BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, call, 0, 4));
    load(program, argument(2));
    program.push_back(BPF_JUMP(BPF_JMP | BPF_JSET | BPF_K, PROT_EXEC, 0, 1));
    answer(program, refusal);
    answer(program, SECCOMP_RET_ALLOW);
}

// Only to itself: abort() and raise().
void to_itself(Program& program, std::uint32_t call) {
    program.push_back(BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, call, 0, 4));
    load(program, argument(0));
    program.push_back(BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, static_cast<std::uint32_t>(::getpid()), 1, 0));
    answer(program, refusal);
    answer(program, SECCOMP_RET_ALLOW);
}

// Threads, not processes. What clone3 wants cannot be looked at: the C library takes clone where there is no clone3.
void only_threads(Program& program) {
    for (const int call : {__NR_set_robust_list, __NR_rseq}) {
        program.push_back(BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, static_cast<std::uint32_t>(call), 0, 1));
        answer(program, SECCOMP_RET_ALLOW);
    }
    program.push_back(BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, __NR_clone3, 0, 1));
    answer(program, SECCOMP_RET_ERRNO | ENOSYS);
    program.push_back(BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, __NR_clone, 0, 4));
    load(program, argument(0));
    program.push_back(BPF_JUMP(BPF_JMP | BPF_JSET | BPF_K, CLONE_THREAD, 1, 0));
    answer(program, refusal);
    answer(program, SECCOMP_RET_ALLOW);
}

Program filter(bool threads) {
    Program program;
    load(program, offsetof(seccomp_data, arch));
    program.push_back(BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, architecture, 1, 0));
    answer(program, refusal);
    load(program, offsetof(seccomp_data, nr));
    for (const int call : allowed) {
        program.push_back(BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, static_cast<std::uint32_t>(call), 0, 1));
        answer(program, SECCOMP_RET_ALLOW);
    }
    unless_executable(program, __NR_mmap);
    unless_executable(program, __NR_mprotect);
    if (threads) only_threads(program);
    to_itself(program, __NR_tgkill);
    answer(program, refusal);
    return program;
}

void forbid_calls(bool threads) {
    if (architecture == 0) return;
    Program program = filter(threads);
    const sock_fprog all{static_cast<unsigned short>(program.size()), program.data()};
    ::prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &all);
}

}  // namespace

bool can_filter_calls() {
    // With no filter given the kernel complains of the address if it knows filters at all.
    return architecture != 0 && ::prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, nullptr) != 0 && errno == EFAULT;
}

void confine(int keep, bool keep_errors, bool threads) {
    close_all_but(keep, keep_errors);
    ::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
    if (keep_errors) return;  // what watches needs files and processes of its own
    forbid_files();
    forbid_calls(threads);
}

}  // namespace rigdeed
