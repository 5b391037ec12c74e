#include "marks/marks.hpp"

#include <algorithm>
#include <random>

#include "base/xml.hpp"
#include "marks/take.hpp"
#include "survey/sample.hpp"

using namespace rigdeed;
using namespace rigdeed::marks;
using sample::replaced;

namespace {

const std::string digest(64, 'a');

std::string file_of(const std::string& statements, const std::string& number = "F-1") {
    return "<rig-marks xmlns=\"urn:rigdeed:marks:1\" number=\"" + number + "\" survey-sha256=\"" + digest + "\">" +
           statements + "</rig-marks>";
}

Marks read(const std::string& statements) {
    auto reading = read_marks(file_of(statements), "m.xml");
    for (const Problem& problem : reading.problems) MESSAGE(problem.at.text(), ": ", problem.what);
    REQUIRE(reading.marks);
    return std::move(*reading.marks);
}

Taken taken(const std::string& statements, const std::string& survey, bool part = false) {
    return take(read(statements), survey, "s.xml", part);
}

std::string text_after(const std::string& statements, const std::string& survey) {
    const Taken result = taken(statements, survey);
    for (const auto* list : {&result.conflicts, &result.problems})
        for (const Problem& problem : *list) MESSAGE(problem.at.text(), ": ", problem.what);
    REQUIRE(result.text);
    return *result.text;
}

/// Two fittings with comments: one without any look, one with two and a sign.
std::string small() {
    return replaced(replaced(sample::complete(), R"(<seen pass="up" at="09:08" far="F1" close="C3"/>)",
                             "<!-- by hand --><seen pass=\"up\" at=\"09:08\" far=\"F1\" close=\"C3\"><sign "
                             "code=\"crack\" mark=\"0.5 0.5 0.1\">One line.</sign></seen>"),
                    R"(<seen pass="up" at="09:12" far="F1" close="C7"/>)", "<!-- nothing yet -->");
}

bool says(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

/// Ids of the fittings with and without a look on the way up.
std::string id_of(const std::string& survey, const std::string& close) {
    for (const survey::Fitting& fitting : sample::read(survey).fittings)
        for (const survey::Seen& seen : fitting.seen)
            if (seen.close == close) return fitting.id;
    FAIL("no fitting has " << close);
    return {};
}

const std::string& eye() {
    static const std::string id = id_of(sample::complete(), "C3");
    return id;
}
const std::string& bare() {
    static const std::string id = id_of(sample::complete(), "C7");
    return id;
}

std::string look(const std::string& fitting, const std::string& was, const std::string& is) {
    return "<look fitting=\"" + fitting + "\" pass=\"up\">" + (was.empty() ? "" : "<was " + was + "/>") +
           (is.empty() ? "" : "<is " + is + "/>") + "</look>";
}
std::string sign(const std::string& fitting, const std::string& was, const std::string& is) {
    return "<sign fitting=\"" + fitting + "\" pass=\"up\">" + was + is + "</sign>";
}

const std::string old_look = R"(at="09:08" far="F1" close="C3")";
const std::string old_sign = R"(<was code="crack" mark="0.5 0.5 0.1">One line.</was>)";

}  // namespace

TEST_CASE("marks are read as they are written") {
    const Marks marks = read(
        look(eye(), old_look, R"(at="09:09" far="F1" close="C3")") + sign(eye(), old_sign, "") +
        R"(<not-seen fitting="x"><is reason="under &lt;paint&gt; &quot;thick&quot;"/></not-seen>)"
        R"(<not-seen fitting="x" pass="down"><was reason="dark"/></not-seen>)"
        R"(<measured fitting="x" what="leg-angle"><is value="31.4°" from="C3" along="0 0 1 0 0 0 0.8 0.5"/></measured>)"
        R"(<scale photo="C3"><is length="8 mm" of="strand" along="0 0 1 0"/></scale>)"
        R"(<other name="X1"><is shows="the berth"/></other>)");
    CHECK(marks.statements.size() == 7);
    CHECK(marks.statements[2].is->attributes.at("reason") == "under <paint> \"thick\"");
    const auto again = read_marks(write_marks(marks), "m.xml");
    REQUIRE(again.marks);
    REQUIRE(again.marks->statements.size() == marks.statements.size());
    for (std::size_t i = 0; i < marks.statements.size(); ++i) {
        const Statement &one = marks.statements[i], &other = again.marks->statements[i];
        CHECK(one.label() == other.label());
        CHECK(one.was == other.was);
        CHECK(one.is == other.is);
    }
}

TEST_CASE("what no survey could hold is no statement") {
    const auto problem = [](const std::string& statements) {
        const auto reading = read_marks(file_of(statements), "m.xml");
        CHECK(!reading.marks);
        return reading.problems.empty() ? std::string() : reading.problems.front().what;
    };
    CHECK(says(problem(look(eye(), "", R"(at="25:00" close="C3")")), "25:00"));
    CHECK(says(problem(look(eye(), "", R"(close="C3")")), "at"));
    CHECK(says(problem(look(eye(), "", R"(at="09:00" close="../C3")")), "leads out"));
    CHECK(says(problem(sign(eye(), "", "<is/>")), "code"));
    CHECK(says(problem(sign(eye(), "", R"(<is code="crack" mark="0.5"/>)")), "mark"));
    CHECK(says(problem(sign(eye(), "", R"(<is code="crack" mark="9 0.5 0.1"/>)")), "mark"));
    CHECK(says(problem(R"(<measured fitting="x" what="wall"><is value="8 foo"/></measured>)"), "8 foo"));
    CHECK(says(problem(R"(<scale photo="C3"><is length="8 mm" of="strand" along="0 0"/></scale>)"), "along"));
    CHECK(says(problem(R"(<other name="/etc/passwd"><is shows="x"/></other>)"), "leads out"));
    CHECK(says(problem(R"(<look fitting="x" pass="up"/>)"), "neither"));
    CHECK(says(problem(R"(<look fitting="x"><is at="09:00"/></look>)"), "pass"));
    CHECK(says(problem(R"(<look fitting="x" pass="up"><is at="09:00"/><is at="09:01"/></look>)"), "second"));
    CHECK(says(problem(look("x", "", R"(at="09:00")") + look("x", "", R"(at="09:01")")), "two statements"));
    CHECK(says(problem(R"(<look fitting="x" pass="up"><is at="09:00" onclick="x"/></look>)"), "onclick"));
    CHECK(says(problem("<script>x</script>"), "script"));
    CHECK(!read_marks(sample::complete(), "m.xml").marks);
    CHECK(!read_marks(replaced(file_of(""), digest, "short"), "m.xml").marks);
    CHECK(!read_marks("", "m.xml").marks);
}

TEST_CASE("a new look with its signs goes in front, comments stay") {
    const std::string before = small();
    const std::string after = text_after(look(bare(), "", R"(at="09:14" far="F1" close="C7")") +
                                             sign(bare(), "", R"(<is code="crack">Two &lt;b&gt;lines&lt;/b&gt;.</is>)"),
                                         before);
    CHECK(says(after, "<!-- by hand -->"));
    CHECK(says(after, "<!-- nothing yet -->"));
    const survey::Survey survey = sample::read(after);
    const auto found =
        std::find_if(survey.fittings.begin(), survey.fittings.end(), [](const auto& one) { return one.id == bare(); });
    const survey::Seen* seen = found->in(survey::Way::up);
    REQUIRE(seen != nullptr);
    CHECK(seen->close == "C7");
    REQUIRE(seen->signs.size() == 1);
    CHECK(seen->signs[0].words == "Two <b>lines</b>.");
}

TEST_CASE("a look and a sign are changed and taken away, all else stays byte for byte") {
    const std::string before = small();
    const std::string farther = text_after(look(eye(), old_look, R"(at="09:08" far="F9" close="C3")"), before);
    CHECK(farther == replaced(before, R"(far="F1" close="C3"><sign)", R"(far="F9" close="C3"><sign)"));
    const std::string circled =
        text_after(sign(eye(), old_sign, R"(<is code="crack" count="2" mark="0.25 0.5 0.1">One line.</is>)"), before);
    CHECK(circled == replaced(before, R"(mark="0.5 0.5 0.1">)", R"(mark="0.25 0.5 0.1" count="2">)"));
    const std::string reworded =
        text_after(sign(eye(), old_sign, R"(<is code="crack" mark="0.5 0.5 0.1">Two.</is>)"), before);
    CHECK(sample::read(reworded).fittings.size() == sample::read(before).fittings.size());
    CHECK(says(reworded, ">Two.</sign>"));
    CHECK(!says(reworded, "One line."));
    CHECK(!says(text_after(sign(eye(), old_sign, ""), before), "<sign"));
    const std::string gone = text_after(look(eye(), old_look, "") + sign(eye(), old_sign, "") + "<not-seen fitting=\"" +
                                            eye() + "\" pass=\"up\"><is reason=\"dark\"/></not-seen>",
                                        before);
    CHECK(!says(gone, "C3"));
    CHECK(says(gone, R"(<not-seen pass="up" reason="dark"/>)"));
    CHECK(says(gone, "<!-- by hand -->"));
}

TEST_CASE("what a sign says that the page knows nothing of stays when its words are changed") {
    const std::string before =
        replaced(small(), "code=\"crack\" mark", "code=\"crack\" wires=\"4 5\" count=\"2\" mark");
    const std::string after =
        text_after(sign(eye(), R"(<was code="crack" count="2" mark="0.5 0.5 0.1">One line.</was>)",
                        R"(<is code="crack" count="2" mark="0.5 0.5 0.1">Two lines.</is>)"),
                   before);
    CHECK(says(after, "wires=\"4 5\""));
    CHECK(says(after, "Two lines."));
    CHECK(!says(after, "One line."));
}

TEST_CASE("where the survey has changed since, line and both values are told and nothing is taken") {
    const std::string before = small();
    const std::string changed = replaced(before, "One line.", "Three lines.");
    const std::string two = look(bare(), "", R"(at="09:14" far="F1" close="C7")") +
                            sign(eye(), old_sign, R"(<is code="crack" mark="0.25 0.5 0.1">One line.</is>)");
    const Taken none = taken(two, changed);
    CHECK(!none.text);
    REQUIRE(none.conflicts.size() == 1);
    CHECK(none.conflicts[0].at.line > 0);
    CHECK(says(none.conflicts[0].what, "Three lines."));
    CHECK(says(none.conflicts[0].what, "One line."));
    const Taken some = taken(two, changed, true);
    REQUIRE(some.text);
    CHECK(some.conflicts.size() == 1);
    CHECK(some.changes.size() == 1);
    CHECK(says(*some.text, "Three lines."));
    CHECK(says(*some.text, "C7"));
    // Taking a look away never takes a sign along that the page did not know.
    CHECK(!taken(look(eye(), old_look, "") + sign(eye(), old_sign, ""), changed).text);
    CHECK(!taken(look(eye(), old_look, ""), before).text);
    CHECK(!taken(look(eye(), old_look, "") + sign(eye(), old_sign, R"(<is code="crack">x</is>)"), before).text);
    CHECK(!taken(sign(eye(), old_sign, ""), changed).text);
    CHECK(!taken(look("no-such", "", R"(at="09:14")"), before).text);
    CHECK(!take(*read_marks(file_of("", "F-2"), "m.xml").marks, before, "s.xml", true).problems.empty());
}

TEST_CASE("what was taken once is there already the second time") {
    const std::string all = look(bare(), "", R"(at="09:14" far="F1" close="C7")") +
                            sign(bare(), "", R"(<is code="crack">Two.</is>)") +
                            sign(eye(), old_sign, R"(<is code="crack" mark="0.25 0.5 0.1">One.</is>)") +
                            R"(<other name="X1"><is shows="the berth"/></other>)" + "<measured fitting=\"" + eye() +
                            R"("   what="pin-diameter"><is value="8 mm"/></measured>)" +
                            R"(<scale photo="C3"><is length="8 mm" of="pin" along="0 0 1 0"/></scale>)";
    const std::string once = text_after(all, small());
    const Taken twice = taken(all, once);
    REQUIRE(twice.text);
    CHECK(*twice.text == once);
    CHECK(twice.said_already == 6);
    CHECK(twice.changes.empty());
}

