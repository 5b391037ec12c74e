#include "evidence/disk_store.hpp"

#include <doctest/doctest.h>
#include <sys/stat.h>
#include <unistd.h>
#include <utime.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <thread>

#include "evidence/sample_photo.hpp"

using namespace rigdeed;
using namespace rigdeed::evidence;
namespace fs = std::filesystem;

namespace {

class Place {
 public:
    Place() {
        std::string pattern = (fs::temp_directory_path() / "rigdeed-store-XXXXXX").string();
        root = mkdtemp(pattern.data());
    }
    ~Place() {
        fs::permissions(root, fs::perms::owner_all);
        fs::remove_all(root);
    }
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;
    [[nodiscard]] fs::path folder() const { return root / "store"; }
    [[nodiscard]] std::vector<fs::path> entries() const {
        std::vector<fs::path> all;
        for (const auto& entry : fs::directory_iterator(folder())) all.push_back(entry.path());
        return all;
    }
    fs::path root;
};

constexpr std::uint64_t ample = 1 << 30;

Copy picture(int width) {
    const auto bytes = std::make_shared<const Bytes>(sample::marked_jpeg(width, 48));
    return {{bytes, width, 48}, survey::Mark{0.5, 0.25, 0.125}};
}

CopyKey key(int side) { return {Digest{{1, 2, 3}}, side, std::nullopt, "a build"}; }

std::string content_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

void write(const fs::path& file, std::string_view text) {
    std::ofstream(file, std::ios::binary | std::ios::trunc)
        .write(text.data(), static_cast<std::streamsize>(text.size()));
}

bool is(const std::optional<Copy>& found, const Copy& wanted) {
    return found && found->picture.jpeg && *found->picture.jpeg == *wanted.picture.jpeg &&
           found->picture.width == wanted.picture.width && found->picture.height == wanted.picture.height &&
           found->shown == wanted.shown;
}

}  // namespace

TEST_CASE("a store gives back what it was given, under its own key alone, to the next run too") {
    const Place place;
    {
        DiskStore store(place.folder(), ample);
        CHECK_FALSE(store.find(key(64)));
        store.keep(key(64), picture(64));
        store.keep_facts("this", Digest{{7}}, "what is known");
    }
    DiskStore next(place.folder(), ample);
    CHECK(is(next.find(key(64)), picture(64)));
    CHECK_FALSE(next.find(key(65)));
    for (const auto& change : std::vector<std::function<void(CopyKey&)>>{[](CopyKey& k) { k.original.bytes[31] = 1; },
                                                                         [](CopyKey& k) { k.build = "another"; },
                                                                         [](CopyKey& k) {
                                                                             k.mark = survey::Mark{0.5, 0.5, 0.1};
                                                                         }}) {
        CopyKey other = key(64);
        change(other);
        CHECK_FALSE(next.find(other));
    }
    CHECK(next.find_facts("this", Digest{{7}}) == "what is known");
    CHECK_FALSE(next.find_facts("that", Digest{{7}}));
    CHECK_FALSE(next.find_facts("this", Digest{{8}}));
    struct stat found {};
    REQUIRE(stat(place.folder().c_str(), &found) == 0);
    CHECK((found.st_mode & 0777) == 0700);
    for (const fs::path& entry : place.entries()) {
        REQUIRE(stat(entry.c_str(), &found) == 0);
        CHECK((found.st_mode & 0777) == 0600);
    }
}

TEST_CASE("an entry cut short, with any byte changed, or of another key is as if it were not there") {
    const Place place;
    DiskStore store(place.folder(), ample);
    store.keep(key(64), picture(64));
    const fs::path file = place.entries().at(0);
    const std::string whole = content_of(file);
    for (std::size_t size = 0; size < whole.size(); ++size) {
        write(file, std::string_view(whole).substr(0, size));
        CHECK_FALSE(store.find(key(64)));
    }
    for (std::size_t i = 0; i < whole.size(); ++i) {
        std::string changed = whole;
        changed[i] = static_cast<char>(changed[i] ^ 1);
        write(file, changed);
        CHECK_FALSE(store.find(key(64)));
    }
    write(file, whole + "x");
    CHECK_FALSE(store.find(key(64)));
    write(file, whole);
    CHECK(is(store.find(key(64)), picture(64)));

    store.keep(key(32), picture(32));
    for (const fs::path& other : place.entries())
        if (other != file) write(other, whole);
    CHECK_FALSE(store.find(key(32)));
    store.keep(key(32), picture(32));  // made anew
    CHECK(is(store.find(key(32)), picture(32)));
}

TEST_CASE("a store that others could write to, a link, or something else in its place is not used") {
    const Place place;
    { DiskStore(place.folder(), ample).keep(key(64), picture(64)); }
    for (const auto shared : {fs::perms::others_write, fs::perms::group_write}) {
        fs::permissions(place.folder(), shared, fs::perm_options::add);
        CHECK_FALSE(DiskStore(place.folder(), ample).find(key(64)));
        fs::permissions(place.folder(), shared, fs::perm_options::remove);
    }
    CHECK(DiskStore(place.folder(), ample).find(key(64)));
    const fs::path file = place.entries().at(0);
    fs::permissions(file, fs::perms::others_write, fs::perm_options::add);
    CHECK_FALSE(DiskStore(place.folder(), ample).find(key(64)));
    fs::permissions(file, fs::perms::others_write, fs::perm_options::remove);
    fs::rename(file, place.root / "elsewhere");
    fs::create_symlink(place.root / "elsewhere", file);
    CHECK_FALSE(DiskStore(place.folder(), ample).find(key(64)));
    fs::remove(file);
    fs::create_directory(file);
    CHECK_FALSE(DiskStore(place.folder(), ample).find(key(64)));
    REQUIRE(mkfifo((place.root / "pipe").c_str(), 0600) == 0);
    fs::remove(file);
    fs::rename(place.root / "pipe", file);
    CHECK_FALSE(DiskStore(place.folder(), ample).find(key(64)));

    fs::create_directory_symlink(place.folder(), place.root / "link");
    DiskStore link(place.root / "link", ample);
    link.keep(key(65), picture(64));
    CHECK_FALSE(link.find(key(65)));
    write(place.root / "file", "no folder");
    DiskStore none(place.root / "file", ample);
    none.keep(key(65), picture(64));
    CHECK_FALSE(none.find(key(65)));
}

