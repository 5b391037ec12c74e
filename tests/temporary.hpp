#pragma once

#include <unistd.h>

#include <filesystem>
#include <string>

namespace rigdeed::sample {

/// A path among the temporary files that no other run of the tests has.
inline std::filesystem::path temporary(const std::string& name) {
    return std::filesystem::temp_directory_path() / ("rigdeed-" + std::to_string(::getpid()) + "-" + name);
}

}  // namespace rigdeed::sample
