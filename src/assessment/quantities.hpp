#pragma once

#include <optional>
#include <string_view>

#include "survey/survey.hpp"
#include "trade/trade.hpp"

namespace rigdeed::assessment {

/// A fitting, and the rig that it is of.
struct Place {
    const survey::Fitting& fitting;
    const survey::Survey& survey;
    const trade::Trade& trade;

    [[nodiscard]] const survey::Stay* stay() const { return survey.stay(fitting.stay); }
};

/// A quantity of trade/limits.hpp on a fitting, in its unit; nothing where what it takes was not measured.
[[nodiscard]] std::optional<double> quantity_of(std::string_view id, const Place& place);

}  // namespace rigdeed::assessment
