#include "base/folders.hpp"

#include <doctest/doctest.h>

#include "base/error.hpp"
#include "base/scratch.hpp"

using namespace rigdeed;

TEST_CASE("folders are made as far as they are missing, and not through a file") {
    const sample::Scratch scratch;
    make_folders(scratch.path / "a/b/c");
    CHECK(std::filesystem::is_directory(scratch.path / "a/b/c"));
    make_folders(scratch.path / "a/b/d/");
    CHECK(std::filesystem::is_directory(scratch.path / "a/b/d"));
    make_folders(scratch.path / "a");
    scratch.put("file", "x");
    CHECK_THROWS_AS(make_folders(scratch.path / "file/a"), Error);
    CHECK_THROWS_AS(sync_folder(scratch.path / "missing"), Error);
}
