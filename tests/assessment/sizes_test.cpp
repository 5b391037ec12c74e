#include "assessment/sizes.hpp"

#include "survey/sample.hpp"

using namespace rigdeed;
using namespace rigdeed::sample;

TEST_CASE("the schedule of sizes takes the stay's ends first, then its fittings, and names what is to be measured") {
    const trade::Trade trade = trade::load_trade();
    std::string pin = fitting("pin", "clevis-pin", "s", "deck");
    pin.insert(pin.rfind("</fitting>"), "<measured what=\"pin-diameter\" value=\"12 mm\"/>");
    const survey::Survey survey = with(
        replaced(stay("s"), "/>", " length=\"12.8 m\"><end at=\"top\" terminal=\"t-terminal\" form=\"tee\"/></stay>"),
        pin + fitting("low", "swaged-stud", "s", "deck") + fitting("t", "toggle", "s", "deck") +
            fitting("high", "swaged-terminal", "s", "masthead"));
    const auto all = assessment::schedule_of_sizes(survey, trade);
    REQUIRE(all.size() == 1);
    CHECK(all[0].bottom.terminal == "swaged-stud");
    CHECK(all[0].bottom.pin == "12 mm");
    CHECK(all[0].bottom.toggle == "yes");
    CHECK(all[0].top.terminal == "t-terminal");
    CHECK(all[0].top.form == "tee");
    CHECK(all[0].wanted == std::vector<std::string>{"bottom-form", "hole", "thread", "top-pin"});
}
