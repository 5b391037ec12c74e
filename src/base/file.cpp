#include "base/file.hpp"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <cstring>
#include <future>
#include <optional>
#include <system_error>

#include "base/error.hpp"
#include "base/folders.hpp"
#include "base/text.hpp"

namespace rigdeed {
namespace {

std::string reason() { return std::strerror(errno); }

/// A descriptor that closes itself.
class Descriptor {
 public:
    explicit Descriptor(int number) : number_(number) {}
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    [[nodiscard]] int get() const { return number_; }
    [[nodiscard]] bool valid() const { return number_ >= 0; }
    int release() { return std::exchange(number_, -1); }

 private:
    int number_;
};

enum class Amount { all, too_large, failed };

/// Room for so many bytes. What is large lies in large pages, where the system has them: thousands of small ones take
/// longer to come by than a file takes to be read. Whether it has makes no other difference.
void make_room(Bytes& bytes, std::size_t size) {
    constexpr std::size_t large = std::size_t{4} << 20, page = std::size_t{2} << 20;
    bytes.reserve(size);
    const auto begin = reinterpret_cast<std::uintptr_t>(bytes.data());
    const std::uintptr_t first = (begin + page - 1) / page * page, last = (begin + size) / page * page;
    if (size >= large) (void)::madvise(bytes.data() + (first - begin), last - first, MADV_HUGEPAGE);
}

/// Hands on what was read, a piece at a time, each while the next is read.
class Meanwhile {
 public:
    Meanwhile(const Bytes& bytes, const std::function<void(std::string_view)>& work) : bytes_(bytes), work_(work) {}

    /// So many bytes are there by now.
    void go_on(std::size_t filled_up_to) {
        if (work_ && filled_up_to - handed_on_ >= piece) hand_on(filled_up_to);
    }
    void finish(std::size_t filled_up_to) {
        if (work_ && filled_up_to > handed_on_) hand_on(filled_up_to);
        wait();
    }
    /// Until nobody looks at the bytes.
    void wait() {
        if (running_.valid()) running_.get();
    }

 private:
    static constexpr std::size_t piece = std::size_t{4} << 20;

    void hand_on(std::size_t filled_up_to) {
        wait();
        const std::string_view next = as_text(bytes_).substr(handed_on_, filled_up_to - handed_on_);
        handed_on_ = filled_up_to;
        try {
            running_ = std::async(std::launch::async, [this, next] { work_(next); });
        } catch (const std::system_error&) { work_(next); }  // no thread to be had
    }

    const Bytes& bytes_;
    const std::function<void(std::string_view)>& work_;
    std::size_t handed_on_ = 0;
    std::future<void> running_;
};

/// Reads to the end, at most `limit` bytes; `expected` is only a first guess of the size.
Amount read_all(int descriptor, std::uint64_t expected, std::uint64_t limit, Bytes& bytes,
                const std::function<void(std::string_view)>& work = {}) {
    constexpr std::size_t at_once = std::size_t{2} << 20;
    Meanwhile meanwhile(bytes, work);
    make_room(bytes, static_cast<std::size_t>(std::min(expected, limit)) + 1);
    std::size_t filled_up_to = 0;
    for (;;) {
        if (filled_up_to == bytes.capacity()) {
            meanwhile.wait();
            bytes.reserve(bytes.size() + std::max<std::size_t>(bytes.size() / 2, 65536));
        }
        if (filled_up_to == bytes.size()) bytes.resize(std::min(bytes.capacity(), bytes.size() + at_once));
        const ssize_t count = ::read(descriptor, bytes.data() + filled_up_to, bytes.size() - filled_up_to);
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) return Amount::failed;
        if (count == 0) break;
        filled_up_to += static_cast<std::size_t>(count);
        if (filled_up_to > limit) return Amount::too_large;
        meanwhile.go_on(filled_up_to);
    }
    meanwhile.finish(filled_up_to);
    bytes.resize(filled_up_to);
    return Amount::all;
}

Error too_large(const std::filesystem::path& path, std::uint64_t limit) {
    return Error("file is larger than " + std::to_string(limit / (1024 * 1024)) + " MiB", path.string());
}

void write_all(int descriptor, std::string_view content, const std::filesystem::path& path) {
    while (!content.empty()) {
        const ssize_t count = ::write(descriptor, content.data(), content.size());
        if (count < 0 && errno == EINTR) continue;
        if (count <= 0) throw Error("cannot write: " + reason(), path.string());
        content.remove_prefix(static_cast<std::size_t>(count));
    }
}

}  // namespace

Bytes read_file(const std::filesystem::path& path, std::uint64_t limit) { return read_file(path, limit, {}); }

