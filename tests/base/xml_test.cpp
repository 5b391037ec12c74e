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

TEST_CASE("characters that nobody sees are refused, as they are and by reference") {
    for (const char* hidden :
         {"\xE2\x80\x8B", "\xE2\x80\x8D", "\xE2\x81\xAA", "\xC2\xAD", "\xEF\xB8\x8F", "&#x200B;", "&#x206A;"}) {
        CAPTURE(hidden);
        CHECK_FALSE(xml::read("<a b=\"x" + std::string(hidden) + "\"/>", "x.xml").root);
    }
}

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
    CHECK(refusal("<a><!--></a>").what.find("not closed") != std::string::npos);
    CHECK(refusal("<a><![CDATA[]></a>").what.find("not closed") != std::string::npos);
    CHECK(refusal("<?xml version='1.0' encoding=?><a/>").what.find("UTF-8") != std::string::npos);
    CHECK(refusal("<?xml version='1.0' encoding").what.find("declaration") != std::string::npos);
    CHECK(refusal("<?xml version='1.0' encoding?><a/>").what.find("UTF-8") != std::string::npos);
    CHECK(refusal("<?xml version='1.0' encoding='utf-88'?><a/>").what.find("UTF-8") != std::string::npos);
    CHECK(refusal("<a>").what.find("still open") != std::string::npos);
    CHECK(refusal("").what.find("no element") != std::string::npos);
    CHECK(refusal(std::string("<a>\0</a>", 8)).what.find("not a text file") != std::string::npos);
    CHECK(refusal("<a>\x03</a>").what.find("U+0003") != std::string::npos);
}

TEST_CASE("a mistake of typing is told where it was made, with what to write") {
    const Problem open = refusal("<a>\n<b>\n<c/>\n</a>");
    CHECK(open.at.line == 2);
    CHECK(open.what.find("<b> is not closed: </a> of line 4") != std::string::npos);
    const Problem cut = refusal("<a>\n<b>\n<c/>\n");
    CHECK(cut.what.find("<b> of line 2 is still open") != std::string::npos);
    CHECK(refusal("<a>\n</b>\n</a>").what.find("</b> has no start tag") != std::string::npos);
    const Problem quote = refusal("<a b=\"5/16\"\" c=\"1\"/>");
    CHECK(quote.what.find("stray quote") != std::string::npos);
    CHECK(quote.hint.find("5/16 in") != std::string::npos);
    CHECK(refusal("<a>gap <1 mm</a>").hint.find("&lt;") != std::string::npos);
    CHECK(refusal("PK\x03\x04rest").what.find("not a text file but a zip") != std::string::npos);
    CHECK(refusal("{\\rtf1 text}").what.find("word processor") != std::string::npos);
    CHECK(refusal("\xFF\xFE<").what.find("UTF-16") != std::string::npos);
}

TEST_CASE("nesting stops at 32, however deep the file goes") {
    std::string deep, fine;
    for (int i = 0; i < 200000; ++i) deep += "<a>";
    CHECK(refusal(deep).what.find("nested") != std::string::npos);
    for (int i = 0; i < 32; ++i) fine += "<a>";
    for (int i = 0; i < 32; ++i) fine += "</a>";
    CHECK(xml::read(fine, "t.xml").root);
}

TEST_CASE("no comment hides depth from the one who counts it") {
    std::string deep = "<r><!-->", closed = "<r><!-->-->";
    for (int i = 0; i < 100000; ++i) deep += "<a>", closed += "<a>";
    const auto reading = xml::read(deep + "--></r>", "t.xml");
    REQUIRE(reading.root);
    CHECK(reading.root->children.empty());
    CHECK(refusal(closed).what.find("nested") != std::string::npos);
}

TEST_CASE("amounts have an end that is told") {
    const auto many = [](int count, const std::string& before, const std::string& after) {
        std::string text = before;
        for (int i = 0; i < count; ++i) text += after + std::to_string(i) + "=''";
        return text + "/>";
    };
    CHECK(xml::read(many(64, "<a", " b"), "t.xml").root);
    CHECK(refusal(many(300000, "<a", " b")).what == "more than 64 attributes in one element");
    std::string wide = "<a>";
    for (int i = 0; i < 199999; ++i) wide += "<b/>";
    CHECK(xml::read(wide + "</a>", "t.xml").root);
    CHECK(refusal(wide + "\n<b/></a>").what == "more than 200000 elements");
    CHECK(refusal(wide + "\n<b/></a>").at.line == 2);
}

TEST_CASE("elements, attributes and comments know where they stand") {
    for (const std::string mark : {"", "\xEF\xBB\xBF"}) {
        const std::string text =
            mark +
            "<?xml version='1.0' encoding = 'utf-8' ?><!--one--><a>\r\n <b c=\"&#65;\" d = ''/>x<e ></e><!---->"
            "</a>";
        const auto reading = xml::read(text, "t.xml");
        REQUIRE(reading.root);
        const auto piece = [&](std::size_t from, std::size_t to) { return text.substr(from, to - from); };
        const xml::Element& b = reading.root->children.at(0);
        const xml::Element& e = reading.root->children.at(1);
        CHECK(piece(b.span.at, b.span.end) == "<b c=\"&#65;\" d = ''/>");
        CHECK_FALSE(b.span.has_end_tag());
        CHECK(piece(b.find("c")->at, b.find("c")->end) == "c=\"&#65;\"");
        CHECK(piece(b.find("d")->quote, b.find("d")->end) == "''");
        CHECK(e.span.has_end_tag());
        CHECK(piece(e.span.at, e.span.content) == "<e >");
        CHECK(piece(e.span.content_end, e.span.end) == "</e>");
        CHECK(reading.root->span.end == text.size());
        const auto comments = xml::comments(text);
        REQUIRE(comments.size() == 2);
        CHECK(piece(comments[0].at, comments[0].end) == "<!--one-->");
        CHECK(piece(comments[1].at, comments[1].end) == "<!---->");
    }
}

TEST_CASE("character references are resolved, other text stays") {
    CHECK(xml::resolved("a&#228;b&#xE4;&#x0000E4;&amp;&#;&#zz;&#1114112;&#") == "aäbää&amp;&#;&#zz;&#1114112;&#");
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
    const auto single = xml::read("<a b='" + xml::escaped(text, '\'') + "'/>", "t.xml");
    REQUIRE(single.root);
    CHECK(single.root->get("b") == text);
    CHECK(xml::escaped("\"'", '\'') == "\"&apos;");
}
