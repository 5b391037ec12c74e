#include <doctest/doctest.h>
#include <fcntl.h>
#include <sys/mman.h>
#include <sys/socket.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <csignal>
#include <new>
#include <stdexcept>

#include "base/confine.hpp"
#include "base/process.hpp"

using namespace rigdeed;

namespace {

ChildLimits small() { return {std::uint64_t{64} << 20, 1, 1 << 20}; }

}  // namespace

TEST_CASE("what a child returns arrives whole") {
    const std::string much(900'000, 'x');
    const ChildResult result = in_child([&] { return much; }, small());
    CHECK(result.ended_well);
    CHECK(result.bytes == much);
    CHECK(in_child([] { return std::string(); }, small()).ended_well);
}

TEST_CASE("whatever becomes of a child is said and hurts nobody else") {
    CHECK(in_child([]() -> std::string { throw std::runtime_error("x"); }, small()).fault == "reading it failed");
    CHECK(in_child([]() -> std::string { throw std::bad_alloc(); }, small()).fault == "it took too much memory");
    CHECK(in_child(
              []() -> std::string {
                  ::raise(SIGSEGV);
                  return "x";
              },
              small())
              .fault == "reading it ended with signal 11");
    CHECK(in_child([]() -> std::string { ::_exit(77); }, small()).fault == "reading it did not come to its end");
    CHECK(in_child([] { return std::string((1 << 20) + 1, 'x'); }, small()).fault == "it has more in it than a report");
}

TEST_CASE("a child that never ends is ended") {
    const auto busy = []() -> std::string {
        for (std::atomic<unsigned> i{0};;) ++i;
    };
    CHECK(in_child(busy, small()).fault == "it took too long");
    CHECK(in_child([] { return ::raise(SIGKILL), std::string(); }, small()).fault == "what read it was killed");
}

TEST_CASE("a child is waited for also where children are ignored") {
    std::signal(SIGCHLD, SIG_IGN);
    const ChildResult result = in_child([] { return std::string("x"); }, small());
    CHECK(result.ended_well);
    CHECK((std::signal(SIGCHLD, SIG_DFL) == SIG_IGN));
}

#if !defined(RIGDEED_SANITIZED)  // the sanitizers need handles and memory of their own
TEST_CASE("a child opens no file and writes none") {
    const auto open = [] { return std::string(::open("/dev/null", O_RDONLY | O_CLOEXEC) < 0 ? "refused" : "opened"); };
    CHECK(in_child(open, small()).bytes == "refused");
}

TEST_CASE("a child has nothing of the outside") {
    // One letter for each thing tried: r refused.
    const auto try_all = [] {
        std::string said;
        const auto tell = [&](bool refused) { said += refused ? 'r' : 'd'; };
        for (const int descriptor : {0, 1, 2}) tell(::fcntl(descriptor, F_GETFD) < 0);
        tell(::socket(AF_INET, SOCK_STREAM, 0) < 0);
        const pid_t other = ::fork();
        if (other == 0) ::_exit(0);
        tell(other < 0);
        std::array<char*, 2> words{const_cast<char*>("true"), nullptr};
        tell(::execv("/bin/true", words.data()) < 0);
        tell(::kill(::getppid(), 0) < 0);
        tell(::syscall(SYS_tgkill, ::getppid(), ::getppid(), 0) < 0);
        tell(::mmap(nullptr, 4096, PROT_READ | PROT_EXEC, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0) == MAP_FAILED);
        tell(::unlink("/tmp/rigdeed-no-such-file") < 0 && errno != ENOENT);
        return said;
    };
    if (can_filter_calls()) CHECK(in_child(try_all, small()).bytes == "rrrrrrrrrr");
    else CHECK(in_child(try_all, small()).bytes.starts_with("rrr"));
}

TEST_CASE("a child gets no more memory than it may have") {
    const auto greedy = [] { return std::to_string(std::string(std::size_t{200} << 20, 'x').size()); };
    CHECK(in_child(greedy, small()).fault == "it took too much memory");
}
#endif
