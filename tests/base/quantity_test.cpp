#include "base/quantity.hpp"

#include <doctest/doctest.h>

#include <clocale>

#include "base/error.hpp"

using namespace rigdeed;

namespace {
double value(std::string_view text, Measure measure) {
    const auto reading = read_measure(text, measure);
    REQUIRE_MESSAGE(reading.value.has_value(), reading.error.what);
    return reading.value->value;
}
std::string refusal(std::string_view text, Measure measure) {
    const auto reading = read_measure(text, measure);
    CHECK_MESSAGE(!reading.value, text);
    return reading.error.what;
}
}  // namespace

TEST_CASE("units are converted by their exact definitions (NIST SP 811, appendix B.8)") {
    CHECK(value("1 in", Measure::length) == 25.4);
    CHECK(value("1 ft", Measure::length) == 304.8);
    CHECK(value("12.4 m", Measure::length) == 12400);
    CHECK(value("1 kgf", Measure::force) == doctest::Approx(0.00980665).epsilon(1e-12));
    CHECK(value("1 lbf", Measure::force) == doctest::Approx(4.4482216152605e-3).epsilon(1e-13));
    CHECK(value("1 lb", Measure::mass) == 0.45359237);
    CHECK(value("1 ft lbf", Measure::moment) == doctest::Approx(1.3558179483314004).epsilon(1e-15));
    CHECK(value("18 deg", Measure::angle) == 18);
    CHECK(value("18°", Measure::angle) == 18);
}

TEST_CASE("inch fractions are read, with and without whole inches") {
    CHECK(value("5/16 in", Measure::length) == doctest::Approx(7.9375));
    CHECK(value("1 1/4 in", Measure::length) == doctest::Approx(31.75));
    CHECK(value("20 1/2 ft", Measure::length) == doctest::Approx(20.5 * 304.8));
}

TEST_CASE("what is no plain number with a fitting unit is refused") {
    CHECK(refusal("8", Measure::length).find("unit is missing") != std::string::npos);
    CHECK(refusal("12,4 m", Measure::length).find("comma") != std::string::npos);
    CHECK(refusal("8 kg", Measure::length).find("does not fit") != std::string::npos);
    for (const char* text : {"", "m", "nan m", "inf m", "0x1p4 m", "7abc", "1e3 m", "1. m", ".5 m", "+1 m", "1/0 in",
                             "1/ in", "/2 in", "1 2 m", "--1 m", "1/2/3 in", "1-2 m"})
        refusal(text, Measure::length);
}

TEST_CASE("the hint for a decimal comma shows the value with a point") {
    CHECK(read_measure("12,4 m", Measure::length).error.hint == "write \"12.4 m\"");
}

TEST_CASE("numbers are printed with a point, without minus zero, and never as NaN") {
    CHECK(fixed(1234.5, 2) == "1234.50");
    CHECK(fixed(-0.001, 2) == "0.00");
    CHECK(fixed(-1.25, 1).front() == '-');
    CHECK_THROWS_AS((void)fixed(1.0 / 0.0 * 0.0, 2), Error);
}

TEST_CASE("the locale changes neither reading nor printing") {
    if (std::setlocale(LC_ALL, "de_DE.UTF-8") == nullptr) std::setlocale(LC_ALL, "C");
    CHECK(value("12.4 m", Measure::length) == 12400);
    CHECK(fixed(12.5, 1) == "12.5");
    std::setlocale(LC_ALL, "C");
}
