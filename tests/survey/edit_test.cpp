#include "survey/edit.hpp"

#include <algorithm>
#include <filesystem>
#include <functional>
#include <random>

#include "base/error.hpp"
#include "base/file.hpp"
#include "survey/sample.hpp"
#include "survey/splices.hpp"
#include "temporary.hpp"

using namespace rigdeed;
using namespace rigdeed::survey;
using sample::replaced;

namespace {

xml::Element root_of(const std::string& text) {
    auto reading = xml::read(text, "s.xml");
    REQUIRE(reading.root);
    return std::move(*reading.root);
}

std::string edited(const std::string& text, const std::vector<Edit>& edits) {
    const Edited result = edit(text, "s.xml", edits);
    for (const Problem& problem : result.problems) MESSAGE(problem.at.text(), ": ", problem.what);
    REQUIRE(result.text);
    CHECK(spliced(*result.text, result.undo) == text);
    return *result.text;
}

std::size_t place_of(const std::string& text, const std::string& id) {
    const xml::Element root = root_of(text);
    const xml::Element* element = element_with_id(root, id);
    REQUIRE(element != nullptr);
    return element->span.at;
}

xml::Element element(const std::string& name, const std::vector<std::pair<std::string, std::string>>& attributes,
                     std::vector<xml::Element> children = {}, const std::string& words = {}) {
    xml::Element made;
    made.name = name;
    for (const auto& [attribute, value] : attributes) {
        made.attributes.emplace_back();
        made.attributes.back().name = attribute;
        made.attributes.back().value = value;
    }
    made.children = std::move(children);
    made.text = words;
    return made;
}

xml::Element new_seen() {
    return element("seen", {{"pass", "up"}, {"at", "09:00"}, {"far", "N1"}, {"close", "N2"}},
                   {element("sign", {{"code", "crack"}}, {}, "\"Two\" <fine> lines.")});
}

std::vector<std::string> surveys() {
    std::vector<std::string> texts{sample::text_of("demo/survey.xml")};
    for (const auto& entry :
         std::filesystem::recursive_directory_iterator(std::string(RIGDEED_SOURCE_DIR) + "/fixtures"))
        if (entry.path().extension() == ".xml") {
            std::string text = sample::text_of(std::filesystem::relative(entry.path(), RIGDEED_SOURCE_DIR).string());
            if (read_survey(text, "s.xml").survey) texts.push_back(std::move(text));
        }
    return texts;
}

std::string with_line_ends(const std::string& text, const std::string& line_end) {
    std::string result;
    for (const char c : text)
        if (c == '\n') result += line_end;
        else result += c;
    return result;
}

/// The same survey as other hands would have written it.
std::vector<std::string> spellings(const std::string& text) {
    std::string single = text, commented, flat, open;
    if (text.find('\'') == std::string::npos) std::replace(single.begin(), single.end(), '"', '\'');
    for (std::size_t i = 0; i < text.size(); ++i) {
        commented += text[i];
        if (text[i] == '\n' && i + 1 < text.size() && i > text.find("<rig-survey"))
            commented += "  <!-- <seen pass=\"up\"/> \"it's\" -->\n";
        if (text[i] != '\n') flat += text[i];
    }
    return {text,
            with_line_ends(text, "\r\n"),
            "\xEF\xBB\xBF" + with_line_ends(text, "\r\n"),
            single,
            commented,
            flat,
            with_line_ends(text, "\n\t"),
            with_line_ends(commented, " \n")};
}

std::vector<const xml::Element*> all_elements(const xml::Element& root) {
    std::vector<const xml::Element*> all{&root};
    for (std::size_t i = 0; i < all.size(); ++i)
        for (const xml::Element& child : all[i]->children) all.push_back(&child);
    return all;
}

/// An edit's splices alone: what would come out need not be a survey.
std::string changed(const std::string& text, const Edit& wanted) {
    const xml::Reading read = xml::read(text, "s.xml");
    REQUIRE(read.root);
    Problems problems;
    const auto splices = Splicer(text, "s.xml", *read.root).run({wanted}, problems);
    REQUIRE(problems.empty());
    return spliced(text, splices);
}

/// What an edit came to, undone by the edit that is its inverse.
void there_and_back(const std::string& text, const Edit& there, const std::function<Edit(const std::string&)>& back) {
    const std::string after = changed(text, there);
    REQUIRE(xml::read(after, "s.xml").root);
    CHECK(after != text);
    CHECK(changed(after, back(after)) == text);
}

/// Written as "<a></a>": the one thing that taking out what was put in writes as "<a/>".
bool empty_with_end_tag(const std::string& text, const xml::Element& element) {
    const auto content = text.substr(element.span.content, element.span.content_end - element.span.content);
    return element.span.has_end_tag() && content.find_first_not_of(" \t\r\n") == std::string::npos;
}

void check_attributes(const std::string& text, const xml::Element& one) {
    const std::size_t at = one.span.at;
    there_and_back(text, SetAttribute{at, "new-one", "\"x\" & 'y'"}, [&](const std::string&) {
        return TakeAttribute{at, "new-one"};
    });
    if (one.attributes.empty()) return;
    const xml::Attribute& last = one.attributes.back();
    there_and_back(text, SetAttribute{at, last.name, last.value + "'\""}, [&](const std::string&) {
        return SetAttribute{at, last.name, last.value};
    });
    if (one.attributes.size() == 1) return;
    there_and_back(text, TakeAttribute{at, last.name}, [&](const std::string&) {
        return SetAttribute{at, last.name, last.value};
    });
}

void check_pieces(const std::string& text, const xml::Element& one, const xml::Element& root) {
    for (const Where where : {Where::before, Where::after, Where::last_in}) {
        if (where == Where::last_in && empty_with_end_tag(text, one)) continue;
        there_and_back(text, AddComment{where, one.span.at, "new-one"},
                       [](const std::string& after) { return TakeComment{after.find("<!--new-one")}; });
        if (where != Where::last_in && &one == &root) continue;
        there_and_back(text, AddElement{where, one.span.at, element("new-one", {{"a", "b"}}, {new_seen()})},
                       [](const std::string& after) { return TakeElement{after.find("<new-one")}; });
    }
}

}  // namespace

