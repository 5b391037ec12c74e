#pragma once

#include <vector>

#include "document/block.hpp"
#include "layout/look.hpp"
#include "layout/page.hpp"
#include "layout/text_metrics.hpp"

namespace rigdeed::layout {

struct MarginMark {
    document::VerdictMark mark;
    double height = 0;  ///< metres above the waterline
};

/// The mast at the outer edge of pages about the rig: a scale of heights, deck and spreaders, and the findings of
/// this page at their true heights.
void add_margin_mast(const document::MarginMast& mast, const std::vector<MarginMark>& marks, const TextMetrics& metrics,
                     const Paper& paper, std::vector<PlacedItem>& items);

}  // namespace rigdeed::layout
