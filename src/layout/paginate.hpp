#pragma once

#include "layout/look.hpp"
#include "layout/page.hpp"
#include "layout/text_metrics.hpp"
#include "report/block.hpp"

namespace rigdeed::layout {

/// Blocks to pages of placed items: collect, distribute, finalize. The same report gives the same pages.
/// Throws Error (code bug) if a link leads to an anchor that does not exist.
[[nodiscard]] Pages paginate(const report::Report& report, const TextMetrics& metrics, const Paper& paper);

}  // namespace rigdeed::layout
