#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.hpp"

namespace rigdeed {

/// The whole of a regular file. Throws Error if it is missing, not a regular file, or larger than `limit` bytes.
/// "-" reads standard input.
[[nodiscard]] Bytes read_file(const std::filesystem::path& path, std::uint64_t limit);
/// The same; `meanwhile` gets what was read, piece after piece in order, while the next is read, on another thread if
/// there is one to be had. It has had all of it when this returns.
[[nodiscard]] Bytes read_file(const std::filesystem::path& path, std::uint64_t limit,
                              const std::function<void(std::string_view)>& meanwhile);

/// Writes beside the target, syncs, renames: afterwards the old file is whole or the new one complete.
/// Throws Error (path and reason) and leaves nothing behind on any failure. A file that is replaced keeps its mode.
enum class Readers { anyone, owner };  ///< who may read the new file; the umask may take more away
void write_file(const std::filesystem::path& path, std::string_view content, Readers readers = Readers::anyone);

/// A folder held open, from which files are read without following links out of it.
class Folder {
 public:
    explicit Folder(const std::filesystem::path& path);  ///< throws Error if it cannot be opened
    ~Folder();
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;

    enum class Outcome { read, missing, not_a_regular_file, leads_outside, too_large, unreadable };
    struct Reading {
        Outcome outcome = Outcome::unreadable;
        Bytes bytes;
        std::string reason;  ///< the system's words, for `unreadable`
        int error = 0;       ///< its number (errno)
    };
    /// `relative` has no empty, "." or ".." part; every part is opened without following links.
    [[nodiscard]] Reading read(std::string_view relative, std::uint64_t limit) const;

    /// All regular files beneath, as relative paths with '/', sorted. Hidden ones are left out.
    [[nodiscard]] std::vector<std::string> files() const;

 private:
    std::filesystem::path path_;
    int descriptor_ = -1;
};

}  // namespace rigdeed
