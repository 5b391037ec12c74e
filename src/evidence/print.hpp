#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "evidence/copies.hpp"
#include "evidence/evidence.hpp"
#include "evidence/jpeg_structure.hpp"

namespace rigdeed::evidence {

/// What is wanted of one photo for print.
struct Wanted {
    int long_side = 0;                   ///< pixels; 0: only whether it can be decoded
    const survey::Mark* mark = nullptr;  ///< none: no square
    int square = 0;                      ///< pixels across it that are enough
    bool exact = false;                  ///< just so many pixels along the longer side; else the next larger n/8
    bool giving_way = false;             ///< smaller copies are made as well, for the store
};

/// The copies wanted, if the store has all of them: then the file need not be read. `photo` was examined.
[[nodiscard]] bool print_from_store(Photo& photo, const Wanted& wanted, CopyStore& store);

/// Pixels along the longer side of the copy that is wanted.
[[nodiscard]] int side_of(const Photo& photo, const Wanted& wanted);
/// The same for the smaller ones of a photo that gives way, from large to small.
[[nodiscard]] std::vector<int> smaller_sides(int side);
/// A copy of the whole picture with so many pixels along its longer side, if the store has one.
[[nodiscard]] std::optional<PrintCopy> copy_of(const Photo& photo, int side, CopyStore& store);

/// Keeps the copies that a photo has, and the smaller ones by which it gives way.
void keep_copies(const Photo& photo, const Wanted& wanted, const std::vector<PrintCopy>& smaller, CopyStore& store);

/// The copies wanted, from the store or else from the file's bytes, which are decoded once a size. What cannot be
/// decoded puts the photo in trouble. `photo` was examined.
void print(Photo& photo, const Wanted& wanted, const Bytes& bytes, const JpegStructure& structure, CopyStore& store);

}  // namespace rigdeed::evidence
