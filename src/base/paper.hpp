#pragma once

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

#include "base/geometry.hpp"

namespace rigdeed {

enum class PaperSize { a4, letter };

/// A paper that is printed on: its name in options, letterhead and record, and its size.
struct PaperRow {
    PaperSize value;
    std::string_view name;
    Size size;
};
inline constexpr std::array papers{PaperRow{PaperSize::a4, "a4", {595.28_pt, 841.89_pt}},
                                   PaperRow{PaperSize::letter, "letter", {612_pt, 792_pt}}};

constexpr const PaperRow& row_of(PaperSize paper) {
    return *std::find_if(papers.begin(), papers.end(), [&](const PaperRow& row) { return row.value == paper; });
}

/// By its name; nothing if there is none of that name.
constexpr std::optional<PaperSize> read_paper(std::string_view name) {
    const auto* row = std::find_if(papers.begin(), papers.end(), [&](const PaperRow& one) { return one.name == name; });
    return row != papers.end() ? std::optional(row->value) : std::nullopt;
}

}  // namespace rigdeed
