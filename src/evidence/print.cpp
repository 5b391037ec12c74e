#include "evidence/print.hpp"

#include <algorithm>

#include "base/build.hpp"
#include "evidence/pixel_budget.hpp"
#include "evidence/scale.hpp"

namespace rigdeed::evidence {
namespace {

CopyKey whole(const Photo& photo, int side) { return {photo.sha256, side, std::nullopt, std::string(build_digest())}; }

CopyKey square(const Photo& photo, const Wanted& wanted) {
    return {photo.sha256, wanted.square, *wanted.mark, std::string(build_digest())};
}

void take_square(Photo& photo, const Copy& copy, const Wanted& wanted) {
    photo.detail = copy.picture;
    photo.detail_of = copy.shown;
    photo.detail_wanted = wanted.square;
}

}  // namespace

int side_of(const Photo& photo, const Wanted& wanted) {
    if (wanted.long_side == 0) return 0;
    const int longer = std::max(photo.width, photo.height);
    return std::min(longer, wanted.exact ? wanted.long_side : printed_side(longer, wanted.long_side));
}

std::vector<int> smaller_sides(int side) {
    constexpr double step = 0.85, least_share = 0.15;
    constexpr int least = 64;
    std::vector<int> sides;
    for (double next = side * step; next >= std::max<double>(least, side * least_share); next *= step)
        sides.push_back(static_cast<int>(next));
    return sides;
}

std::optional<PrintCopy> copy_of(const Photo& photo, int side, CopyStore& store) {
    const auto found = store.find(whole(photo, side));
    return found ? std::optional(found->picture) : std::nullopt;
}

bool print_from_store(Photo& photo, const Wanted& wanted, CopyStore& store) {
    const int side = side_of(photo, wanted);
    // A photo that was examined can be decoded: with no copy wanted there is nothing to be found.
    const auto picture = side > 0 ? store.find(whole(photo, side)) : std::optional(Copy{});
    const auto detail = wanted.mark != nullptr ? store.find(square(photo, wanted)) : std::nullopt;
    if (!picture || (wanted.mark != nullptr && !detail)) return false;
    photo.print = picture->picture;
    if (detail) take_square(photo, *detail, wanted);
    return true;
}

void keep_copies(const Photo& photo, const Wanted& wanted, const std::vector<PrintCopy>& smaller, CopyStore& store) {
    if (!photo.usable()) return;
    for (const PrintCopy& copy : smaller)
        store.keep(whole(photo, std::max(copy.width, copy.height)), {copy, std::nullopt});
    store.keep(whole(photo, side_of(photo, wanted)), {photo.print, std::nullopt});
    if (wanted.mark != nullptr) store.keep(square(photo, wanted), {photo.detail, photo.detail_of});
}

void print(Photo& photo, const Wanted& wanted, const Bytes& bytes, const JpegStructure& structure, CopyStore& store) {
    const int orientation = photo.facts.orientation.value_or(1);
    const CopyKey key = whole(photo, side_of(photo, wanted));
    auto picture = store.find(key);
    // A progressive one takes as much memory as it has coefficients: 3 bytes a pixel and more.
    const std::size_t pixels = static_cast<std::size_t>(photo.width) * static_cast<std::size_t>(photo.height);
    const PixelBudget::Share share =
        pixel_budget().take(structure.progressive || wanted.mark != nullptr ? pixels : pixels / 8);
    if (!picture) {
        std::vector<int> sides{key.side};
        if (wanted.giving_way)
            for (const int side : smaller_sides(key.side)) sides.push_back(side);
        std::vector<Scaled> scaled = scale_for_print(bytes, orientation, sides, structure.profile);
        if (scaled.front().trouble.any()) return photo.refuse(scaled.front().trouble);
        for (std::size_t i = 1; i < scaled.size(); ++i)
            if (!scaled[i].trouble.any()) store.keep(whole(photo, sides[i]), {std::move(scaled[i].copy), std::nullopt});
        picture = Copy{std::move(scaled.front().copy), std::nullopt};
        store.keep(key, *picture);
    }
    photo.print = picture->picture;
    if (wanted.mark == nullptr) return;
    auto detail = store.find(square(photo, wanted));
    if (!detail) {
        Cut cut = cut_for_print(bytes, orientation, *wanted.mark, wanted.square, structure.profile);
        if (cut.trouble.any()) return photo.refuse(cut.trouble);
        detail = Copy{std::move(cut.copy), cut.shown};
        store.keep(square(photo, wanted), *detail);
    }
    take_square(photo, *detail, wanted);
}

bool CopyKey::operator<(const CopyKey& other) const {
    const auto order = [](const CopyKey& key) {
        const survey::Mark at = key.mark.value_or(survey::Mark{-1, -1, -1});
        return std::tuple(key.original, key.side, at.x, at.y, at.radius, std::string_view(key.build));
    };
    return order(*this) < order(other);
}

std::optional<Copy> CopiesInMemory::find(const CopyKey& key) {
    const std::scoped_lock lock(guard_);
    const auto known = copies_.find(key);
    return known == copies_.end() ? std::nullopt : std::optional(known->second);
}

void CopiesInMemory::keep(const CopyKey& key, const Copy& copy) {
    const std::scoped_lock lock(guard_);
    copies_.insert_or_assign(key, copy);
}

}  // namespace rigdeed::evidence
