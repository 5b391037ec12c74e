#include "report/scale_bar.hpp"

#include <doctest/doctest.h>

using namespace rigdeed;

TEST_CASE("a scale bar speaks in the units of its report, and takes at most two fifths of the picture") {
    struct Row {
        double across;
        UnitSystem units;
        std::string words;
        double length;
    };
    for (const Row& row : {Row{60, UnitSystem::metric, "20 mm", 20}, Row{60, UnitSystem::us, "0.5 in", 12.7},
                           Row{60, UnitSystem::both, "20 mm (0.79 in)", 20},
                           Row{1.3, UnitSystem::metric, "0.5 mm", 0.5}, Row{1.3, UnitSystem::us, "0.02 in", 0.508},
                           Row{1000, UnitSystem::us, "2 in", 50.8}, Row{1000, UnitSystem::metric, "50 mm", 50}}) {
        CAPTURE(row.across);
        const auto bar = report::scale_bar(Millimetres{row.across}, row.units);
        REQUIRE(bar);
        CHECK(bar->words == row.words);
        CHECK(bar->length.value == doctest::Approx(row.length));
        CHECK(bar->length.value <= row.across * 0.4);
    }
    for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us, UnitSystem::both})
        CHECK_FALSE(report::scale_bar(Millimetres{1}, units));
}
