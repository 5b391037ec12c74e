#pragma once

#include <string>
#include <string_view>

#include "base/archive.hpp"
#include "evidence/evidence.hpp"

namespace rigdeed::evidence {

/// What was found out about a photo, and its copies, as bytes: all but its name, file, size and digest.
[[nodiscard]] std::string write_facts(const Photo& photo);

/// False if they are not what write_facts makes of a photo.
[[nodiscard]] bool read_facts(std::string_view bytes, Photo& photo);

void copy_field(ArchiveWriter& a, PrintCopy& copy);
void copy_field(ArchiveReader& a, PrintCopy& copy);
void mark_field(ArchiveWriter& a, survey::Mark& mark);
void mark_field(ArchiveReader& a, survey::Mark& mark);

/// Whether a copy that comes from outside this process is a picture of the size it says, or none.
[[nodiscard]] bool is_sound_copy(const PrintCopy& copy);

}  // namespace rigdeed::evidence
