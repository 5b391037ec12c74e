#include <doctest/doctest.h>

#include <cmath>

#include "drawing/strand_section.hpp"
#include "drawing/verdict_shape.hpp"

using namespace rigdeed;
using namespace rigdeed::drawing;

TEST_CASE("the wires of 1x19 strand touch and do not overlap, and fill 19/25 of the circle round them (geometry)") {
    const auto places = wire_places();
    REQUIRE(places.size() == 19);
    double nearest = 100, farthest = 0;
    for (std::size_t i = 0; i < 19; ++i) {
        farthest = std::max(farthest, std::hypot(places[i].x.value, places[i].y.value) + 1);
        for (std::size_t j = i + 1; j < 19; ++j)
            nearest =
                std::min(nearest, std::hypot((places[i].x - places[j].x).value, (places[i].y - places[j].y).value));
    }
    CHECK(nearest >= 2 - 0.14);  // the inner ring stands between the outer wires of a real strand
    CHECK(farthest == doctest::Approx(4.864).epsilon(0.001));
}

TEST_CASE("each verdict has a drawing of its own") {
    std::vector<std::size_t> sizes;
    for (const auto verdict : {survey::Verdict::sound, survey::Verdict::unseen, survey::Verdict::watch,
                               survey::Verdict::rectify, survey::Verdict::renew}) {
        Drawing drawing;
        add_verdict_shape(drawing, verdict, {10_pt, 10_pt}, 8_pt, 3);
        std::size_t signature = drawing.items.size() * 100;
        for (const auto& item : drawing.items)
            if (const auto* shape = std::get_if<Shape>(&item)) signature += shape->path.size();
        for (const std::size_t other : sizes) CHECK(signature != other);
        sizes.push_back(signature);
        const auto* label = std::get_if<Label>(&drawing.items.back());
        REQUIRE(label != nullptr);
        CHECK(label->text == "3");
    }
}

TEST_CASE("the section shows as many broken and dull wires as were seen, and hatches the seven hidden ones") {
    const StrandWords words{"1 wire broken", "2 wires dull",          "9 whole",
                            "7 hidden",      "where is not recorded", "a section"};
    const Drawing drawing = strand_section({1, 2}, words);
    std::size_t numbered = 0;
    bool said = false;
    for (const auto& item : drawing.items)
        if (const auto* label = std::get_if<Label>(&item)) {
            numbered += label->anchor == Anchor::middle ? 1U : 0U;
            said = said || label->text == "1 wire broken";
        }
    CHECK(numbered == 11);
    CHECK(said);
    CHECK(drawing.alternative == "a section");
}
