#include "verify/photos.hpp"

#include <algorithm>

#include "base/xml.hpp"
#include "crypto/certificate.hpp"

namespace rigdeed::verify {
namespace {

struct Registered {
    std::string file;
    std::optional<Digest> sha256;
};

// Nothing if the register does not have the form in which it is written.
std::optional<std::vector<Registered>> read_register(std::string_view text) {
    const auto [root, problems] = xml::read(text, "photos.xml");
    if (!root || root->name != "photo-register") return std::nullopt;
    std::vector<Registered> photos;
    for (const xml::Element& photo : root->children) {
        const std::string file = photo.get("file").value_or(photo.get("name").value_or(""));
        const auto digest = photo.get("sha256");
        const auto read = digest ? crypto::read_fingerprint(*digest) : std::nullopt;
        if (photo.name != "photo" || file.empty() || digest.has_value() != read.has_value()) return std::nullopt;
        photos.push_back({file, read});
    }
    return photos;
}

// Of several files with the content, the one that still has its name.
PhotoFinding find(const Registered& photo, const std::vector<FolderFile>& folder) {
    if (!photo.sha256) return {photo.file, PhotoState::never_had, {}};
    const auto same_name =
        std::find_if(folder.begin(), folder.end(), [&](const FolderFile& file) { return file.path == photo.file; });
    if (same_name != folder.end() && same_name->sha256 == *photo.sha256)
        return {photo.file, PhotoState::found, photo.file};
    const auto same_content = std::find_if(folder.begin(), folder.end(),
                                           [&](const FolderFile& file) { return file.sha256 == *photo.sha256; });
    if (same_content != folder.end()) return {photo.file, PhotoState::found, same_content->path};
    if (same_name != folder.end()) return {photo.file, PhotoState::altered, photo.file};
    return {photo.file, PhotoState::missing, {}};
}

}  // namespace

std::size_t PhotosFinding::count(PhotoState state) const {
    return static_cast<std::size_t>(
        std::count_if(photos.begin(), photos.end(), [&](const PhotoFinding& one) { return one.state == state; }));
}

bool PhotosFinding::all_found() const {
    return fault.empty() && count(PhotoState::missing) == 0 && count(PhotoState::altered) == 0;
}

PhotosFinding compare_photos(std::string_view photo_register, const std::vector<FolderFile>& folder) {
    const auto registered = read_register(photo_register);
    PhotosFinding finding;
    if (!registered) {
        finding.fault = "the report's photo register cannot be read";
        return finding;
    }
    for (const Registered& photo : *registered) finding.photos.push_back(find(photo, folder));
    for (const FolderFile& file : folder) {
        const bool known = std::any_of(registered->begin(), registered->end(), [&](const Registered& photo) {
            return photo.sha256 && (file.sha256 == *photo.sha256 || file.path == photo.file);
        });
        if (!known) finding.unknown.push_back(file.path);
    }
    return finding;
}

}  // namespace rigdeed::verify
