#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace rigdeed {

/// Waits until files change (inotify). What changes after it was made counts, even before `wait`.
class Watch {
 public:
    /// Throws Error if the system gives no watch.
    Watch();
    ~Watch();
    Watch(const Watch&) = delete;
    Watch& operator=(const Watch&) = delete;

    /// One file; it may be replaced by another of its name, as editors do. Throws Error if its folder is not there.
    void add_file(const std::filesystem::path& file);
    /// All files beneath a folder but hidden ones. What is not there is left out.
    void add_folder(const std::filesystem::path& folder);

    /// Names of files that changed, in order, once nothing has changed any more for as long as a camera card takes
    /// from one file to the next.
    [[nodiscard]] std::vector<std::string> wait();

 private:
    void take_events(std::vector<std::string>& changed);

    int descriptor_ = -1;
    std::map<int, std::string> only_;  ///< by watch: the one name that counts; empty: all
};

}  // namespace rigdeed
