#pragma once

#include <filesystem>
#include <fstream>
#include <string>

#include "base/bytes.hpp"
#include "temporary.hpp"

namespace rigdeed::sample {

/// A survey folder that is gone at the end of the test.
class TemporarySurvey {
 public:
    explicit TemporarySurvey(const std::string& text) {
        std::filesystem::create_directories(folder_ / "photos");
        std::ofstream(folder_ / "survey.xml") << text;
    }
    ~TemporarySurvey() { std::filesystem::remove_all(folder_); }
    TemporarySurvey(const TemporarySurvey&) = delete;
    TemporarySurvey& operator=(const TemporarySurvey&) = delete;

    void photo(const std::string& name, const Bytes& jpeg) const {
        std::ofstream(folder_ / "photos" / (name + ".jpg"), std::ios::binary)
            .write(reinterpret_cast<const char*>(jpeg.data()), static_cast<std::streamsize>(jpeg.size()));
    }
    void text(const std::string& text) const { std::ofstream(file()) << text; }
    [[nodiscard]] std::filesystem::path file() const { return folder_ / "survey.xml"; }

 private:
    std::filesystem::path folder_ = sample::temporary("survey-test");
};

}  // namespace rigdeed::sample
