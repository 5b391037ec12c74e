#pragma once

#include <functional>
#include <string>

#include "evidence/copies.hpp"
#include "evidence/evidence.hpp"
#include "evidence/jpeg_structure.hpp"

namespace rigdeed::evidence {

/// What is wanted of one photo for print.
struct Wanted {
    int long_side = 0;                   ///< pixels; 0: only whether it can be decoded
    const survey::Mark* mark = nullptr;  ///< none: no square
    int square = 0;                      ///< pixels across it that are enough
};

/// The copies wanted, if the store has all of them: then the file need not be read. `photo` was examined.
[[nodiscard]] bool print_from_store(Photo& photo, const Wanted& wanted, CopyStore& store);

/// Keeps the copies that a photo has.
void keep_copies(const Photo& photo, const Wanted& wanted, CopyStore& store);

/// The copies wanted, from the store or else from the file's bytes, which are decoded once a size. What cannot be
/// decoded puts the photo in trouble. `photo` was examined.
void print(Photo& photo, const Wanted& wanted, const Bytes& bytes, const JpegStructure& structure, CopyStore& store);

}  // namespace rigdeed::evidence