TEST_CASE("whatever statements say, the survey is whole or untouched") {
    const std::string before = small();
    std::mt19937 random(11);
    const auto any = [&](const std::vector<std::string>& list) { return list[random() % list.size()]; };
    int took = 0;
    for (int run = 0; run < 400; ++run) {
        std::string statements;
        for (unsigned i = 0; i <= random() % 4; ++i) {
            const std::string fitting = any({eye(), bare(), "none"});
            statements += any(
                {look(fitting, any({"", old_look}), any({"", R"(at="09:20")", R"(at="09:20" close="C3" because="x")"})),
                 sign(fitting, any({"", old_sign}), any({"", "<is code=\"crack\"/>", "<is code=\"bent\">w</is>"})),
                 "<not-seen fitting=\"" + fitting + "\"><is reason=\"r\"/></not-seen>",
                 "<not-seen fitting=\"" + fitting + "\" pass=\"down\"><is reason=\"r\"/></not-seen>",
                 std::string(R"(<other name="F1"><is shows="s"/></other>)")});
        }
        const auto reading = read_marks(file_of(statements), "m.xml");
        if (!reading.marks) continue;
        for (const bool part : {false, true}) {
            const Taken result = take(*reading.marks, before, "s.xml", part);
            CHECK(result.text.has_value() == (result.problems.empty() && (part || result.conflicts.empty())));
            if (!result.text) continue;
            took += *result.text != before ? 1 : 0;
            CHECK(survey::read_survey(*result.text, "s.xml").survey.has_value());
            CHECK(says(*result.text, "<!-- by hand -->"));
            CHECK(says(*result.text, "<!-- nothing yet -->"));
        }
    }
    CHECK(took > 100);
}
