#include <doctest/doctest.h>
#include <fcntl.h>
#include <unistd.h>

#include <atomic>
#include <csignal>
#include <new>
#include <stdexcept>

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
}

#if !defined(RIGDEED_SANITIZED)  // the sanitizers need handles and memory of their own
TEST_CASE("a child opens no file and writes none") {
    const auto open = [] { return std::string(::open("/dev/null", O_RDONLY | O_CLOEXEC) < 0 ? "refused" : "opened"); };
    CHECK(in_child(open, small()).bytes == "refused");
}

TEST_CASE("a child gets no more memory than it may have") {
    const auto greedy = [] { return std::to_string(std::string(std::size_t{200} << 20, 'x').size()); };
    CHECK(in_child(greedy, small()).fault == "it took too much memory");
}
#endif
