#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "evidence/copies.hpp"
#include "evidence/evidence.hpp"

/// Photos printed smaller so that a report is small enough: which, and how small.
namespace rigdeed::evidence {

/// Copies of a photo, from large to small.
struct GivingWay {
    struct Size {
        int side = 0;           ///< pixels along the longer side
        std::size_t bytes = 0;  ///< where the store has no such copy, guessed from the largest
    };
    std::string name;
    std::vector<Size> sizes;  ///< the first is the one printed if there is room
};

/// Of the photos named by `print.giving_way`, with the copies that they have.
[[nodiscard]] std::vector<GivingWay> giving_way(const Evidence& evidence, const ForPrint& print, CopyStore& store);

/// Bytes of all, each at its largest or at its smallest.
[[nodiscard]] std::size_t largest(const std::vector<GivingWay>& photos);
[[nodiscard]] std::size_t smallest(const std::vector<GivingWay>& photos);

/// Sides by which they have at most `budget` bytes together, and as many of them as that lets be: all of nearly the
/// same step. Nothing if even the smallest are more.
[[nodiscard]] std::optional<PrintSizes> sides_within(const std::vector<GivingWay>& photos, std::size_t budget);

}  // namespace rigdeed::evidence
