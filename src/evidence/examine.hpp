#pragma once

#include <optional>

#include "base/file.hpp"
#include "evidence/evidence.hpp"
#include "evidence/jpeg_structure.hpp"

namespace rigdeed::evidence {

/// The file's bytes, read once; nothing, and the photo in trouble, if they cannot be had.
[[nodiscard]] std::optional<Bytes> read_photo(const Folder& folder, Photo& photo);

/// Which file it is: its size and digest.
void identify(const Bytes& bytes, Photo& photo);

/// What the file says. `bytes` must outlive the result. The photo is usable afterwards, or in trouble.
[[nodiscard]] JpegStructure examine(const Bytes& bytes, Photo& photo);

}  // namespace rigdeed::evidence
