#include "trade/plan.hpp"

#include <algorithm>
#include <functional>
#include <map>
#include <set>

#include "base/error.hpp"
#include "completeness/completeness.hpp"
#include "survey/sample.hpp"
#include "survey/whole_survey.hpp"
#include "survey/write_survey.hpp"
#include "trade/judge.hpp"
#include "trade/trade.hpp"

using namespace rigdeed;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

constexpr Date today{2026, 10, 3};

/// Calls `with` for every choice of every parameter of every plan.
void for_each_rig(const std::function<void(const trade::Plan&, const trade::Settings&)>& with) {
    for (const trade::Plan& plan : the_trade().plans) {
        std::vector<trade::Settings> grid{{}};
        for (const trade::Parameter& parameter : plan.parameters) {
            std::vector<trade::Settings> wider;
            for (const trade::Settings& known : grid)
                for (const std::string& value : parameter.values) {
                    wider.push_back(known);
                    wider.back()[parameter.id] = value;
                }
            grid = std::move(wider);
        }
        for (const trade::Settings& settings : grid) with(plan, settings);
    }
}

}  // namespace

TEST_CASE("there are nine rig plans at least, each with a line of its own") {
    CHECK(the_trade().plans.size() >= 9);
    std::set<std::string> lines;
    for (const trade::Plan& plan : the_trade().plans) CHECK(lines.insert(plan.says).second);
}

TEST_CASE("every rig of every plan starts as a survey that lacks just the looks and the photos") {
    std::size_t rigs = 0;
    for_each_rig([&](const trade::Plan& plan, const trade::Settings& settings) {
        ++rigs;
        CAPTURE(plan.id);
        survey::Survey survey =
            sample::read(survey::write_survey(trade::start_survey(plan, settings, today, the_trade())));
        CHECK(trade::check_names(survey, the_trade()).empty());
        std::map<std::string, std::size_t> gaps;
        for (const auto& gap : completeness::check_completeness({survey, {}, the_trade()}).gaps) ++gaps[gap.code];
        const std::size_t all = survey.fittings.size();
        // Blanks: surveyor, client, yacht, place; proposals: of every fitting and stay, and of four sections.
        CHECK(gaps == std::map<std::string, std::size_t>{{"no-photo-pair", all},
                                                         {"not-seen-down", all},
                                                         {"not-seen-up", all},
                                                         {"left-open", 4},
                                                         {"unconfirmed", all + survey.stays.size() + 4}});
        sample::fill_in(survey);
        const auto filled = completeness::check_completeness({survey, sample::photos_of(survey), the_trade()});
        for (const auto& remark : filled.remarks) MESSAGE(remark.fitting, ": ", remark.what);
        CHECK(filled.remarks.empty());
        for (const auto& gap : filled.gaps) MESSAGE(gap.fitting, ": ", gap.what);
        CHECK(filled.complete());
    });
    CHECK(rigs > 80);
}

TEST_CASE("fittings stand in climbing order: the deck first, then upwards, one mast after the other") {
    for_each_rig([](const trade::Plan& plan, const trade::Settings& settings) {
        const survey::Survey survey = trade::start_survey(plan, settings, today, the_trade());
        bool aloft = false;
        Millimetres height;
        std::vector<std::string> masts;
        for (const survey::Fitting& fitting : survey.fittings) {
            const survey::Stay* stay = survey.stay(fitting.stay);
            const std::string& mast = stay != nullptr ? stay->mast : fitting.mast;
            if (!fitting.at_deck()) {
                if (masts.empty() || masts.back() != mast) {
                    CHECK_MESSAGE(std::find(masts.begin(), masts.end(), mast) == masts.end(), plan.id, ": ", mast);
                    masts.push_back(mast);
                    height = {};
                }
                CHECK_MESSAGE((!aloft || fitting.height.quantity >= height), plan.id, ": ", fitting.id);
                height = fitting.height.quantity;
                aloft = true;
            } else {
                CHECK_MESSAGE(!aloft, plan.id, ": ", fitting.id);
            }
        }
    });
}

TEST_CASE("port and starboard mirror each other") {
    for_each_rig([](const trade::Plan& plan, const trade::Settings& settings) {
        const survey::Survey survey = trade::start_survey(plan, settings, today, the_trade());
        std::map<std::string, int> balance;
        for (const survey::Stay& stay : survey.stays)
            balance[stay.role + stay.mast] += stay.side == survey::Side::port        ? 1
                                              : stay.side == survey::Side::starboard ? -1
                                                                                     : 0;
        for (const auto& [role, sum] : balance) CHECK_MESSAGE(sum == 0, plan.id, ": ", role);
    });
}

TEST_CASE("an unknown parameter or value is answered with what there is") {
    const trade::Plan& plan = *the_trade().plan("cutter");
    const auto hint = [&](const trade::Settings& settings) {
        try {
            (void)trade::start_survey(plan, settings, today, the_trade());
        } catch (const Error& error) { return error.hint; }
        FAIL("taken");
        return std::string();
    };
    CHECK(hint({{"spreader", "2"}}).find("spreaders") != std::string::npos);
    CHECK(hint({{"spreaders", "9"}}).find("1, 2, 3") != std::string::npos);
}

TEST_CASE("more spreaders make more fittings, and intermediates from the second pair on") {
    const trade::Plan& plan = *the_trade().plan("masthead-sloop");
    const auto count = [&](const char* spreaders, const char* role) {
        const survey::Survey survey = trade::start_survey(plan, {{"spreaders", spreaders}}, today, the_trade());
        return std::count_if(survey.stays.begin(), survey.stays.end(),
                             [&](const survey::Stay& stay) { return stay.role == role; });
    };
    CHECK(count("1", "intermediate-shroud") == 0);
    CHECK(count("2", "intermediate-shroud") == 2);
    CHECK(count("3", "intermediate-shroud") == 4);
}
