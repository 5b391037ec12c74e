#include "evidence/find_files.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "base/text.hpp"

namespace rigdeed::evidence {
namespace {

constexpr std::array<std::string_view, 21> photo_endings{"jpg", "jpeg", "jpe",  "heic", "heif", "avif", "png",
                                                         "tif", "tiff", "webp", "bmp",  "gif",  "cr2",  "cr3",
                                                         "nef", "arw",  "dng",  "raf",  "orf",  "rw2",  "pef"};

std::string ending(const std::string& file) {
    const auto dot = file.rfind('.');
    const auto slash = file.rfind('/');
    if (dot == std::string::npos || (slash != std::string::npos && dot < slash)) return {};
    return lower(file.substr(dot + 1));
}

std::string stem(const std::string& file) {
    const std::string end = ending(file);
    return end.empty() ? file : file.substr(0, file.size() - end.size() - 1);
}

bool is_jpeg(const std::string& file) {
    const std::string end = ending(file);
    return end == "jpg" || end == "jpeg" || end == "jpe";
}

bool is_photo(const std::string& file) {
    return std::find(photo_endings.begin(), photo_endings.end(), ending(file)) != photo_endings.end();
}

/// Files a name may mean: the file itself, else those of that stem, JPEGs before anything else, else whatever the case
/// of its letters.
std::vector<std::string> candidates(const std::string& name, const std::vector<std::string>& files) {
    const auto matching = [&](auto matches) {
        std::vector<std::string> found;
        std::copy_if(files.begin(), files.end(), std::back_inserter(found), matches);
        return found;
    };
    if (auto same = matching([&](const std::string& file) { return file == name; }); !same.empty()) return same;
    for (const bool fold : {false, true}) {
        const std::string wanted = fold ? lower(name) : name;
        const auto is_named = [&](const std::string& file) {
            return (fold ? lower(stem(file)) : stem(file)) == wanted || (fold && lower(file) == wanted);
        };
        if (auto jpegs = matching([&](const std::string& file) { return is_jpeg(file) && is_named(file); });
            !jpegs.empty())
            return jpegs;
        if (auto photos = matching([&](const std::string& file) { return is_photo(file) && is_named(file); });
            !photos.empty())
            return photos;
    }
    return {};
}

}  // namespace

Evidence find_files(const std::vector<std::string>& names, const std::vector<std::string>& files) {
    Evidence evidence;
    std::set<std::string> used;
    for (const std::string& name : names) {
        Photo photo;
        photo.name = name;
        const auto found = candidates(name, files);
        if (found.size() == 1) {
            photo.file = found.front();
            used.insert(lower(stem(photo.file)));
        } else if (found.empty()) {
            photo.reason = "not in the photo folder";
        } else {
            photo.state = State::ambiguous;
            photo.reason = "could be " + listed(found) + ": write the file's whole name";
            for (const std::string& one : found) used.insert(lower(stem(one)));
        }
        evidence.add(std::move(photo));
    }
    std::set<std::string> taken;
    for (const Photo& photo : evidence.photos) taken.insert(photo.file);
    for (const std::string& file : files) {
        if (!is_photo(file) || taken.contains(file)) continue;
        const bool beside_its_jpeg = !is_jpeg(file) && used.contains(lower(stem(file)));
        if (!beside_its_jpeg) evidence.unused.push_back(file);
    }
    return evidence;
}

}  // namespace rigdeed::evidence
