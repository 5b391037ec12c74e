#include "drawing/svg.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "base/xml.hpp"
#include "drawing/palette.hpp"
#include "drawing/paths.hpp"
#include "drawing/schematic.hpp"
#include "drawing/verdict_shape.hpp"
#include "trade/trade.hpp"

using namespace rigdeed;
using namespace rigdeed::drawing;

namespace {

xml::Element parsed(const std::string& text) {
    auto reading = xml::read(text, "drawing.svg");
    for (const Problem& problem : reading.problems) MESSAGE(problem.what);
    REQUIRE(reading.root);
    return std::move(*reading.root);
}

}  // namespace

TEST_CASE("a drawing as SVG has its shapes and words in their order, and nothing a page would run") {
    Drawing drawing;
    drawing.size = {100_pt, 50_pt};
    drawing.items = {Shape{line({1_pt, 2_pt}, {3.456_pt, 4_pt}), Stroke{0.9_pt, vermilion, {2_pt, 1.5_pt}}, {}, 0.5},
                     Shape{polygon({{0_pt, 0_pt}, {9_pt, 0_pt}, {9_pt, 9_pt}}), {}, black_20, 1},
                     Label{{5_pt, 6_pt}, "</text><script>\"a\" & b</script>", 7_pt, true, black, Anchor::right}};
    drawing.alternative = "a \"line\" <img>";
    const xml::Element root = parsed(svg(drawing, Ink::as_drawn));
    CHECK(root.get("viewBox") == "0 0 100 50");
    CHECK(root.get("aria-label") == drawing.alternative);
    REQUIRE(root.children.size() == 3);
    CHECK(root.children[0].get("d") == "M1 2L3.46 4");
    CHECK(root.children[0].get("stroke") == "#d55e00");
    CHECK(root.children[0].get("stroke-dasharray") == "2 1.5");
    CHECK(root.children[0].get("fill") == "none");
    CHECK(root.children[0].get("opacity") == "0.5");
    CHECK(root.children[1].get("fill") == "#cccccc");
    CHECK(root.children[2].text == "</text><script>\"a\" & b</script>");
    CHECK(root.children[2].get("text-anchor") == "end");
    const xml::Element paged = parsed(svg(drawing, Ink::of_page));
    CHECK(paged.children[0].get("stroke") == "#d55e00");
    CHECK(paged.children[1].get("fill") == "currentColor");
    CHECK(paged.children[1].get("fill-opacity") == "0.2");
    CHECK(paged.children[2].get("fill") == "currentColor");
}

TEST_CASE("every schematic and verdict shape is good SVG of paths and texts alone") {
    const trade::Trade trade = trade::load_trade();
    for (const std::string& name : schematic_names()) {
        const auto one = schematic(name, [&](std::string_view key) { return trade.wording(key); });
        REQUIRE(one);
        const xml::Element root = parsed(svg_symbol(one->drawing, Ink::of_page, "schematic-" + name));
        CHECK(root.name == "symbol");
        const auto drawn = std::count_if(one->drawing.items.begin(), one->drawing.items.end(), [](const auto& item) {
            const auto* shape = std::get_if<Shape>(&item);
            return shape == nullptr || (!shape->path.empty() && (shape->fill || shape->stroke));
        });
        CHECK(static_cast<long>(root.children.size()) == drawn);
        for (const xml::Element& child : root.children)
            CHECK_MESSAGE((child.name == "path" || child.name == "text"), name, ": ", child.name);
    }
    for (const survey::Verdict verdict : survey::worst_first) {
        Drawing drawing;
        drawing.size = {24_pt, 24_pt};
        add_verdict_shape(drawing, verdict, {12_pt, 12_pt}, 8_pt, 0);
        CHECK(!parsed(svg(drawing, Ink::as_drawn)).children.empty());
    }
}
