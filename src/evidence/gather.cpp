#include <algorithm>
#include <bit>
#include <filesystem>
#include <mutex>
#include <set>

#include "base/archive.hpp"
#include "base/error.hpp"
#include "base/file.hpp"
#include "base/parallel.hpp"
#include "base/text.hpp"
#include "evidence/copies.hpp"
#include "evidence/evidence.hpp"
#include "evidence/examine.hpp"
#include "evidence/exif.hpp"
#include "evidence/find_files.hpp"
#include "evidence/heif.hpp"
#include "evidence/pixel_budget.hpp"
#include "evidence/print.hpp"
#include "evidence/recall.hpp"
#include "evidence/scale.hpp"
#include "evidence/sharpness.hpp"
#include "survey/photo_lines.hpp"

namespace rigdeed::evidence {
namespace {

Wanted wanted_of(const Photo& photo, const ForPrint& print) {
    const auto size = print.sizes.find(photo.name);
    const auto detail = print.details.find(photo.name);
    const auto exact = print.exact.find(photo.name);
    const bool is_exact = exact != print.exact.end();
    return {is_exact                    ? exact->second
            : size == print.sizes.end() ? 0
                                        : size->second,
            detail == print.details.end() ? nullptr : &detail->second, print.detail_size, is_exact,
            print.giving_way.contains(photo.name)};
}

bool is_heic(const Photo& photo) { return photo.trouble.why == Why::heic; }

[[noreturn]] void throw_changed(const Photo& photo) {
    throw Error("the photos changed while the report was made", photo.file, "issue it again");
}

/// What an earlier run found out about the same file, if it made all that is wanted now.
bool recall(Photo& photo, const Wanted& wanted, CopyStore& store) {
    Photo found = photo;
    if (!recall_facts(found, Examined::decoded, store) || !print_from_store(found, wanted, store)) return false;
    photo = std::move(found);
    return true;
}

/// Photos of which sharpness is measured: where, or in the middle.
using Measuring = std::map<std::string, std::optional<survey::Mark>, std::less<>>;

Measuring close_photos(const survey::Survey& survey) {
    Measuring close;
    for (const survey::Fitting& fitting : survey.fittings)
        for (const survey::Seen& seen : fitting.seen) {
            if (seen.close.empty()) continue;
            std::optional<survey::Mark> mark;
            for (const survey::Sign& sign : seen.signs)
                if (!mark) mark = sign.mark;
            close.emplace(seen.close, mark);
        }
    return close;
}

constexpr double largest_edge = 1e12;  // as in photo_facts.cpp

/// At its mark, or in the middle.
void measure_sharpness(const Bytes& bytes, const std::optional<survey::Mark>& at, Photo& photo, CopyStore& store) {
    if (!photo.usable()) return;
    std::string kind = "finest edge";
    if (at) kind += " at " + std::to_string(at->x) + " " + std::to_string(at->y) + " " + std::to_string(at->radius);
    const std::string facts = store.find_facts(kind, photo.sha256).value_or(std::string());
    ArchiveReader known(facts);
    known.maybe(photo.finest_edge, [&](double& edge) {
        edge = std::bit_cast<double>(known.number(any_number));
        if (!(edge >= 0 && edge <= largest_edge)) known.failed = true;
    });
    if (known.ended_well()) return;
    photo.finest_edge.reset();
    const PixelBudget::Share share =
        pixel_budget().take(static_cast<std::size_t>(photo.width) * static_cast<std::size_t>(photo.height));
    if (const auto grey = decode_grey(bytes, std::max(photo.width, photo.height)))
        photo.finest_edge = finest_edge_of(*grey, at);
    ArchiveWriter writer;
    writer.maybe(photo.finest_edge, [&](double& edge) { writer.number(std::bit_cast<std::uint64_t>(edge)); });
    store.keep_facts(kind, photo.sha256, writer.bytes);
}

/// Reads the file into memory once; that buffer is hashed, checked and decoded.
void take(const Folder& folder, Photo& photo, const Wanted& wanted, const Measuring* measuring, CopyStore& store) {
    const auto bytes = read_photo(folder, photo);
    if (!bytes) return;
    identify(*bytes, photo);
    if (!recall(photo, wanted, store)) {
        const JpegStructure structure = examine(*bytes, photo);
        if (photo.usable()) print(photo, wanted, *bytes, structure, store);
        remember_facts(photo, Examined::decoded, store);
    }
    if (measuring == nullptr) return;
    if (const auto at = measuring->find(photo.name); at != measuring->end())
        measure_sharpness(*bytes, at->second, photo, store);
}

/// Those that the decoder of JPEGs knows for HEIC, in child processes: for that there must be no threads any more.
void take_heifs(const Folder& folder, std::vector<Photo*>& photos, const ForPrint& print, unsigned jobs,
                CopyStore& store) {
    if (photos.empty()) return;
    prepare_heif();
    for (std::size_t begin = 0; begin < photos.size(); begin += jobs) {
        const std::size_t count = std::min<std::size_t>(jobs, photos.size() - begin);
        std::vector<Bytes> bytes(count);
        std::vector<HeifJob> held;
        std::vector<std::vector<PrintCopy>> smaller(count);
        for (std::size_t i = 0; i < count; ++i) {
            Photo& photo = *photos[begin + i];
            if (auto read = read_photo(folder, photo)) bytes[i] = std::move(*read);
            if (!bytes[i].empty())
                held.push_back({&bytes[i], wanted_of(photo, print), &photo, 0, nullptr, &smaller[i]});
        }
        take_heifs_apart(held);
        for (const HeifJob& job : held) {
            keep_copies(*job.photo, job.wanted, *job.smaller, store);
            remember_facts(*job.photo, Examined::decoded, store);
        }
    }
}

/// What was found out about it before stays true: a file that is no longer that one is not printed.
void take_again(const Folder& folder, Photo& photo, const Wanted& wanted, CopyStore& store) {
    if (!photo.usable() || print_from_store(photo, wanted, store)) return;
    Photo now = photo;
    take(folder, now, wanted, nullptr, store);
    if (now.sha256 != photo.sha256 || !(now.usable() || is_heic(now))) throw_changed(photo);
    photo = std::move(now);
}

template <class Take>
void for_each_photo(Evidence& evidence, const Gathering& how, const Take& take_one) {
    std::mutex guard;
    std::size_t done = 0;
    in_parallel(evidence.photos.size(), how.jobs, [&](std::size_t i) {
        if (!evidence.photos[i].file.empty()) take_one(evidence.photos[i]);
        if (!how.progress) return;
        const std::scoped_lock lock(guard);
        how.progress(++done, evidence.photos.size());
    });
}

std::filesystem::path folder_of(const survey::Survey& survey) {
    return std::filesystem::path(survey.file).parent_path() / survey.photos.folder;
}

/// Says where the folder was named, and which of those beside the survey file may be meant.
void require_folder(const survey::Survey& survey) {
    std::error_code failed;
    if (std::filesystem::is_directory(folder_of(survey), failed)) return;
    std::vector<std::string> beside;
    const std::filesystem::path place = std::filesystem::path(survey.file).parent_path();
    for (const auto& entry : std::filesystem::directory_iterator(place.empty() ? "." : place, failed))
        if (entry.is_directory(failed)) beside.push_back(entry.path().filename().string());
    std::sort(beside.begin(), beside.end());
    std::vector<std::string> nearest_names;
    for (const std::string& name : nearest(lower(survey.photos.folder), beside, 2))
        nearest_names.push_back(in_quotes(name));
    throw Error("there is no photo folder " + in_quotes(survey.photos.folder),
                survey.file + ":" + std::to_string(survey.photos.line),
                nearest_names.empty() ? "make it beside the survey file, and put the photos in"
                                      : "beside the survey file there is: " + join(nearest_names, ", "));
}

std::vector<Photo*> heics(Evidence& evidence) {
    std::vector<Photo*> found;
    for (Photo& photo : evidence.photos)
        if (is_heic(photo)) found.push_back(&photo);
    return found;
}

}  // namespace

Evidence gather_evidence(const survey::Survey& survey, const ForPrint& print, const Gathering& how) {
    require_folder(survey);
    const Folder folder(folder_of(survey));
    prepare_exif();
    NoCopies none;
    CopyStore& store = how.copies != nullptr ? *how.copies : none;
    if (how.known != nullptr) {
        Evidence evidence = *how.known;
        for_each_photo(evidence, how, [&](Photo& photo) { take_again(folder, photo, wanted_of(photo, print), store); });
        std::vector<Photo*> left = heics(evidence);
        take_heifs(folder, left, print, std::max(how.jobs, 1U), store);
        for (const Photo* photo : left)
            if (!photo->usable() || photo->sha256 != how.known->find(photo->name)->sha256) throw_changed(*photo);
        return evidence;
    }
    Evidence evidence = find_files(photo_names(survey), folder.files());
    const Measuring measuring = how.sharpness ? close_photos(survey) : Measuring{};
    for_each_photo(evidence, how,
                   [&](Photo& photo) { take(folder, photo, wanted_of(photo, print), &measuring, store); });
    std::vector<Photo*> left = heics(evidence);
    take_heifs(folder, left, print, std::max(how.jobs, 1U), store);
    return evidence;
}

void Photo::refuse(Trouble found) {
    trouble = std::move(found);
    state = trouble.state();
}

Evidence without_copies(const Evidence& evidence) {
    Evidence facts = evidence;
    for (Photo& photo : facts.photos) {
        photo.print = photo.detail = {};
        photo.detail_of.reset();
        photo.detail_wanted = 0;
    }
    return facts;
}

std::optional<Millimetres> Photo::scale() const {
    const int long_side = std::max(width, height);
    if (!facts.distance || !facts.focal_35mm || long_side == 0) return drawn_scale;
    return *facts.distance * (36.0 / (*facts.focal_35mm * long_side));
}

void take_scales(const survey::Survey& survey, Evidence& evidence) {
    for (Photo& photo : evidence.photos) {
        const survey::PhotoScale* scale = survey.photos.scale_of(photo.name);
        photo.drawn_scale.reset();
        if (scale != nullptr && photo.width > 0)
            photo.drawn_scale = scale->length.quantity / (survey::length_of(scale->along, 0) * photo.width);
    }
}

std::optional<LocalTime> Photo::true_time(const survey::Photos& photos) const {
    if (!facts.taken) return std::nullopt;
    return local_from_seconds(seconds_since_epoch(*facts.taken) + photos.clock_of(facts.camera));
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
