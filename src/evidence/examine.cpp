#include "evidence/examine.hpp"

#include <algorithm>
#include <cerrno>

#include "crypto/digest.hpp"
#include "evidence/exif.hpp"

namespace rigdeed::evidence {
namespace {

constexpr std::uint64_t largest_photo = 64 * 1024 * 1024;

Trouble trouble_of(const Folder::Reading& reading) {
    switch (reading.outcome) {
        case Folder::Outcome::read: return {};
        case Folder::Outcome::missing: return {Why::not_there, 0, {}, {}};
        case Folder::Outcome::leads_outside: return {Why::leads_outside, 0, {}, {}};
        case Folder::Outcome::not_a_regular_file: return {Why::not_a_file, 0, {}, {}};
        case Folder::Outcome::too_large: return {Why::large_file, 0, {}, {}};
        case Folder::Outcome::unreadable:
            if (reading.error == EACCES || reading.error == EPERM) return {Why::no_permission, 0, {}, {}};
            return {Why::cannot_read, reading.error, {}, {}};
    }
    return {Why::cannot_read, 0, {}, {}};
}

/// Two pictures whose data have the same length, beginning and end are the same, whatever stands in the file beside
/// them.
Digest digest_of_picture(const JpegStructure& structure) {
    constexpr std::size_t piece = 32 * 1024;
    const std::string_view picture = structure.picture;
    crypto::Hasher hasher;
    hasher.add(std::to_string(structure.width) + "x" + std::to_string(structure.height) + " " +
               std::to_string(picture.size()) + "\n");
    hasher.add(picture.substr(0, piece));
    if (picture.size() > piece) hasher.add(picture.substr(std::max(piece, picture.size() - piece)));
    return hasher.finish();
}

}  // namespace

std::optional<Bytes> read_photo(const Folder& folder, Photo& photo) {
    Folder::Reading reading = folder.read(photo.file, largest_photo);
    if (reading.outcome == Folder::Outcome::read) return std::move(reading.bytes);
    photo.refuse(trouble_of(reading));
    return std::nullopt;
}

void identify(const Bytes& bytes, Photo& photo) {
    photo.size = bytes.size();
    photo.sha256 = crypto::sha256(bytes);
}

JpegStructure examine(const Bytes& bytes, Photo& photo) {
    JpegStructure structure = read_structure(bytes);
    photo.refuse(structure.trouble);
    if (structure.trouble.any()) return structure;
    photo.pixels = digest_of_picture(structure);
    if (!structure.exif.empty()) photo.facts = read_exif(structure.exif);
    const bool on_its_side = photo.facts.orientation.value_or(1) >= 5;
    photo.width = on_its_side ? structure.height : structure.width;
    photo.height = on_its_side ? structure.width : structure.height;
    return structure;
}

}  // namespace rigdeed::evidence