TEST_CASE("an edit followed by its inverse gives the same bytes") {
    std::mt19937 random(1);
    std::size_t checked = 0;
    for (const std::string& survey : surveys())
        for (const std::string& text : spellings(survey)) {
            const xml::Element root = root_of(text);
            auto all = all_elements(root);
            std::shuffle(all.begin(), all.end(), random);
            if (all.size() > 12) all.resize(12);
            for (const xml::Element* one : all) {
                check_attributes(text, *one);
                check_pieces(text, *one, root);
                ++checked;
            }
        }
    CHECK(checked > 1000);
}

TEST_CASE("every fitting taken out, in every spelling, comes back by undo") {
    for (const std::string& text : spellings(sample::text_of("fixtures/spellings/survey.xml"))) {
        const xml::Element root = root_of(text);
        std::vector<Edit> edits;
        const auto& fittings = root.child("fittings")->children;
        for (std::size_t i = 1; i < fittings.size(); ++i) edits.emplace_back(TakeElement{fittings[i].span.at});
        const std::string after = edited(text, edits);
        CHECK(root_of(after).child("fittings")->children.size() == 1);
        CHECK(after.find("\n\n") == text.find("\n\n"));
    }
}

TEST_CASE("a value is set in the quotes that are there and escaped for them") {
    const std::string text = replaced(sample::complete(), "place=\"", "place = 'x &#228;' because=\"");
    const std::size_t at = root_of(text).child("attendance")->span.at;
    CHECK(edited(text, {SetAttribute{at, "place", "x ä"}}) == text);
    CHECK(edited(text, {SetAttribute{at, "place", "Row's \"4\" & <5>"}}) ==
          replaced(text, "'x &#228;'", "'Row&apos;s \"4\" &amp; &lt;5&gt;'"));
    const std::string taken = edited(text, {TakeAttribute{at, "because"}, SetAttribute{at, "place", "y"}});
    CHECK(taken.find("because", at) > taken.find("<photos"));
}

