#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "base/quantity.hpp"

/// Which pieces share a page, and how roomy each is set.
namespace rigdeed::layout {

/// What is to be placed, in order. Ways run from the roomiest to the closest.
struct Pieces {
    std::function<Points(std::size_t piece, std::size_t way)> height;
    std::vector<std::size_t> ways;    ///< of each piece, at least one
    std::vector<std::size_t> shared;  ///< of each piece: the closest way in which it shares a page with others
    Points between;                   ///< two on one page
    Points page;                      ///< height of the text
    Points used;                      ///< of the page that is being filled
};

struct Placing {
    bool new_page = false;  ///< it begins one
    std::size_t way = 0;
};

/// The fewest pages that hold all; among those the ones that leave most pieces roomy. What is left of a page goes to
/// its pieces from the first to the last. A piece that no page holds has one for itself.
[[nodiscard]] std::vector<Placing> fill_pages(const Pieces& pieces);

}  // namespace rigdeed::layout
