#pragma once

#include "survey/whole_survey.hpp"
#include "trade/plan.hpp"

namespace rigdeed::sample {

inline const trade::Trade& the_trade() {
    static const trade::Trade loaded = trade::load_trade({}, "en");
    return loaded;
}

/// The plan's rig, old; every fifth fitting was not seen, every seventh of those that belong to no stay is finished.
inline survey::Survey old_rig(const trade::Plan& plan, const trade::Trade& trade) {
    survey::Survey survey = trade::start_survey(plan, {}, {2026, 10, 3}, trade);
    sample::fill_in(survey);
    for (survey::Stay& stay : survey.stays) {
        stay.fitted = PartDate{1999, 5, {}};
        stay.age_source = survey::AgeSource::owner;
    }
    std::size_t number = 0, free = 0;
    for (survey::Fitting& fitting : survey.fittings) {
        if (++number % 5 == 0) {
            fitting.seen.clear();
            fitting.not_seen = "under a cover";
        } else if (fitting.stay.empty() && ++free % 7 == 1) {
            survey::Sign sign;
            for (const trade::SignRule& rule : trade.kind(fitting.kind)->signs)
                if (rule.verdict == survey::Verdict::renew && sign.code.empty()) sign.code = rule.code;
            if (!sign.code.empty()) fitting.seen.front().signs.push_back(sign);
        }
    }
    return survey;
}

}  // namespace rigdeed::sample
