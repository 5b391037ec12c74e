#pragma once

#include <memory>

#include "layout/text_metrics.hpp"

namespace rigdeed::pdf {

/// Widths as the PDF will print them: Lato, and DejaVu Sans for the characters Lato lacks.
[[nodiscard]] std::unique_ptr<layout::TextMetrics> font_metrics();

}  // namespace rigdeed::pdf
