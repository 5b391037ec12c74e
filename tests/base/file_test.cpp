#include "base/file.hpp"

#include <doctest/doctest.h>

#include <filesystem>

#include "base/error.hpp"
#include "base/scratch.hpp"

using namespace rigdeed;
namespace fs = std::filesystem;

using sample::Scratch;

TEST_CASE("a written file replaces the old one and leaves nothing beside it") {
    const Scratch scratch;
    scratch.put("a.pdf", "old");
    write_file(scratch.path / "a.pdf", "new");
    CHECK(as_text(read_file(scratch.path / "a.pdf", 100)) == "new");
    CHECK(std::distance(fs::directory_iterator(scratch.path), {}) == 1);
}

TEST_CASE("a file that is replaced keeps its mode; what only its owner may read is his alone") {
    const Scratch scratch;
    const auto mode = [&](const char* name) { return fs::status(scratch.path / name).permissions(); };
    for (const auto kept : {fs::perms(0600), fs::perms(0640), fs::perms(0444)}) {
        scratch.put("a.pdf", "old");
        fs::permissions(scratch.path / "a.pdf", kept);
        write_file(scratch.path / "a.pdf", "new");
        CHECK(mode("a.pdf") == kept);
        fs::remove(scratch.path / "a.pdf");
    }
    scratch.put("key", "old");
    fs::permissions(scratch.path / "key", fs::perms(0644));
    write_file(scratch.path / "key", "new", Readers::owner);
    CHECK(mode("key") == fs::perms(0600));
}

TEST_CASE("a folder in the way is an error, and nothing is left behind") {
    const Scratch scratch;
    fs::create_directory(scratch.path / "a.pdf");
    CHECK_THROWS_AS(write_file(scratch.path / "a.pdf", "new"), Error);
    CHECK_THROWS_AS(write_file(scratch.path / "no" / "a.pdf", "new"), Error);
    CHECK(std::distance(fs::directory_iterator(scratch.path), {}) == 1);
}

TEST_CASE("files over the limit are not read") {
    const Scratch scratch;
    scratch.put("a", "12345");
    CHECK(read_file(scratch.path / "a", 5).size() == 5);
    CHECK_THROWS_AS((void)read_file(scratch.path / "a", 4), Error);
}

TEST_CASE("a link that leads to itself stops nobody: it is listed, and not read") {
    const Scratch scratch;
    scratch.put("a.jpg", "a");
    fs::create_symlink("loop", scratch.path / "loop");
    const Folder folder(scratch.path);
    CHECK(folder.files() == std::vector<std::string>{"a.jpg", "loop"});
    CHECK(folder.read("loop", 100).outcome == Folder::Outcome::leads_outside);
    CHECK(folder.read("a.jpg", 100).outcome == Folder::Outcome::read);
}

TEST_CASE("no link leads out of a folder") {
    const Scratch scratch;
    scratch.put("secret", "x");
    scratch.put("photos/real.jpg", "y");
    fs::create_symlink(scratch.path / "secret", scratch.path / "photos/link.jpg");
    fs::create_directory_symlink(scratch.path, scratch.path / "photos/up");
    const Folder folder(scratch.path / "photos");
    CHECK(folder.read("real.jpg", 10).outcome == Folder::Outcome::read);
    CHECK(folder.read("link.jpg", 10).outcome == Folder::Outcome::leads_outside);
    CHECK(folder.read("up/secret", 10).outcome == Folder::Outcome::leads_outside);
    CHECK(folder.read("none.jpg", 10).outcome == Folder::Outcome::missing);
    CHECK(folder.read("real.jpg", 0).outcome == Folder::Outcome::too_large);
}

TEST_CASE("a device is not a photo") {
    const Scratch scratch;
    CHECK(Folder("/dev").read("null", 10).outcome == Folder::Outcome::not_a_regular_file);
}
