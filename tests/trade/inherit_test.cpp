#include "trade/inherit.hpp"

#include <doctest/doctest.h>

#include "base/problem.hpp"

using namespace rigdeed;

namespace {

/// A template of the user's own, with what it does not say taken from ours.
xml::Element inherited(const std::string& text) {
    auto [root, problems] = xml::read(text, "own.xml");
    REQUIRE(root);
    trade::inherit(*root);
    return std::move(*root);
}

std::string value(const xml::Element& element, std::string_view attribute) {
    return element.get(attribute).value_or("absent");
}

}  // namespace

TEST_CASE("a kind of ours in a file of the user's stays what it is, and so do its signs by their codes") {
    const xml::Element kinds =
        inherited(R"(<kinds><kind id="swaged-terminal"><sign code="crack-along"/><sign code="own"/></kind>)"
                  R"(<kind id="strand" is="line"><sign code="wire-broken"/></kind><kind id="spreader-tip"/></kinds>)");
    const xml::Element& terminal = kinds.children.at(0);
    CHECK(value(terminal, "is") == "terminal");
    CHECK(value(terminal.children.at(0), "is") == "crack");
    CHECK(value(terminal.children.at(1), "is") == "absent");
    CHECK(value(kinds.children.at(1), "is") == "line");
    CHECK(value(kinds.children.at(1).children.at(0), "is") == "broken-wire");
    CHECK(value(kinds.children.at(2), "stands") == "spreader-tip");
}

TEST_CASE("a sign of a new kind is what it is on our kinds that are the same, and on others nothing") {
    const xml::Element kinds =
        inherited(R"(<kinds><kind id="wedge-socket" is="terminal"><sign code="crack-across"/></kind>)"
                  R"(<kind id="ladder"><sign code="crack-across"/></kind></kinds>)");
    CHECK(value(kinds.children.at(0).children.at(0), "is") == "crack");
    CHECK(value(kinds.children.at(1).children.at(0), "is") == "absent");
}

TEST_CASE("a role or a material keeps what a file of the user's does not say; what it says counts") {
    const xml::Element roles = inherited(R"(<roles><role id="cap-shroud"/><role id="running-backstay" pairs="yes"/>)"
                                         R"(<role id="backstay" foot="hull"/><role id="of-my-own"/></roles>)");
    CHECK(value(roles.children.at(0), "over-tips") == "all");
    CHECK(value(roles.children.at(1), "pairs") == "yes");
    CHECK(value(roles.children.at(1), "along") == "86 %");
    CHECK(value(roles.children.at(2), "along") == "absent");
    CHECK(roles.children.at(3).attributes.size() == 1);
    const xml::Element materials =
        inherited(R"(<materials><material id="304"/><material id="316"/><material id="304" now="316L"/></materials>)");
    CHECK(value(materials.children.at(0), "now") == "316");
    CHECK(value(materials.children.at(1), "calculated") == "yes");
    CHECK(value(materials.children.at(2), "now") == "316L");
}
