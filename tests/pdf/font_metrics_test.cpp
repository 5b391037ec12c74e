#include "pdf/font_metrics.hpp"

#include <doctest/doctest.h>

#include "base/error.hpp"

using namespace rigdeed;
using layout::Face;

TEST_CASE("widths are the fonts' advances, digits all the same") {
    const auto metrics = pdf::font_metrics();
    CHECK(metrics->width("", Face::regular, 10_pt).value == 0);
    CHECK(metrics->width("0", Face::regular, 1000_pt).value == doctest::Approx(580));
    for (const char* digit : {"1", "4", "7"})
        CHECK(metrics->width(digit, Face::bold, 10_pt) == metrics->width("0", Face::bold, 10_pt));
    CHECK(metrics->width("ab", Face::light, 10_pt).value ==
          doctest::Approx((metrics->width("a", Face::light, 10_pt) + metrics->width("b", Face::light, 10_pt)).value));
}

TEST_CASE("a character that Lato lacks has the width of the other font") {
    const auto metrics = pdf::font_metrics();
    CHECK(metrics->width("✓", Face::regular, 100_pt).value == doctest::Approx(83.8).epsilon(0.01));
}

TEST_CASE("characters without a glyph are named once each") {
    const auto metrics = pdf::font_metrics();
    CHECK(metrics->missing("Résumé ≥ Ω ✓ ⚠ Жё").empty());
    CHECK(metrics->missing("a\xF0\x93\x80\x80"
                           "b\xF0\x93\x80\x80") == "\xF0\x93\x80\x80");
    CHECK(metrics->missing("two\nlines") == "\n");
    CHECK_THROWS_AS((void)metrics->missing("\xFF"), Error);
}
