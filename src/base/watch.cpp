#include "base/watch.hpp"

#include <poll.h>
#include <sys/inotify.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>

#include "base/error.hpp"

namespace rigdeed {
namespace {

constexpr std::uint32_t changes = IN_CLOSE_WRITE | IN_MOVED_TO | IN_MOVED_FROM | IN_DELETE | IN_CREATE;
constexpr int quiet = 400;  // ms

}  // namespace

Watch::Watch() : descriptor_(inotify_init1(IN_CLOEXEC | IN_NONBLOCK)) {
    if (descriptor_ < 0)
        throw Error(std::string("the system does not say when files change: ") + std::strerror(errno), {},
                    "run `rigdeed check` by hand");
}

Watch::~Watch() { close(descriptor_); }

void Watch::add_file(const std::filesystem::path& file) {
    const std::filesystem::path folder = file.has_parent_path() ? file.parent_path() : ".";
    const int watch = inotify_add_watch(descriptor_, folder.c_str(), changes | IN_MASK_ADD);
    if (watch < 0) throw Error("cannot be watched: " + std::string(std::strerror(errno)), folder.string());
    const auto [place, fresh] = only_.emplace(watch, file.filename().string());
    if (!fresh && place->second != file.filename().string()) place->second.clear();
}

void Watch::add_folder(const std::filesystem::path& folder) {
    const int watch = inotify_add_watch(descriptor_, folder.c_str(), changes | IN_MASK_ADD);
    if (watch < 0) return;
    only_[watch].clear();
    std::error_code failed;
    for (const auto& entry : std::filesystem::directory_iterator(folder, failed))
        if (entry.is_directory(failed) && !entry.is_symlink(failed) &&
            !entry.path().filename().string().starts_with("."))
            add_folder(entry.path());
}

void Watch::take_events(std::vector<std::string>& changed) {
    alignas(inotify_event) std::array<char, 16384> buffer;
    for (ssize_t size = 0; (size = read(descriptor_, buffer.data(), buffer.size())) > 0;) {
        for (std::size_t at = 0; at < static_cast<std::size_t>(size);) {
            inotify_event event;
            std::memcpy(&event, &buffer[at], sizeof event);
            const std::string name = event.len > 0 ? &buffer[at + sizeof event] : "";
            at += sizeof event + event.len;
            const auto only = only_.find(event.wd);
            if (only == only_.end() || name.starts_with(".") || (!only->second.empty() && only->second != name))
                continue;
            if (!name.empty() && std::find(changed.begin(), changed.end(), name) == changed.end())
                changed.push_back(name);
        }
    }
}

std::vector<std::string> Watch::wait() {
    std::vector<std::string> changed;
    for (;;) {
        pollfd waiting{descriptor_, POLLIN, 0};
        const int ready = poll(&waiting, 1, changed.empty() ? -1 : quiet);
        if (ready == 0) return changed;
        if (ready < 0 && errno != EINTR)
            throw Error(std::string("cannot wait for files to change: ") + std::strerror(errno));
        take_events(changed);
    }
}

}  // namespace rigdeed
