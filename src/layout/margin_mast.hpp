#pragma once

#include <vector>

#include "layout/look.hpp"
#include "layout/page.hpp"
#include "layout/text_metrics.hpp"
#include "report/block.hpp"

namespace rigdeed::layout {

struct MarginMark {
    report::Mark mark;
    double height = 0;  ///< metres above the waterline
};

/// The mast at the outer edge of pages about the rig: a scale of heights, deck and spreaders, and the findings of
/// this page at their true heights.
void add_margin_mast(const report::MarginMast& mast, const std::vector<MarginMark>& marks, const TextMetrics& metrics,
                     const Paper& paper, std::vector<PlacedItem>& items);

}  // namespace rigdeed::layout
