#include <doctest/doctest.h>

#include <algorithm>
#include <set>

#include "base/text.hpp"
#include "layout/laid.hpp"
#include "report/open_names.hpp"

using namespace rigdeed;
using sample::lay_out;
using sample::the_trade;

/// What somebody hears who cannot see the pages, and what leads where.
namespace {

const sample::Laid& demo() {
    static const sample::Laid laid = lay_out(std::string(RIGDEED_SOURCE_DIR) + "/demo/survey.xml", layout::a4, "en");
    return laid;
}

/// What is heard of one element and no other, page by page.
std::vector<std::string> heard(const layout::Page& page, const layout::Pages& pages, const std::string& type) {
    std::map<layout::ElementIndex, std::string> texts;
    for (const auto& item : page.items)
        if (const auto* text = std::get_if<layout::PlacedText>(&item))
            if (text->element != layout::artifact &&
                pages.structure[static_cast<std::size_t>(text->element)].type == type)
                texts[text->element] += text->text;
    std::vector<std::string> all;
    for (const auto& [element, text] : texts) all.push_back(squeezed(text));
    return all;
}

bool told(const std::vector<std::string>& texts, const std::string& text) {
    return std::find(texts.begin(), texts.end(), text) != texts.end();
}

}  // namespace

TEST_CASE("each mark of the cover's rig leads to its finding, as its line in the list does") {
    const layout::Pages& pages = demo().on.pages;
    std::size_t marks = 0;
    for (const auto& item : pages.pages.front().items) {
        const auto* link = std::get_if<layout::PlacedLink>(&item);
        if (link == nullptr || link->box.size.width.value != link->box.size.height.value) continue;
        ++marks;
        // the number in the shape under the link is the finding's that it leads to
        std::string number;
        for (const auto& other : pages.pages.front().items)
            if (const auto* text = std::get_if<layout::PlacedText>(&other))
                if (text->baseline.x > link->box.left() && text->baseline.x < link->box.right() &&
                    text->baseline.y > link->box.top() && text->baseline.y < link->box.bottom())
                    number = squeezed(text->text);
        bool there = false;
        for (const auto& other : pages.pages.at(link->page).items)
            if (const auto* text = std::get_if<layout::PlacedText>(&other))
                there = there || (squeezed(text->text) == number && std::abs((text->baseline.y - link->y).value) < 60);
        CHECK_MESSAGE(there, number, " on page ", link->page + 1);
    }
    CHECK(marks >= 17);
}

TEST_CASE("a work's number is heard, a digest is one sentence, a photo says what was seen on it") {
    const layout::Pages& pages = demo().on.pages;
    for (int item = 1; item <= 5; ++item) CHECK(told(heard(pages.pages.at(2), pages, "TD"), std::to_string(item)));
    bool digest = false;
    for (const std::string& text : heard(pages.pages.back(), pages, "P"))
        digest = digest || text.find("0000 0000 0000") != std::string::npos;
    CHECK(digest);  // of the sample: nothing but noughts
    CHECK(told(heard(pages.pages.back(), pages, "P"), "a aaaa aaaa aaaa aaaa"));
    std::set<std::string> pictures;
    for (const layout::Element& element : pages.structure)
        if (element.type == "Figure") pictures.insert(element.alternative);
    const auto says = [&](const std::string& what) {
        return std::any_of(pictures.begin(), pictures.end(),
                           [&](const std::string& one) { return one.find(what) != std::string::npos; });
    };
    CHECK(says("A0112, close: backstay, lower swaged terminal: cracks along the barrel (mouth, 2 of them, 12 mm)"));
    CHECK(says("A0112, enlarged: backstay, lower swaged terminal: cracks along the barrel"));
    CHECK(says("A0038, close: backstay, lower swaged terminal: no sign seen"));
}

TEST_CASE("who sealed it stands on the last page, with when and by what clock") {
    const std::vector<std::string> texts = heard(demo().on.pages.pages.back(), demo().on.pages, "P");
    CHECK(told(texts, "A. Surveyor"));
    CHECK(told(texts, "certificate valid until 2030-01-01"));
    CHECK(std::any_of(texts.begin(), texts.end(), [](const std::string& one) {
        return one.starts_with("sealed ") && one.ends_with("UTC by the signer's clock");
    }));
}

TEST_CASE("a signer's long name and firm stand whole within the plate's frame") {
    const std::string name = "Wilhelmina Featherstonehaugh-Cholmondeley of the Upper Harbour Yard";
    document::Document paper;
    paper.blocks.push_back(
        {document::SealPlate{{{64_pt, 64_pt}, {}, "rose"}, name, {{"firm", name + " and " + name + " and sons"}}}});
    const layout::Pages pages = layout::paginate(paper, *pdf::font_metrics(), layout::a4);
    Points bottom;
    std::string all;
    for (const auto& item : pages.pages.front().items) {
        if (const auto* shape = std::get_if<layout::PlacedShape>(&item); shape != nullptr && shape->shape.fill)
            for (const drawing::Segment& segment : shape->shape.path)
                if (const auto* line = std::get_if<drawing::LineTo>(&segment)) bottom = std::max(bottom, line->to.y);
        if (const auto* text = std::get_if<layout::PlacedText>(&item);
            text != nullptr && text->element != layout::artifact) {
            all += text->text;
            CHECK(text->baseline.y < bottom);
        }
    }
    CHECK(squeezed(all).find(name) == 0);
    CHECK(squeezed(all).find("and sons") != std::string::npos);
}

TEST_CASE("what several findings have in common is told once, with all their names; what is their own is not") {
    const auto& fittings = demo().inspected->assessment.fittings;
    const auto named = [&](const std::string& id) {
        return *std::find_if(fittings.begin(), fittings.end(), [&](const auto& one) { return one.fitting->id == id; });
    };
    const auto high = named("forestay-high"), inner = named("inner-forestay-high");
    const trade::Trade& trade = the_trade("en");
    const std::string text = "The sail shakes the forestay. Forestay, upper swaged terminal: look.";
    const std::string open = report::names_open(text, high, trade);
    CHECK(open.find("orestay") == std::string::npos);
    CHECK(report::names_filled(open, {"forestay"}, {high.name}, trade.wording)
              .starts_with("The sail shakes the forestay."));
    CHECK(report::names_open("The sail shakes the inner forestay.", inner, trade) ==
          report::names_open("The sail shakes the forestay.", high, trade));
    CHECK(report::names_filled(report::names_open("The sail shakes the forestay.", high, trade),
                               {"forestay", "inner forestay"}, {},
                               trade.wording) == "The sail shakes the forestay and inner forestay.");
    CHECK(report::names_open("by 11 %", high, trade) == "by 11 %");
}
