#include "verify/photos.hpp"

#include <algorithm>

#include "base/xml.hpp"
#include "crypto/certificate.hpp"

namespace rigdeed::verify {
namespace {

// Of several files with the content, the one that still has its name.
PhotoFinding find(const RegisteredPhoto& photo, const std::vector<FolderFile>& folder) {
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
    return fault.empty() && count(PhotoState::missing) == 0 && count(PhotoState::altered) == 0 &&
           count(PhotoState::unreadable) == 0;
}

std::optional<std::vector<RegisteredPhoto>> read_register(std::string_view text) {
    const auto [root, problems] = xml::read(text, "photos.xml");
    if (!root || root->name != "photo-register") return std::nullopt;
    std::vector<RegisteredPhoto> photos;
    for (const xml::Element& photo : root->children) {
        const std::string file = photo.get("file").value_or(photo.get("name").value_or(""));
        const auto digest = photo.get("sha256");
        const auto read = digest ? crypto::read_fingerprint(*digest) : std::nullopt;
        if (photo.name != "photo" || file.empty() || digest.has_value() != read.has_value()) return std::nullopt;
        photos.push_back({file, read});
    }
    return photos;
}

PhotosFinding compare_photos(const std::vector<RegisteredPhoto>& registered, const std::vector<FolderFile>& folder) {
    PhotosFinding finding;
    for (const RegisteredPhoto& photo : registered) finding.photos.push_back(find(photo, folder));
    for (const FolderFile& file : folder) {
        const bool known = std::any_of(registered.begin(), registered.end(), [&](const RegisteredPhoto& photo) {
            return photo.sha256 && (file.sha256 == *photo.sha256 || file.path == photo.file);
        });
        if (!known) finding.unknown.push_back(file.path);
    }
    return finding;
}

}  // namespace rigdeed::verify
