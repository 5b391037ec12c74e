#pragma once

#include <vector>

#include "layout/draft.hpp"

namespace rigdeed::layout {

/// A slab at its place; `y` is its top, from the page's top edge.
struct PlacedSlab {
    Slab slab;
    Points y;
};

struct DraftPage {
    std::vector<PlacedSlab> slabs;
    std::string chapter;  ///< number and name of the chapter it belongs to
    std::string chapter_number;
};

/// Fills pages from top to bottom. What is kept together goes to the next page as a whole, unless it would not fit
/// on an empty page either; a table's head is repeated where the table goes on.
[[nodiscard]] std::vector<DraftPage> distribute(Slabs slabs, const Paper& paper);

}  // namespace rigdeed::layout