TEST_CASE("what is added follows the lines, the indentation and the line ends of its neighbours") {
    const std::string head =
        "<rig-survey xmlns=\"urn:rigdeed:survey:1\" number=\"T\" purpose=\"periodic\">\r\n\t<surveyor "
        "name='S'/>\r\n\t<client name=\"C\" role=\"owner\"/><yacht name=\"Y\" rig=\"cat\" "
        "mast=\"aluminium\" loa=\"9 m\"/>\r\n\t<attendance on=\"2026-10-03\" place=\"P\" "
        "climbed=\"yes\"/>\r\n\t<photos folder=\"photos\"/>\r\n\t<rig/>\r\n\t<fittings>\r\n";
    const std::string fitting =
        "\t\t<fitting id=\"a\" kind=\"mast-step\"\r\n\t\t         station=\"deck\"\r\n\t\t         "
        "height=\"1 m\"";
    const std::string tail = "\r\n\t</fittings>\r\n</rig-survey>\r\n";
    const std::string text = head + fitting + "/> <!-- by the step -->" + tail;
    const std::size_t at = place_of(text, "a");
    CHECK(edited(text, {AddElement{Where::last_in, at, new_seen()}, AddComment{Where::last_in, at, " seen "},
                        SetAttribute{at, "metal", "316"}}) ==
          head + fitting +
              "\r\n\t\t         metal=\"316\">\r\n\t\t\t<seen pass=\"up\" at=\"09:00\" far=\"N1\" close=\"N2\">\r\n"
              "\t\t\t\t<sign code=\"crack\">\"Two\" &lt;fine&gt; lines.</sign>\r\n\t\t\t</seen>\r\n\t\t\t<!-- seen "
              "-->\r\n"
              "\t\t</fitting> <!-- by the step -->" +
              tail);
    const auto second =
        element("fitting", {{"id", "b"}, {"kind", "mast-step"}, {"station", "deck"}, {"height", "1 m"}});
    CHECK(edited(text, {AddElement{Where::after, at, second}}) ==
          head + fitting +
              "/> <!-- by the step -->\r\n\t\t<fitting id=\"b\" kind=\"mast-step\" station=\"deck\" height=\"1 m\"/>" +
              tail);
    CHECK(
        edited(text, {AddElement{Where::before, at, second}, TakeElement{at}}) ==
        head +
            "\t\t<fitting id=\"b\" kind=\"mast-step\" station=\"deck\" height=\"1 m\"/>\r\n\t\t <!-- by the step -->" +
            tail);
}

TEST_CASE("what would be no survey any more is not given out") {
    const std::string text = sample::complete();
    const xml::Element root = root_of(text);
    const std::size_t at = root.child("fittings")->children.at(0).span.at;
    const Edited nonsense = edit(text, "s.xml", {SetAttribute{at, "height", "high"}});
    CHECK_FALSE(nonsense.text);
    REQUIRE(nonsense.problems.size() == 1);
    CHECK(nonsense.problems[0].what.find("\"high\"") != std::string::npos);
    CHECK_FALSE(edit(text, "s.xml", {SetAttribute{at, "unheard-of", "x"}}).text);
    CHECK_FALSE(edit(text, "s.xml", {TakeElement{root.child("yacht")->span.at}}).text);
    CHECK_FALSE(edit(text, "s.xml", {SetAttribute{at, "id", "\x01"}}).text);
    CHECK_FALSE(edit(text, "s.xml", {AddComment{Where::before, at, "a--b"}}).text);
    CHECK_FALSE(edit(text, "s.xml", {AddComment{Where::before, at, "a-"}}).text);
    CHECK_FALSE(edit("<a>", "s.xml", {}).text);
}

TEST_CASE("an edit that cannot be is a bug, not a change") {
    const std::string text = sample::complete();
    const xml::Element root = root_of(text);
    const xml::Element& first = root.child("fittings")->children.at(0);
    const auto refused = [&](const std::vector<Edit>& edits) {
        CHECK_THROWS_AS((void)edit(text, "s.xml", edits), Error);
    };
    refused({SetAttribute{first.span.at + 1, "id", "x"}});
    refused({TakeComment{first.span.at}});
    refused({SetAttribute{first.span.at, "a b", "x"}});
    refused({TakeElement{root.span.at}});
    refused({AddElement{Where::after, root.span.at, new_seen()}});
    refused({TakeElement{first.span.at}, SetAttribute{first.span.at, "id", "other"}});
    refused({SetAttribute{first.span.at, "id", "x"}, SetAttribute{first.span.at, "id", "y"}});
}

TEST_CASE("a file that changed meanwhile is not overwritten") {
    const auto path = sample::temporary("edit-test.xml");
    write_file(path, "before");
    write_edited(path, "before", "after");
    CHECK(as_text(read_file(path, 100)) == "after");
    CHECK_THROWS_AS(write_edited(path, "before", "again"), Error);
    CHECK(as_text(read_file(path, 100)) == "after");
    std::filesystem::remove(path);
}
