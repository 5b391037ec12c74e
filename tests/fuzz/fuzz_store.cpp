// What is kept of photos between two runs, and what comes back from the children that take files apart: any bytes are
// exactly what was written, or as if nothing were there. The first byte chooses whose bytes the others are.
#include <unistd.h>

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string>

#include "base/file.hpp"
#include "crypto/digest.hpp"
#include "evidence/disk_store.hpp"
#include "evidence/jpeg_structure.hpp"
#include "evidence/look.hpp"
#include "evidence/photo_facts.hpp"
#include "evidence/recall.hpp"
#include "reopen/facts.hpp"

using namespace rigdeed;
namespace fs = std::filesystem;

namespace {

void require(bool truth) {
    if (!truth) __builtin_trap();
}

// A store in a folder of its own, and a photo that only the store can make usable.
class Bench {
 public:
    Bench() {
        fs::create_directories(folder_ / "photos");
        write_file(folder_ / "photos/one.jpg", as_text(photo_));
        survey.file = (folder_ / "survey.xml").string();
        survey.photos.folder = "photos";
        survey::Fitting& fitting = survey.fittings.emplace_back();
        fitting.seen.emplace_back().close = "one";
        evidence::Photo whole;
        whole.width = whole.height = 8;
        whole.pixels = photo;
        whole.facts.camera = "a camera";
        whole.refuse({});
        for (const auto how : {evidence::Examined::decoded, evidence::Examined::looked_at}) {
            whole.sha256 = photo;
            evidence::remember_facts(whole, how, store);
        }
        evidence::Copy none;
        none.picture.jpeg = std::make_shared<const Bytes>(photo_);
        store.keep(key, none);  // no sound one: only its place is wanted
        for (const auto& entry : fs::directory_iterator(folder_ / "store"))
            if (fs::file_size(entry.path()) == head + 16 + 8 + photo_.size() + 8) place = entry.path();
        require(!place.empty());
        std::ifstream file(place, std::ios::binary);
        const std::string all{std::istreambuf_iterator<char>(file), {}};
        named = all.substr(0, head - 32);
    }
    ~Bench() { fs::remove_all(folder_); }
    Bench(const Bench&) = delete;
    Bench& operator=(const Bench&) = delete;

    // An entry's file for `key`, as somebody left it.
    void put(std::string_view file) const {
        std::ofstream(place, std::ios::binary | std::ios::trunc).write(file.data(), std::ssize(file));
    }

 private:
    static constexpr std::size_t head = 16 + 32 + 32;
    const Bytes photo_{'n', 'o', ' ', 'p', 'h', 'o', 't', 'o', '\n'};
    fs::path folder_ = fs::temp_directory_path() / ("rigdeed-fuzz-store-" + std::to_string(getpid()));

 public:
    const Digest photo = crypto::sha256(as_text(photo_));
    const evidence::CopyKey key{photo, 96, std::nullopt, "a build"};
    evidence::DiskStore store{folder_ / "store", 1ULL << 40};
    survey::Survey survey;
    fs::path place;
    std::string named;  ///< the start of the entry of `key`
};

void copy_of(Bench& bench, const std::string& file) {
    bench.put(file);
    const auto copy = bench.store.find(bench.key);
    if (!copy) return;
    require(evidence::is_sound_copy(copy->picture));
    if (!copy->picture.jpeg) return;
    bench.store.keep(bench.key, *copy);
    std::ifstream again(bench.place, std::ios::binary);
    require(std::string{std::istreambuf_iterator<char>(again), {}} == file);
}

void photo_facts(std::string_view bytes) {
    evidence::Photo photo;
    if (evidence::read_facts(bytes, photo)) require(evidence::write_facts(photo) == bytes);
}

void report_facts(std::string_view bytes) {
    reopen::SealedReport report;
    if (reopen::read_facts(bytes, report)) require(reopen::write_facts(report) == bytes);
}

void seen_of(Bench& bench, std::string_view bytes) {
    bench.store.keep_facts("codes and sharpness", bench.photo, bytes);
    for (const evidence::Looked& looked : evidence::look_through(bench.survey, 1, {}, &bench.store))
        require(looked.sharpness >= 0);
}

void edge_of(Bench& bench, std::string_view bytes) {
    bench.store.keep_facts("finest edge", bench.photo, bytes);
    const auto evidence = evidence::gather_evidence(bench.survey, {}, {1, {}, &bench.store, nullptr, true});
    const evidence::Photo* photo = evidence.find("one");
    require(photo != nullptr && photo->usable() && photo->facts.camera == "a camera");
    require(!photo->finest_edge || *photo->finest_edge >= 0);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    static Bench bench;
    if (size == 0) return 0;
    const std::string rest(reinterpret_cast<const char*>(bytes) + 1, size - 1);
    switch (bytes[0]) {
        case 'f': copy_of(bench, rest); break;
        case 'c': {
            const Digest digest = crypto::sha256(rest);
            copy_of(bench, bench.named + std::string(digest.bytes.begin(), digest.bytes.end()) + rest);
            break;
        }
        case 'p': photo_facts(rest); break;
        case 'r': report_facts(rest); break;
        case 's': seen_of(bench, rest); break;
        case 'e': edge_of(bench, rest); break;
        default: break;
    }
    return 0;
}
