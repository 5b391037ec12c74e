#include "base/xml.hpp"

#include <doctest/doctest.h>

using namespace rigdeed;

namespace {
Problem refusal(const std::string& text) {
    const auto reading = xml::read(text, "t.xml");
    REQUIRE_MESSAGE(!reading.root, text);
    REQUIRE(!reading.problems.empty());
    return reading.problems.front();
}
}  // namespace

TEST_CASE("elements and attributes carry their lines") {
    const auto reading =
        xml::read("<?xml version=\"1.0\"?>\r\n<a\n  b=\"1\"\n  c=\"x &amp; &#228;\">\n<d/>text</a>\n", "t.xml");
    REQUIRE(reading.root);
    CHECK(reading.root->line == 2);
    CHECK(reading.root->find("b")->line == 3);
    CHECK(reading.root->find("c")->line == 4);
    CHECK(reading.root->get("c") == "x & ä");
    CHECK(reading.root->children.at(0).line == 5);
    CHECK(reading.root->text.find("text") != std::string::npos);
}

TEST_CASE("what the parser would let pass is refused") {
    CHECK(refusal("<a b='1' b='2'/>").what.find("twice") != std::string::npos);
    CHECK(refusal("<a/><b/>").what.find("second root") != std::string::npos);
    CHECK(refusal("junk<a/>").what.find("outside") != std::string::npos);
    CHECK(refusal("<a/>junk").what.find("outside") != std::string::npos);
    CHECK(refusal("<!DOCTYPE a [<!ENTITY x 'y'>]><a>&x;</a>").what.find("DOCTYPE") != std::string::npos);
    CHECK(refusal("<a>\xC3\x28</a>").what.find("UTF-8") != std::string::npos);
    CHECK(refusal("<?xml version='1.1'?><a/>").what.find("1.0") != std::string::npos);
    CHECK(refusal("<?xml version='1.0' encoding='ISO-8859-1'?><a/>").what.find("UTF-8") != std::string::npos);
    CHECK(refusal("<a>&#4294967361;</a>").what.find("no usable character") != std::string::npos);
    CHECK(refusal("<a>&#0;</a>").what.find("no usable character") != std::string::npos);
    CHECK(refusal("<a>&#xD800;</a>").what.find("no usable character") != std::string::npos);
    CHECK(refusal("<a>&#8238;</a>").what.find("no usable character") != std::string::npos);
    CHECK(refusal("<a b='\xE2\x80\xAE'/>").what.find("U+202E") != std::string::npos);
    CHECK(refusal("<a>&nbsp;</a>").what.find("unknown entity") != std::string::npos);
    CHECK(refusal("<a b='x & y'/>").what.find("no entity") != std::string::npos);
    CHECK(refusal("<a b='<'/>").what.find("<") != std::string::npos);
    CHECK(refusal("<x:a/>").what.find("prefix") != std::string::npos);
    CHECK(refusal("<a><?php x ?></a>").what.find("processing") != std::string::npos);
    CHECK(refusal("<a><!-- ").what.find("not closed") != std::string::npos);
    CHECK(refusal("<a>").what.find("ends inside") != std::string::npos);
    CHECK(refusal("").what.find("no element") != std::string::npos);
    CHECK(refusal(std::string("<a>\0</a>", 8)).what.find("U+0000") != std::string::npos);
}

TEST_CASE("nesting stops at 32, however deep the file goes") {
    std::string deep, fine;
    for (int i = 0; i < 200000; ++i) deep += "<a>";
    CHECK(refusal(deep).what.find("nested") != std::string::npos);
    for (int i = 0; i < 32; ++i) fine += "<a>";
    for (int i = 0; i < 32; ++i) fine += "</a>";
    CHECK(xml::read(fine, "t.xml").root);
}

TEST_CASE("a problem names the line it is in") {
    CHECK(refusal("<a>\n\n&bad;</a>").at.line == 3);
    CHECK(refusal("<a>\n\xFF</a>").at.line == 2);
}

TEST_CASE("escaped text reads back as it was") {
    const std::string text = "a<b>&\"c'\n\td";
    const auto reading = xml::read("<a b=\"" + xml::escaped(text) + "\"/>", "t.xml");
    REQUIRE(reading.root);
    CHECK(reading.root->get("b") == text);
}