TEST_CASE("where nothing can be written, nothing is kept, and nothing is left behind") {
    const Place place;
    { DiskStore(place.folder(), ample).keep(key(64), picture(64)); }
    if (geteuid() == 0) {  // for whom every folder can be written to: one that is gone will do
        DiskStore store(place.folder(), ample);
        fs::rename(place.folder(), place.root / "gone");
        fs::remove_all(place.root / "gone");
        store.keep(key(65), picture(64));
        CHECK_FALSE(store.find(key(65)));
        return;
    }
    fs::permissions(place.folder(), fs::perms::owner_write, fs::perm_options::remove);
    DiskStore store(place.folder(), ample);
    store.keep(key(65), picture(64));
    CHECK_FALSE(store.find(key(65)));
    CHECK(is(store.find(key(64)), picture(64)));
    CHECK(place.entries().size() == 1);
    fs::permissions(place.folder(), fs::perms::owner_all);
}

TEST_CASE("a store is bounded: what was not used longest goes first, and what was left half written") {
    const Place place;
    const std::string facts(1000, 'x');
    const auto digest = [](unsigned char i) { return Digest{{i}}; };
    const auto age = [](const fs::path& file, std::time_t seconds) {
        const utimbuf times{std::time(nullptr) - seconds, std::time(nullptr) - seconds};
        REQUIRE(utime(file.c_str(), &times) == 0);
    };
    std::set<fs::path> before;
    for (unsigned char i = 0; i < 20; ++i) {
        DiskStore(place.folder(), ample).keep_facts("f", digest(i), facts);
        for (const fs::path& file : place.entries())
            if (before.insert(file).second) age(file, 3600 * (100 - i));  // the first ones are the oldest
    }
    CHECK(DiskStore(place.folder(), ample).find_facts("f", digest(0)));  // used: it is young again
    write(place.folder() / ".new-1-1", "half");
    age(place.folder() / ".new-1-1", 7200);
    write(place.folder() / ".new-1-2", "of another run, just now");
    { DiskStore(place.folder(), 12 * 1080).keep_facts("f", digest(99), facts); }
    DiskStore store(place.folder(), ample);
    CHECK(store.find_facts("f", digest(0)));
    CHECK(store.find_facts("f", digest(99)));
    for (unsigned char i = 1; i < 10; ++i) CHECK_FALSE(store.find_facts("f", digest(i)));
    for (unsigned char i = 15; i < 20; ++i) CHECK(store.find_facts("f", digest(i)));
    CHECK_FALSE(fs::exists(place.folder() / ".new-1-1"));
    CHECK(fs::exists(place.folder() / ".new-1-2"));
    for (const fs::path& file : place.entries()) age(file, 200 * 24 * 3600);
    { DiskStore(place.folder(), ample).keep_facts("f", digest(100), facts); }
    CHECK(place.entries().size() == 1);
}

TEST_CASE("several threads and several stores use one folder at once") {
    const Place place;
    DiskStore one(place.folder(), ample), other(place.folder(), ample);
    const auto work = [&](DiskStore& store) {
        for (int i = 0; i < 60; ++i) {
            store.keep(key(64), picture(64));
            CHECK(is(store.find(key(64)), picture(64)));
        }
    };
    { const std::jthread a(work, std::ref(one)), b(work, std::ref(one)), c(work, std::ref(other)); }
    CHECK(place.entries().size() == 1);
}

TEST_CASE("the store is where XDG_CACHE_HOME says, else beneath HOME, never at a relative place") {
    const auto with = [](const char* cache, const char* home) {
        const char* old_cache = std::getenv("XDG_CACHE_HOME");
        const char* old_home = std::getenv("HOME");
        const std::string cache_before = old_cache != nullptr ? old_cache : "",
                          home_before = old_home != nullptr ? old_home : "";
        setenv("XDG_CACHE_HOME", cache, 1);
        setenv("HOME", home, 1);
        const auto folder = store_folder();
        if (old_cache != nullptr) setenv("XDG_CACHE_HOME", cache_before.c_str(), 1);
        else unsetenv("XDG_CACHE_HOME");
        if (old_home != nullptr) setenv("HOME", home_before.c_str(), 1);
        else unsetenv("HOME");
        return folder;
    };
    CHECK(with("/a/b", "/home/c") == fs::path("/a/b/rigdeed"));
    CHECK(with("", "/home/c") == fs::path("/home/c/.cache/rigdeed"));
    CHECK(with("relative", "/home/c") == fs::path("/home/c/.cache/rigdeed"));
    CHECK_FALSE(with("relative", ""));
}
