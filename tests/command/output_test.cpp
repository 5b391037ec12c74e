#include "command/output.hpp"

#include <doctest/doctest.h>

#include <filesystem>
#include <functional>

#include "base/error.hpp"
#include "base/scratch.hpp"

using namespace rigdeed;
namespace fs = std::filesystem;

namespace {

std::string error_of(const std::function<void()>& check) {
    try {
        check();
    } catch (const Error& error) { return error.what(); }
    return {};
}

}  // namespace

TEST_CASE("a file is its own source by whatever path, symbolic link or hard link") {
    const sample::Scratch scratch;
    scratch.put("key", "secret");
    scratch.put("other", "secret");
    fs::create_directory(scratch.path / "folder");
    fs::create_symlink(scratch.path / "key", scratch.path / "link");
    fs::create_hard_link(scratch.path / "key", scratch.path / "twin");
    const auto fault = [&](const fs::path& output) {
        return error_of([&] { command::refuse_source(output, {{}, scratch.path / "key"}, "the report"); });
    };
    for (const char* same : {"key", "./key", "folder/../key", "link", "twin"}) {
        CAPTURE(same);
        CHECK(fault(scratch.path / same) == "the report would take the place of its own source");
    }
    CHECK(fault(scratch.path / "other").empty());
    CHECK(fault(scratch.path / "new").empty());
}

TEST_CASE("what is there is overwritten by force alone, and a sealed report not even so") {
    const sample::Scratch scratch;
    scratch.put("report.pdf", "%PDF-1.7 /SubFilter /ETSI.CAdES.detached");
    scratch.put("preview.pdf", "%PDF-1.7 /SubFilter");
    scratch.put("notes.txt", "about /ETSI.CAdES.detached");
    const auto fault = [&](const char* name, bool force) {
        return error_of([&] { command::refuse_existing(scratch.path / name, force); });
    };
    for (const bool force : {false, true}) {
        CHECK(fault("report.pdf", force) == "is there already, a sealed report, and is not overwritten");
        CHECK(fault("new.pdf", force).empty());
    }
    for (const char* name : {"preview.pdf", "notes.txt"}) {
        CHECK(fault(name, false) == "is there already");
        CHECK(fault(name, true).empty());
    }
}

TEST_CASE("where nothing may be there, a link that leads nowhere is something") {
    const sample::Scratch scratch;
    fs::create_symlink(scratch.path / "nowhere", scratch.path / "link");
    CHECK(error_of([&] { command::refuse_any_existing(scratch.path / "link"); }) == "is there already");
    CHECK(error_of([&] { command::refuse_any_existing(scratch.path / "new"); }).empty());
}
