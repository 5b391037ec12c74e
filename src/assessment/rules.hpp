#pragma once

#include <vector>

#include "assessment/assessment.hpp"

namespace rigdeed::assessment {

/// Rules over several fittings, each a row of the table in rules.cpp and of templates/tables/rules.xml.
/// They only ever make a verdict worse.
void apply_rules(std::vector<FittingVerdict>& fittings, const survey::Survey& survey, const trade::Trade& trade);

}  // namespace rigdeed::assessment