Bytes read_file(const std::filesystem::path& path, std::uint64_t limit,
                const std::function<void(std::string_view)>& meanwhile) {
    Bytes bytes;
    if (path == "-") {
        const Amount amount = read_all(STDIN_FILENO, 65536, limit, bytes, meanwhile);
        if (amount == Amount::too_large) throw too_large("standard input", limit);
        if (amount == Amount::failed) throw Error("cannot read: " + reason(), "standard input");
        return bytes;
    }
    const Descriptor descriptor(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
    if (!descriptor.valid()) throw Error("cannot open: " + reason(), path.string());
    struct stat status {};
    if (::fstat(descriptor.get(), &status) != 0) throw Error("cannot read: " + reason(), path.string());
    if (!S_ISREG(status.st_mode)) throw Error("is not a regular file", path.string());
    switch (read_all(descriptor.get(), static_cast<std::uint64_t>(status.st_size), limit, bytes, meanwhile)) {
        case Amount::too_large: throw too_large(path, limit);
        case Amount::failed: throw Error("cannot read: " + reason(), path.string());
        case Amount::all: break;
    }
    return bytes;
}

void write_file(const std::filesystem::path& path, std::string_view content, Readers readers) {
    struct stat status {};
    const bool replaces = ::stat(path.c_str(), &status) == 0;
    if (replaces && !S_ISREG(status.st_mode))
        throw Error(S_ISDIR(status.st_mode) ? "is a folder, not a file" : "is not a regular file", path.string());

    static std::atomic<unsigned> serial{0};
    const auto folder = path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
    const auto neighbour = folder / ("." + path.filename().string() + "." + std::to_string(::getpid()) + "-" +
                                     std::to_string(serial++) + ".part");
    Descriptor descriptor(::open(neighbour.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW,
                                 readers == Readers::owner ? 0600 : 0644));
    if (!descriptor.valid()) throw Error("cannot write: " + reason(), path.string());
    try {
        if (replaces && readers == Readers::anyone && ::fchmod(descriptor.get(), status.st_mode & 0777) != 0)
            throw Error("cannot write: " + reason(), path.string());
        write_all(descriptor.get(), content, path);
        if (::fsync(descriptor.get()) != 0) throw Error("cannot write: " + reason(), path.string());
        if (::close(descriptor.release()) != 0) throw Error("cannot write: " + reason(), path.string());
        if (::rename(neighbour.c_str(), path.c_str()) != 0) throw Error("cannot write: " + reason(), path.string());
    } catch (...) {
        ::unlink(neighbour.c_str());
        throw;
    }
    sync_folder(folder);
}

Folder::Folder(const std::filesystem::path& path)
    : path_(path), descriptor_(::open(path.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)) {
    if (descriptor_ < 0)
        throw Error("cannot open the folder: " + reason(), path.string(), "is the name right, and the folder there?");
}

Folder::~Folder() { ::close(descriptor_); }

namespace {
Folder::Reading unreadable() {
    const int error = errno;
    return {Folder::Outcome::unreadable, {}, reason(), error};
}
}  // namespace

Folder::Reading Folder::read(std::string_view relative, std::uint64_t limit) const {
    const auto parts = split(relative, '/');
    std::optional<Descriptor> folder;
    int at = descriptor_;
    for (std::size_t i = 0; i + 1 < parts.size(); ++i) {
        const int next = ::openat(at, parts[i].c_str(), O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
        if (next < 0) {
            if (errno == ENOENT) return {Outcome::missing, {}, {}, 0};
            if (errno == ELOOP || errno == ENOTDIR) return {Outcome::leads_outside, {}, {}, 0};
            return unreadable();
        }
        folder.emplace(next);
        at = next;
    }
    const Descriptor file(::openat(at, parts.back().c_str(), O_RDONLY | O_NOFOLLOW | O_CLOEXEC | O_NONBLOCK));
    if (!file.valid()) {
        if (errno == ENOENT) return {Outcome::missing, {}, {}, 0};
        if (errno == ELOOP) return {Outcome::leads_outside, {}, {}, 0};
        return unreadable();
    }
    struct stat status {};
    if (::fstat(file.get(), &status) != 0) return unreadable();
    if (!S_ISREG(status.st_mode)) return {Outcome::not_a_regular_file, {}, {}, 0};
    Reading reading;
    switch (read_all(file.get(), static_cast<std::uint64_t>(status.st_size), limit, reading.bytes)) {
        case Amount::too_large: return {Outcome::too_large, {}, {}, 0};
        case Amount::failed: return unreadable();
        case Amount::all: break;
    }
    reading.outcome = Outcome::read;
    return reading;
}

std::vector<std::string> Folder::files() const {
    std::vector<std::string> found;
    std::error_code failed;
    std::filesystem::recursive_directory_iterator entry(path_, failed);
    for (const std::filesystem::recursive_directory_iterator end; !failed && entry != end; entry.increment(failed)) {
        const bool hidden = entry->path().filename().string().starts_with('.');
        std::error_code looping;  // a link that leads nowhere is a file like any other, and refused where it is read
        const bool is_folder = entry->is_directory(looping);
        if (hidden && is_folder) entry.disable_recursion_pending();
        if (!hidden && !is_folder) found.push_back(entry->path().lexically_relative(path_).generic_string());
    }
    if (failed) throw Error("cannot list the folder: " + failed.message(), path_.string());
    std::sort(found.begin(), found.end());
    return found;
}

}  // namespace rigdeed
