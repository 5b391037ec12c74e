#pragma once

#include "document/block.hpp"
#include "layout/look.hpp"
#include "layout/page.hpp"
#include "layout/text_metrics.hpp"

namespace rigdeed::layout {

/// Blocks to pages of placed items: collect, distribute, finalize. The same document gives the same pages.
/// Throws Error (code bug) if a link leads to an anchor that does not exist.
[[nodiscard]] Pages paginate(const document::Document& document, const TextMetrics& metrics, const Paper& paper);

}  // namespace rigdeed::layout
