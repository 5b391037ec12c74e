#pragma once

#include "evidence/copies.hpp"
#include "evidence/evidence.hpp"

/// What was found out about photos in earlier runs, by the digest of the file: nothing about one that was refused.
namespace rigdeed::evidence {

/// Facts of a photo that was identified, without copies; false, and the photo as it was, if the store has none.
[[nodiscard]] bool recall_facts(Photo& photo, CopyStore& store);
void remember_facts(const Photo& photo, CopyStore& store);

}  // namespace rigdeed::evidence
