#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace rigdeed {

/// Runs `work(i)` for every i below `count`, on `jobs` threads or as many as there can be. The first exception is
/// thrown again here.
template <class Work>
void in_parallel(std::size_t count, unsigned jobs, const Work& work) {
    std::atomic<std::size_t> next{0};
    std::mutex guard;
    std::exception_ptr failure;
    const auto run = [&] {
        try {
            for (std::size_t i = next++; i < count; i = next++) work(i);
        } catch (...) {
            const std::scoped_lock lock(guard);
            if (!failure) failure = std::current_exception();
            next = count;
        }
    };
    std::vector<std::jthread> threads;
    const std::size_t helpers = std::min<std::size_t>(std::max(jobs, 1U), std::max<std::size_t>(count, 1)) - 1;
    try {
        for (std::size_t i = 0; i < helpers; ++i) threads.emplace_back(run);
    } catch (const std::system_error&) {}  // no more threads to be had here: those there are do it
    run();
    threads.clear();
    if (failure) std::rethrow_exception(failure);
}

}  // namespace rigdeed
