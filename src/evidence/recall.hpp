#pragma once

#include "evidence/copies.hpp"
#include "evidence/evidence.hpp"

/// What was found out about photos in earlier runs, by the digest of the file: nothing about one that was refused.
namespace rigdeed::evidence {

/// How far a photo was taken apart: one whose brightness was looked at need not be one that can be printed.
enum class Examined { looked_at, decoded };

/// Facts of a photo that was identified, without copies; false, and the photo as it was, if the store has none.
[[nodiscard]] bool recall_facts(Photo& photo, Examined how, CopyStore& store);
void remember_facts(const Photo& photo, Examined how, CopyStore& store);

}  // namespace rigdeed::evidence
