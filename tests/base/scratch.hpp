#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

namespace rigdeed::sample {

/// A folder of its own that goes away.
struct Scratch {
    std::filesystem::path path;

    Scratch() {
        char pattern[] = "/tmp/rigdeed-test-XXXXXX";
        path = ::mkdtemp(pattern);
    }
    ~Scratch() { std::filesystem::remove_all(path); }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;

    void put(const std::string& name, const std::string& text) const {
        std::filesystem::create_directories((path / name).parent_path());
        std::ofstream(path / name) << text;
    }
};

}  // namespace rigdeed::sample
