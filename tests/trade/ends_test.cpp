#include <doctest/doctest.h>

#include <map>

#include "assessment/sizes.hpp"
#include "trade/judge.hpp"
#include "trade/plan.hpp"

using namespace rigdeed;

TEST_CASE("of each stay of each plan the lower parts are at its lower end, the upper ones at the other") {
    const trade::Trade trade = trade::load_trade();
    std::map<trade::Runs, std::size_t> looked_at;
    for (const trade::Plan& plan : trade.plans) {
        const survey::Survey survey = trade::start_survey(plan, {}, {2026, 10, 3}, trade);
        for (const survey::Stay& stay : survey.stays) {
            CAPTURE(plan.id);
            CAPTURE(stay.id);
            std::size_t low = 0, high = 0;
            for (const survey::Fitting& fitting : survey.fittings) {
                if (fitting.stay != stay.id) continue;
                const bool at_lower = trade::at_lower_end(fitting, stay, survey, trade);
                (at_lower ? low : high) += 1;
                if (fitting.id.starts_with(stay.id + "-lower-")) CHECK_MESSAGE(at_lower, fitting.id);
                if (fitting.id.starts_with(stay.id + "-upper-")) CHECK_MESSAGE(!at_lower, fitting.id);
                if (fitting.kind == "turnbuckle" || fitting.kind == "chainplate") CHECK_MESSAGE(at_lower, fitting.id);
            }
            CHECK(low > 0);
            CHECK(high > 0);
            ++looked_at[trade.role(stay.role)->runs];
        }
        for (const assessment::StaySizes& sizes : assessment::schedule_of_sizes(survey, trade)) {
            CAPTURE(sizes.stay->id);
            CHECK(!sizes.bottom.terminal.empty());
            CHECK(!sizes.top.terminal.empty());
        }
    }
    CHECK(looked_at[trade::Runs::deck_to_mast] > 50);
    CHECK(looked_at[trade::Runs::at_deck] >= 4);
    CHECK(looked_at[trade::Runs::aloft] >= 3);
}
