#pragma once

#include <string>

#include "evidence/evidence.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"

namespace rigdeed::mutations {

/// A complete survey of a rig, with whatever a survey may hold, and the photos that lie in its folder.
struct Whole {
    std::string text;
    evidence::Evidence photos;
};
[[nodiscard]] Whole whole_survey(const trade::Plan& plan, const trade::Settings& settings, const trade::Trade& trade);

/// What is found for the photos that a survey names in a folder that holds these.
[[nodiscard]] evidence::Evidence photos_for(const survey::Survey& survey, const evidence::Evidence& folder);

}  // namespace rigdeed::mutations
