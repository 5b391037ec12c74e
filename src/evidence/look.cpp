#include "evidence/look.hpp"

#include <bit>
#include <filesystem>
#include <mutex>

#include "base/archive.hpp"
#include "base/file.hpp"
#include "base/parallel.hpp"
#include "evidence/codes.hpp"
#include "evidence/examine.hpp"
#include "evidence/exif.hpp"
#include "evidence/find_files.hpp"
#include "evidence/heif.hpp"
#include "evidence/recall.hpp"
#include "evidence/scale.hpp"

namespace rigdeed::evidence {
namespace {

constexpr int looked_at = 1900;  // pixels along the longer side

std::string stem_of(const std::string& file) { return std::filesystem::path(file).stem().string(); }

void look_at(Looked& looked, const Raster& grey) {
    looked.codes = codes_in(grey);
    looked.sharpness = sharpness_of(grey);
}

constexpr std::string_view kind = "codes and sharpness";

template <class Archive>
void fields(Archive& archive, Looked& looked) {
    archive.list(looked.codes, [&](std::string& code) { archive.text(code); });
    auto bits = std::bit_cast<std::uint64_t>(looked.sharpness);
    archive.whole(bits, any_number);
    looked.sharpness = std::bit_cast<double>(bits);
}

bool recall(Looked& looked, CopyStore& store) {
    const auto seen = store.find_facts(kind, looked.photo.sha256);
    if (!seen) return false;
    ArchiveReader reader(*seen);
    Looked found{looked.photo, {}, 0};
    fields(reader, found);
    if (!reader.ended_well() || !(found.sharpness >= 0) || !recall_facts(found.photo, Examined::looked_at, store))
        return false;
    looked = std::move(found);
    return true;
}

void remember(const Looked& looked, CopyStore& store) {
    if (!looked.photo.usable()) return;
    Looked copy = looked;
    ArchiveWriter writer;
    fields(writer, copy);
    remember_facts(looked.photo, Examined::looked_at, store);
    store.keep_facts(kind, looked.photo.sha256, writer.bytes);
}

void take(const Folder& folder, Looked& looked, CopyStore& store) {
    const auto bytes = read_photo(folder, looked.photo);
    if (!bytes) return;
    identify(*bytes, looked.photo);
    if (recall(looked, store)) return;
    (void)examine(*bytes, looked.photo);
    if (!looked.photo.usable()) return;
    if (const auto grey = decode_grey(*bytes, looked_at)) look_at(looked, *grey);
    else looked.photo.refuse({Why::undecodable, 0, {}, {}});
    remember(looked, store);
}

// Those that are none for the decoder of JPEGs, in children; when no thread runs any more.
void take_heifs(const Folder& folder, std::vector<Looked>& all, unsigned jobs, CopyStore& store) {
    std::vector<Looked*> left;
    for (Looked& one : all)
        if (one.photo.trouble.why == Why::heic) left.push_back(&one);
    if (left.empty()) return;
    prepare_heif();
    for (std::size_t begin = 0; begin < left.size(); begin += jobs) {
        const std::size_t count = std::min<std::size_t>(jobs, left.size() - begin);
        std::vector<Bytes> bytes(count);
        std::vector<Raster> grey(count);
        std::vector<HeifJob> held;
        for (std::size_t i = 0; i < count; ++i) {
            Photo& photo = left[begin + i]->photo;
            if (auto read = read_photo(folder, photo)) bytes[i] = std::move(*read);
            if (!bytes[i].empty()) held.push_back({&bytes[i], {}, &photo, looked_at, &grey[i]});
        }
        take_heifs_apart(held);
        for (std::size_t i = 0; i < count; ++i)
            if (!grey[i].pixels.empty()) {
                look_at(*left[begin + i], grey[i]);
                remember(*left[begin + i], store);
            }
    }
}

}  // namespace

double sharpness_of(const Raster& grey) {
    const int left = grey.width / 5, right = grey.width - left, top = grey.height / 5, bottom = grey.height - top;
    double fine = 0, coarse = 0;
    for (int y = top; y < bottom; y += 2) {
        const unsigned char* row = grey.pixels.data() + static_cast<std::ptrdiff_t>(y) * grey.width;
        for (int x = left; x + 4 < right; ++x) {
            const int one = row[x + 1] - row[x], four = row[x + 4] - row[x];
            fine += one * one;
            coarse += four * four;
        }
    }
    return coarse > 0 ? fine / coarse : 0;
}

std::vector<Looked> look_through(const survey::Survey& survey, unsigned jobs, const Progress& progress,
                                 CopyStore* store) {
    NoCopies none;
    CopyStore& kept = store != nullptr ? *store : none;
    const Folder folder(std::filesystem::path(survey.file).parent_path() / survey.photos.folder);
    prepare_exif();
    const Evidence found = find_files(photo_names(survey), folder.files());
    std::vector<Looked> all;
    for (const Photo& photo : found.photos)
        if (!photo.file.empty()) all.push_back({photo, {}, 0});
    for (const std::string& file : found.unused) {
        Looked& one = all.emplace_back();
        one.photo.name = stem_of(file);
        one.photo.file = file;
    }
    std::mutex guard;
    std::size_t done = 0;
    in_parallel(all.size(), jobs, [&](std::size_t i) {
        take(folder, all[i], kept);
        const std::scoped_lock lock(guard);
        if (progress) progress(++done, all.size());
    });
    take_heifs(folder, all, std::max(jobs, 1U), kept);
    return all;
}

survey::Survey naming_all(const survey::Survey& survey, const std::vector<Looked>& looked) {
    survey::Survey all = survey;
    for (survey::Fitting& fitting : all.fittings) fitting.seen.clear();
    all.photos.others.clear();
    for (const Looked& one : looked) all.photos.others.push_back({0, one.photo.name, "any"});
    return all;
}

Evidence small_pictures(const survey::Survey& survey, const std::vector<Looked>& looked, int side,
                        const Gathering& how) {
    ForPrint small;
    for (const Looked& one : looked) small.exact[one.photo.name] = side;
    return gather_evidence(naming_all(survey, looked), small, how);
}

}  // namespace rigdeed::evidence
