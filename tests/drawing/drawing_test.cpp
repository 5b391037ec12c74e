#include <doctest/doctest.h>

#include <set>

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

TEST_CASE("the section marks the wires that were named, no others, and hatches the seven hidden ones") {
    const StrandWords words{"2 wires broken", "2 wires dull",          "8 whole",
                            "7 hidden",       "where is not recorded", "a section"};
    struct Case {
        WireStates states;
        std::size_t marked;
        bool unplaced;
    };
    for (const Case& one : {Case{{2, 2, {}, {}}, 0, true}, Case{{2, 0, {4, 5}, {}}, 2, false},
                            Case{{2, 1, {4, 5}, {}}, 2, true}, Case{{3, 0, {12}, {}}, 1, true}}) {
        const Drawing drawing = strand_section(one.states, words);
        std::set<std::string> numbered;
        bool said = false, unplaced = false;
        for (const auto& item : drawing.items)
            if (const auto* label = std::get_if<Label>(&item)) {
                if (label->anchor == Anchor::middle) numbered.insert(label->text);
                said = said || label->text == words.broken;
                unplaced = unplaced || label->text == words.unplaced;
                CHECK(label->size >= 6.5_pt);
            }
        CHECK(numbered.size() == 12 - one.marked);  // a broken wire carries a cross in place of its number
        for (const int wire : one.states.broken_wires) CHECK(!numbered.contains(std::to_string(wire)));
        CHECK(said);
        CHECK(unplaced == one.unplaced);
        CHECK(drawing.alternative == "a section");
    }
}
