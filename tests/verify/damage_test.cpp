// No change, however small, may pass; and none may bring the reader down.
#include <doctest/doctest.h>

#include <random>

#include "verify/sample_report.hpp"
#include "verify/verify.hpp"

using namespace rigdeed;
using sample::sealed_report;

namespace {

bool accepted(std::string_view file) { return verify::verify(file, {}).intact(); }

}  // namespace

TEST_CASE("no byte of a report may differ in its lowest bit") {
    std::string file = sealed_report();
    std::size_t passed = 0;
    for (char& byte : file) {
        byte = static_cast<char>(byte ^ 1);
        passed += accepted(file);
        byte = static_cast<char>(byte ^ 1);
    }
    CHECK(passed == 0);
    CHECK(accepted(file));
}

TEST_CASE("no bit of a random sample may differ") {
    std::string file = sealed_report();
    std::mt19937 random(1);
    std::size_t passed = 0;
    for (int i = 0; i < 20'000; ++i) {
        char& byte = file[random() % file.size()];
        const char before = byte;
        byte = static_cast<char>(byte ^ (1 << random() % 8));
        passed += accepted(file);
        byte = before;
    }
    CHECK(passed == 0);
}

TEST_CASE("no report that is cut short passes, wherever it is cut") {
    const std::string_view file = sealed_report();
    std::size_t passed = 0;
    for (std::size_t size = 0; size < file.size(); ++size)
        passed += accepted(file.substr(0, size)) + accepted(file.substr(file.size() - size));
    CHECK(passed == 0);
}

TEST_CASE("no byte may be put in, taken out or exchanged with its neighbour") {
    const std::string& file = sealed_report();
    std::mt19937 random(2);
    std::size_t passed = 0;
    for (int i = 0; i < 1000; ++i) {
        const std::size_t at = random() % (file.size() - 1);
        std::string more = file, less = file, swapped = file;
        more.insert(at, 1, static_cast<char>(random()));
        less.erase(at, 1 + random() % 16);
        std::swap(swapped[at], swapped[at + 1]);
        passed += accepted(more) + accepted(less) + (swapped != file && accepted(swapped));
    }
    CHECK(passed == 0);
}

TEST_CASE("no block of a report may stand in for another") {
    const std::string& file = sealed_report();
    std::mt19937 random(3);
    std::size_t passed = 0;
    for (int i = 0; i < 1000; ++i) {
        const std::size_t size = 1 + random() % 500;
        std::string changed = file;
        changed.replace(random() % (file.size() - size), size, file, random() % (file.size() - size), size);
        passed += changed != file && accepted(changed);
    }
    CHECK(passed == 0);
}

TEST_CASE("a report that is changed and sealed again by the forger never brings the reader down") {
    const std::string& file = sealed_report();
    std::mt19937 random(4);
    for (int i = 0; i < 300; ++i) {
        std::string changed = file;
        changed[random() % changed.size()] = static_cast<char>(random());
        try {
            changed = sample::resealed(changed);
        } catch (const std::exception&) {
            continue;  // hit a part the forger's tool needs
        }
        CHECK_NOTHROW((void)verify::verify(changed, {}));
    }
}
