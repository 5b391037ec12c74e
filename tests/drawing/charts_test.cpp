#include "drawing/charts.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace rigdeed;
using namespace rigdeed::drawing;

namespace {

bool says(const Drawing& drawing, const std::string& text) {
    for (const auto& item : drawing.items)
        if (const auto* label = std::get_if<Label>(&item))
            if (label->text.find(text) != std::string::npos) return true;
    return false;
}

/// Widths of the filled bars, in drawing order.
std::vector<double> bars(const Drawing& drawing, double height) {
    std::vector<double> widths;
    for (const auto& item : drawing.items)
        if (const auto* shape = std::get_if<Shape>(&item); shape != nullptr && shape->fill && shape->stroke) {
            const Point a = std::get<MoveTo>(shape->path[0]).to, c = std::get<LineTo>(shape->path[2]).to;
            if (std::abs((c.y - a.y).value - height) < 0.01) widths.push_back((c.x - a.x).value);
        }
    return widths;
}

}  // namespace

TEST_CASE("bars of a chain are as long as their loads, and what was not measured has no length") {
    const std::vector<ChainLink> links{{"tang", "", 52.4, "52.4", "1.36", {51.3}, false},
                                       {"terminal", "", std::nullopt, "", "–", {}, false},
                                       {"strand", "", 26.2, "26.2", "0.68", {}, true}};
    const Drawing drawing =
        chain_chart(links, 38.6, 493_pt, {"strand 38.6", "of the strand", "not measured", "weakest", "chain"});
    const auto widths = bars(drawing, 9);
    REQUIRE(widths.size() == 2);
    CHECK(widths[0] / widths[1] == doctest::Approx(2.0));
    CHECK(says(drawing, "not measured"));
    CHECK(says(drawing, "weakest"));
    CHECK(says(drawing, "strand 38.6"));
}

TEST_CASE("an age by word only is a dashed bar, an unknown one is none") {
    const std::vector<AgeBar> ages{
        {"a", 5.0, "5 y", "invoice", true}, {"b", 10.0, "10 y", "owner", false}, {"c", std::nullopt, "?", "", false}};
    const Drawing drawing = age_chart(ages, {7, 10, 20, "10: custom"}, 493_pt, "ages");
    const auto widths = bars(drawing, 6.4);
    REQUIRE(widths.size() == 2);
    CHECK(widths[1] / widths[0] == doctest::Approx(2.0));
    std::size_t dashed = 0;
    for (const auto& item : drawing.items)
        if (const auto* shape = std::get_if<Shape>(&item);
            shape != nullptr && shape->fill && shape->stroke && !shape->stroke->dash.empty())
            ++dashed;
    CHECK(dashed == 1);
}

TEST_CASE("port and starboard mirrored give the same lengths") {
    const auto drawn = [](double port, double starboard) {
        return bars(
            tension_chart({{"cap", port, starboard}}, {10, 20, 25}, 493_pt, {"port", "starboard", "not measured", "t"}),
            7.4);
    };
    const auto one = drawn(12, 18), other = drawn(18, 12);
    REQUIRE(one.size() == 2);
    CHECK(one[0] == doctest::Approx(other[1]));
    CHECK(one[1] == doctest::Approx(other[0]));
    CHECK(one[1] / one[0] == doctest::Approx(1.5));
}
