#include "verify/parser.hpp"

#include <doctest/doctest.h>

using namespace rigdeed::verify;

namespace {

// The text under /Contents, or the fault.
std::string contents(const std::string& value) {
    const std::string text = "<<\n/Contents " + value + "\n>>";
    Parser parser(text);
    const Object object = parser.object();
    if (parser.failed()) return "fault";
    return std::string(get<Text>(*object.as<Dict>(), "Contents")->bytes());
}

}  // namespace

TEST_CASE("words beyond ASCII stand in upper case, a signature in lower case, and neither in the other") {
    CHECK(contents("<FEFF00E1>") == std::string("\xFE\xFF\x00\xE1", 4));
    CHECK(contents("<30820aff>") == "\x30\x82\x0A\xFF");
    CHECK(contents("<FEFF00e1>") == "fault");
    CHECK(contents("<30820AFF>") == "fault");
    CHECK(contents("<FEFF00E>") == "fault");
    CHECK(contents("(page 3)") == "page 3");
}
