#pragma once

#include <memory>
#include <vector>

#include "assessment/quantities.hpp"
#include "base/unit.hpp"
#include "trade/judge.hpp"

namespace rigdeed::assessment {

/// A finding from a measure stands among the signs, with a sign and a rule of its own; these live here.
struct Told {
    survey::Sign sign;
    trade::SignRule rule;
};
using ToldByMeasure = std::vector<std::shared_ptr<const Told>>;

/// Adds a sign for every limit that the fitting is beyond; of the limits of one quantity in one direction only the
/// worst. The signs have no pass.
void add_beyond_limits(std::vector<trade::JudgedSign>& signs, const Place& place, ToldByMeasure& told);

/// A quantity of a fitting against the limits of one direction: the worst that it is beyond, else the nearest.
struct HeldAgainst {
    const survey::Fitting* fitting = nullptr;
    const trade::Limit* limit = nullptr;
    double value = 0;
    Unit unit = Unit::none;
    bool beyond = false;
    bool bars = false;
    std::string words;  ///< of the limit, filled in
};
/// Every quantity that is known, in the order of the fittings and of the table.
[[nodiscard]] std::vector<HeldAgainst> held_against_limits(const survey::Survey& survey, const trade::Trade& trade);

/// Exchanges the rule of each sign that a measure makes milder.
void make_milder(std::vector<trade::JudgedSign>& signs, const Place& place, ToldByMeasure& told);

}  // namespace rigdeed::assessment
