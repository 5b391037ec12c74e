#include "base/unit.hpp"

#include <doctest/doctest.h>

#include <array>
#include <limits>

#include "base/error.hpp"

using namespace rigdeed;

TEST_CASE("US units by their exact definitions (NIST SP 811, appendix B.8)") {
    CHECK(in_us(25.4, Unit::millimetre, 2).value == 1);
    CHECK(in_us(0.0044482216152605, Unit::kilonewton, 2).value == 1);
    CHECK(in_us(0.45359237, Unit::kilogram, 0).value == 1);
    CHECK(in_us(1.3558179483314004, Unit::newton_metre, 0).value == 1);
    CHECK(in_us(1, Unit::stress, 1).value == doctest::Approx(145.0377377).epsilon(1e-9));
    CHECK(in_us(645.16, Unit::square_millimetre, 1).value == doctest::Approx(1).epsilon(1e-15));
}

TEST_CASE("units round-trip: what is printed in US units reads back as the same quantity") {
    struct Row {
        Unit unit;
        Measure measure;
        const char* symbol;  ///< as a survey file spells it
    };
    const std::array rows{Row{Unit::millimetre, Measure::length, "in"}, Row{Unit::kilonewton, Measure::force, "lbf"},
                          Row{Unit::kilogram, Measure::mass, "lb"}, Row{Unit::newton_metre, Measure::moment, "ft lbf"},
                          Row{Unit::degree, Measure::angle, "°"}};
    for (const Row& row : rows)
        for (const double value : {0.37, 1.0, 12.7, 50.43, 8182.25}) {
            const Shown shown = in_us(value, row.unit, 2);
            const auto back = read_measure(fixed(shown.value, 15) + " " + row.symbol, row.measure);
            REQUIRE(back.value);
            CHECK(back.value->value == doctest::Approx(value).epsilon(1e-12));
        }
}

TEST_CASE("kilograms-force and pounds-force agree with the newton (NIST SP 811: 9.80665 and 4.448 221 615 260 5)") {
    const auto value = [](const char* text) { return read_measure(text, Measure::force).value->value; };
    CHECK(value("1000 kgf") == doctest::Approx(9.80665).epsilon(1e-12));
    CHECK(value("1000 lbf") == doctest::Approx(4.4482216152605).epsilon(1e-12));
    CHECK(value("1 kgf") / value("1 lbf") == doctest::Approx(9.80665 / 4.4482216152605).epsilon(1e-12));
    CHECK(read_measure("1852 km", Measure::distance).value->value == doctest::Approx(1000).epsilon(1e-12));
}

TEST_CASE("a figure is printed in metric units, in US units, or in both") {
    CHECK(printed(50.43, Unit::kilonewton, 2, UnitSystem::metric) == "50.43 kN");
    CHECK(printed(50.43, Unit::kilonewton, 2, UnitSystem::us) == "11337 lbf");
    CHECK(printed(50.43, Unit::kilonewton, 2, UnitSystem::both) == "50.43 kN (11337 lbf)");
    CHECK(printed(12, Unit::degree, 1, UnitSystem::both) == "12.0°");
    CHECK(printed(6.35, Unit::millimetre, 2, UnitSystem::us) == "0.2500 in");
}

TEST_CASE("infinity and NaN do not get printed in any unit") {
    for (const double bad : {std::numeric_limits<double>::infinity(), std::numeric_limits<double>::quiet_NaN()})
        for (const UnitSystem system : {UnitSystem::metric, UnitSystem::us, UnitSystem::both})
            CHECK_THROWS_AS((void)printed(bad, Unit::millimetre, 2, system), Error);
}
