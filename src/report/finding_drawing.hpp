#pragma once

#include <optional>

#include "drawing/shape.hpp"
#include "report/compose.hpp"

namespace rigdeed::report {

/// The fitting of a finding with what was recorded of it and nothing else: its schematic with its signs, of wires the
/// section of their strand. Nothing where there is no sign.
[[nodiscard]] std::optional<drawing::Drawing> finding_drawing(const Material& material,
                                                              const assessment::FittingVerdict& one);

/// What stands beyond a limit was measured or calculated, not seen.
[[nodiscard]] bool is_limit(const trade::SignRule& rule, const trade::Trade& trade);

}  // namespace rigdeed::report
