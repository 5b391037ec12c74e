#include <algorithm>
#include <atomic>
#include <cmath>
#include <filesystem>
#include <mutex>
#include <set>
#include <system_error>
#include <thread>

#include "base/error.hpp"
#include "base/file.hpp"
#include "base/text.hpp"
#include "crypto/digest.hpp"
#include "evidence/evidence.hpp"
#include "evidence/exif.hpp"
#include "evidence/find_files.hpp"
#include "evidence/jpeg_structure.hpp"
#include "evidence/scale.hpp"

namespace rigdeed::evidence {
namespace {

constexpr std::uint64_t largest_photo = 64 * 1024 * 1024;

void refuse(Photo& photo, State state, std::string reason) {
    photo.state = state;
    photo.reason = std::move(reason);
}

/// Reads the file into memory once; that buffer is hashed, checked and decoded.
std::optional<Bytes> read_photo(const Folder& folder, Photo& photo) {
    Folder::Reading reading = folder.read(photo.file, largest_photo);
    switch (reading.outcome) {
        case Folder::Outcome::read: return std::move(reading.bytes);
        case Folder::Outcome::missing: refuse(photo, State::missing, "not in the photo folder"); break;
        case Folder::Outcome::leads_outside:
            refuse(photo, State::leads_outside, "a link that may lead out of the photo folder");
            break;
        case Folder::Outcome::not_a_regular_file: refuse(photo, State::not_a_photo, "not a regular file"); break;
        case Folder::Outcome::too_large: refuse(photo, State::not_a_photo, "larger than 64 MiB"); break;
        case Folder::Outcome::unreadable: refuse(photo, State::unreadable, reading.reason); break;
    }
    return std::nullopt;
}

void examine(const Folder& folder, Photo& photo, int long_side, const survey::Mark* mark) {
    const auto bytes = read_photo(folder, photo);
    if (!bytes) return;
    photo.size = bytes->size();
    photo.sha256 = crypto::sha256(*bytes);
    const JpegStructure structure = read_structure(*bytes);
    if (!structure.refusal.empty()) {
        const bool damaged = structure.refusal.starts_with("damaged") || structure.refusal.starts_with("cut short");
        return refuse(photo, damaged ? State::unreadable : State::not_a_photo, structure.refusal);
    }
    if (!structure.exif.empty()) photo.facts = read_exif(structure.exif);
    const int orientation = photo.facts.orientation.value_or(1);
    photo.width = orientation >= 5 ? structure.height : structure.width;
    photo.height = orientation >= 5 ? structure.width : structure.height;
    Scaled scaled = scale_for_print(*bytes, orientation, long_side, structure.profile);
    if (!scaled.refusal.empty()) return refuse(photo, State::unreadable, scaled.refusal);
    photo.print = std::move(scaled.copy);
    if (mark != nullptr) {
        const Cut cut = cut_for_print(*bytes, orientation, *mark, structure.profile);
        if (!cut.refusal.empty()) return refuse(photo, State::unreadable, cut.refusal);
        photo.detail = cut.copy;
        photo.detail_of = cut.shown;
    }
    photo.state = State::usable;
}

/// Runs `work(i)` for every i below `count`, on `jobs` threads or as many as there can be. The first exception is
/// thrown again here.
template <class Work>
void in_parallel(std::size_t count, unsigned jobs, const Work& work) {
    std::atomic<std::size_t> next{0};
    std::mutex guard;
    std::exception_ptr failure;
    const auto run = [&] {
        try {
            for (std::size_t i = next++; i < count; i = next++) work(i);
        } catch (...) {
            const std::scoped_lock lock(guard);
            if (!failure) failure = std::current_exception();
            next = count;
        }
    };
    std::vector<std::jthread> threads;
    const std::size_t helpers = std::min<std::size_t>(std::max(jobs, 1U), std::max<std::size_t>(count, 1)) - 1;
    try {
        for (std::size_t i = 0; i < helpers; ++i) threads.emplace_back(run);
    } catch (const std::system_error&) {}  // no more threads to be had here: those there are do it
    run();
    threads.clear();
    if (failure) std::rethrow_exception(failure);
}

}  // namespace

Evidence gather_evidence(const survey::Survey& survey, const ForPrint& print, unsigned jobs, const Progress& progress) {
    const std::filesystem::path path = std::filesystem::path(survey.file).parent_path() / survey.photos.folder;
    const Folder folder(path);
    prepare_exif();
    Evidence evidence = find_files(photo_names(survey), folder.files());
    std::mutex guard;
    std::size_t done = 0;
    in_parallel(evidence.photos.size(), jobs, [&](std::size_t i) {
        Photo& photo = evidence.photos[i];
        const auto size = print.sizes.find(photo.name);
        const auto detail = print.details.find(photo.name);
        if (!photo.file.empty())
            examine(folder, photo, size == print.sizes.end() ? 0 : size->second,
                    detail == print.details.end() ? nullptr : &detail->second);
        if (progress) {
            const std::scoped_lock lock(guard);
            progress(++done, evidence.photos.size());
        }
    });
    return evidence;
}

std::string_view name_of(State state) {
    for (const StateName& one : state_names)
        if (one.state == state) return one.name;
    return {};
}

std::optional<Millimetres> Photo::scale() const {
    const int long_side = std::max(width, height);
    if (!facts.distance || !facts.focal_35mm || long_side == 0) return std::nullopt;
    return *facts.distance * (36.0 / (*facts.focal_35mm * long_side));
}

std::optional<LocalTime> Photo::true_time(int camera_clock) const {
    if (!facts.taken) return std::nullopt;
    return local_from_seconds(seconds_since_epoch(*facts.taken) + camera_clock);
}

void Evidence::add(Photo photo) {
    places_.emplace(photo.name, photos.size());
    photos.push_back(std::move(photo));
}

const Photo* Evidence::find(std::string_view name) const {
    const auto place = places_.find(name);
    return place == places_.end() ? nullptr : &photos[place->second];
}

std::vector<std::string> photo_names(const survey::Survey& survey) {
    std::vector<std::string> names;
    std::set<std::string_view> known;
    const auto add = [&](const std::string& name) {
        if (!name.empty() && known.insert(name).second) names.push_back(name);
    };
    for (const survey::OtherPhoto& other : survey.photos.others) add(other.name);
    for (const survey::Fitting& fitting : survey.fittings)
        for (const survey::Seen& seen : fitting.seen) {
            add(seen.far);
            add(seen.close);
        }
    return names;
}

}  // namespace rigdeed::evidence
