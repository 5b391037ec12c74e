#include "evidence/disk_store.hpp"

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <ctime>
#include <functional>
#include <random>
#include <tuple>
#include <vector>

#include "base/archive.hpp"
#include "base/build.hpp"
#include "crypto/digest.hpp"
#include "evidence/photo_facts.hpp"

namespace rigdeed::evidence {
namespace {

constexpr std::string_view magic = "rigdeed's store\n";
constexpr std::size_t head_size = magic.size() + 2 * sizeof(Digest::bytes);
constexpr std::int64_t largest_entry = 32 << 20;
constexpr std::int64_t day = 24 * 3600, kept_for = 182 * day, left_over_after = 3600;
constexpr mode_t of_owner_alone = 0600, folder_of_owner_alone = 0700, writable_by_others = 022;

Digest digest_of(const CopyKey& key) {
    ArchiveWriter writer;
    std::string build = key.build, kind = "copy";
    Digest original = key.original;
    int side = key.side;
    writer.text(kind);
    writer.text(build);
    digest_field(writer, original);
    writer.whole(side, any_number);
    std::optional<survey::Mark> mark = key.mark;
    writer.maybe(mark, [&](survey::Mark& at) { mark_field(writer, at); });
    return crypto::sha256(writer.bytes);
}

Digest digest_of(std::string_view kind, const Digest& original) {
    return crypto::sha256("facts of " + std::string(kind) + "\n" + std::string(build_digest()) + "\n" + original.hex());
}

std::string_view text_of(const Digest& digest) {
    return {reinterpret_cast<const char*>(digest.bytes.data()), digest.bytes.size()};
}

/// A file, closed at the end.
class Descriptor {
 public:
    explicit Descriptor(int number) : number_(number) {}
    ~Descriptor() {
        if (number_ >= 0) close(number_);
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    [[nodiscard]] int number() const { return number_; }
    [[nodiscard]] explicit operator bool() const { return number_ >= 0; }

 private:
    int number_;
};

bool read_all(int from, char* to, std::size_t size) {
    while (size > 0) {
        const ssize_t got = read(from, to, size);
        if (got <= 0) return false;
        to += got;
        size -= static_cast<std::size_t>(got);
    }
    return true;
}

bool write_all(int to, std::string_view text) {
    while (!text.empty()) {
        const ssize_t put = write(to, text.data(), text.size());
        if (put <= 0) return false;
        text.remove_prefix(static_cast<std::size_t>(put));
    }
    return true;
}

bool is_of_owner_alone(const struct stat& found) {
    return found.st_uid == geteuid() && (found.st_mode & writable_by_others) == 0;
}

std::int64_t now() { return std::time(nullptr); }

}  // namespace

DiskStore::DiskStore(const std::filesystem::path& folder, std::uint64_t most) : most_(most) {
    std::error_code failed;
    if (folder.has_parent_path()) std::filesystem::create_directories(folder.parent_path(), failed);
    (void)mkdir(folder.c_str(), folder_of_owner_alone);  // where it cannot be made, it cannot be opened either
    folder_ = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    struct stat found {};
    if (folder_ < 0 || (fstat(folder_, &found) == 0 && is_of_owner_alone(found))) return;
    close(folder_);
    folder_ = -1;
}

DiskStore::~DiskStore() {
    if (folder_ < 0) return;
    if (kept_) tidy();
    close(folder_);
}

std::optional<std::string> DiskStore::load(const Digest& key) const {
    if (folder_ < 0) return std::nullopt;
    const Descriptor file(openat(folder_, key.hex().c_str(), O_RDONLY | O_NOFOLLOW | O_CLOEXEC | O_NONBLOCK));
    struct stat found {};
    if (!file || fstat(file.number(), &found) != 0 || !S_ISREG(found.st_mode) || !is_of_owner_alone(found) ||
        found.st_size < static_cast<std::int64_t>(head_size) || found.st_size > largest_entry)
        return std::nullopt;
    std::string bytes(static_cast<std::size_t>(found.st_size), '\0');
    if (!read_all(file.number(), bytes.data(), bytes.size())) return std::nullopt;
    const std::string_view all = bytes, content = all.substr(head_size);
    if (all.substr(0, magic.size()) != magic || all.substr(magic.size(), key.bytes.size()) != text_of(key) ||
        all.substr(magic.size() + key.bytes.size(), key.bytes.size()) != text_of(crypto::sha256(content)))
        return std::nullopt;
    if (now() - found.st_mtime > day) (void)futimens(file.number(), nullptr);  // used: it stays longer
    return std::string(content);
}

void DiskStore::save(const Digest& key, std::string_view content) {
    if (folder_ < 0 || full_ || content.size() + head_size > static_cast<std::size_t>(largest_entry)) return;
    // Its own name among runs, containers and stores that share the folder.
    std::random_device random;
    const std::string name = ".new-" + std::to_string(getpid()) + "-" + std::to_string(random()) +
                             std::to_string(random()) + "-" + std::to_string(++written_);
    const Descriptor file(
        openat(folder_, name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, of_owner_alone));
    const Digest digest = crypto::sha256(content);
    if (!file) {
        full_ = true;
        return;
    }
    const bool written = write_all(file.number(), magic) && write_all(file.number(), text_of(key)) &&
                         write_all(file.number(), text_of(digest)) && write_all(file.number(), content);
    if (written && renameat(folder_, name.c_str(), folder_, key.hex().c_str()) == 0) {
        kept_ = true;
        return;
    }
    (void)unlinkat(folder_, name.c_str(), 0);
    full_ = true;
}

void DiskStore::tidy() const {
    const Descriptor again(openat(folder_, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    const std::unique_ptr<DIR, int (*)(DIR*)> all(again ? fdopendir(dup(again.number())) : nullptr, closedir);
    if (!all) return;
    struct Entry {
        std::int64_t used;
        std::string name;
        std::uint64_t size;
    };
    std::vector<Entry> entries;
    std::uint64_t size = 0;
    const auto remove = [&](const std::string& name) { (void)unlinkat(folder_, name.c_str(), 0); };
    while (const dirent* one = readdir(all.get())) {
        const std::string name = one->d_name;
        struct stat found {};
        if (fstatat(folder_, name.c_str(), &found, AT_SYMLINK_NOFOLLOW) != 0 || !S_ISREG(found.st_mode)) continue;
        const std::int64_t age = now() - found.st_mtime;
        if (age > (name.starts_with(".new-") ? left_over_after : kept_for)) {
            remove(name);
            continue;
        }
        entries.push_back({found.st_mtime, name, static_cast<std::uint64_t>(found.st_size)});
        size += entries.back().size;
    }
    if (size <= most_) return;
    std::sort(entries.begin(), entries.end(),
              [](const Entry& a, const Entry& b) { return std::tie(a.used, a.name) < std::tie(b.used, b.name); });
    for (const Entry& entry : entries) {
        if (size <= most_ / 5 * 4) break;  // some room, so that not every run has to tidy
        remove(entry.name);
        size -= entry.size;
    }
}

std::optional<Copy> DiskStore::find(const CopyKey& key) {
    const auto bytes = load(digest_of(key));
    if (!bytes) return std::nullopt;
    ArchiveReader reader(*bytes);
    Copy copy;
    copy_field(reader, copy.picture);
    reader.maybe(copy.shown, [&](survey::Mark& mark) { mark_field(reader, mark); });
    if (!reader.ended_well() || !is_sound_copy(copy.picture)) return std::nullopt;
    return copy;
}

void DiskStore::keep(const CopyKey& key, const Copy& copy) {
    if (!copy.picture.jpeg) return;
    Copy written = copy;
    ArchiveWriter writer;
    copy_field(writer, written.picture);
    writer.maybe(written.shown, [&](survey::Mark& mark) { mark_field(writer, mark); });
    save(digest_of(key), writer.bytes);
}

std::optional<std::string> DiskStore::find_facts(std::string_view kind, const Digest& original) {
    return load(digest_of(kind, original));
}

void DiskStore::keep_facts(std::string_view kind, const Digest& original, std::string_view facts) {
    save(digest_of(kind, original), facts);
}

std::optional<std::filesystem::path> store_folder() {
    for (const auto& [variable, beneath] :
         std::array<std::pair<const char*, const char*>, 2>{{{"XDG_CACHE_HOME", ""}, {"HOME", ".cache"}}})
        if (const char* value = std::getenv(variable); value != nullptr && *value == '/')
            return std::filesystem::path(value) / beneath / "rigdeed";
    return std::nullopt;
}

}  // namespace rigdeed::evidence
