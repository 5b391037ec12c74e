#include "base/folders.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <vector>

#include "base/error.hpp"

namespace rigdeed {

void make_folders(const std::filesystem::path& path) {
    std::error_code failed;
    std::vector<std::filesystem::path> missing;
    for (auto one = path.has_filename() ? path : path.parent_path();
         !one.empty() && !std::filesystem::exists(one, failed); one = one.parent_path())
        missing.push_back(one);
    std::filesystem::create_directories(path, failed);
    if (failed) throw Error("cannot make the folder: " + failed.message(), path.string());
    for (const std::filesystem::path& one : missing)
        sync_folder(one.has_parent_path() ? one.parent_path() : std::filesystem::path("."));
}

void sync_folder(const std::filesystem::path& folder) {
    const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    const bool synced = descriptor >= 0 && ::fsync(descriptor) == 0;
    const int error = errno;
    if (descriptor >= 0) ::close(descriptor);
    if (!synced) throw Error(std::string("cannot sync the folder: ") + std::strerror(error), folder.string());
}

}  // namespace rigdeed
