#include <algorithm>

#include "assessment/calculation.hpp"
#include "survey/sample.hpp"

using namespace rigdeed;
using namespace rigdeed::sample;
using assessment::Calculation;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

assessment::Calculations calculated(const std::string& text) {
    const survey::Survey survey = read(text);
    const auto assessment = assessment::assess(survey, the_trade());
    return assessment::calculate({survey, the_trade(), assessment, evidence::Evidence{}});
}

/// "ages of forestay: Beyond the common …", one for each remark.
std::vector<std::string> remarks(const std::string& text) {
    std::vector<std::string> all;
    for (const Calculation& one : calculated(text))
        for (const std::string& remark : one.remarks) all.push_back(one.id + " of " + one.subject + ": " + remark);
    return all;
}

bool any_has(const std::vector<std::string>& all, const std::vector<std::string>& words) {
    return std::any_of(all.begin(), all.end(), [&](const std::string& one) {
        return std::all_of(words.begin(), words.end(),
                           [&](const std::string& word) { return one.find(word) != std::string::npos; });
    });
}

std::string worked() { return text_of("fixtures/worked/survey.xml"); }

TEST_CASE("where wires are broken the chain says that its strand stands as new") {
    const auto of_chain = [](const std::string& text) {
        std::vector<std::string> found;
        for (const std::string& one : remarks(text))
            if (one.starts_with("chain-of-strength of ") &&
                one.find("broken wires, not deducted: ") != std::string::npos)
                found.push_back(one.substr(one.rfind(' ') + 1));
        return found;
    };
    CHECK(of_chain(worked()) == std::vector<std::string>{"2."});
    std::string whole = worked();
    const std::string sign = "<sign code=\"wire-broken\" count=\"2\">two ends stand out</sign>";
    REQUIRE(whole.find(sign) != std::string::npos);
    CHECK(of_chain(whole.erase(whole.find(sign), sign.size())).empty());
}

std::string text_of_result(const assessment::Calculations& all, const std::string& name) {
    for (const Calculation& one : all)
        for (const assessment::Figure& figure : one.results)
            if (figure.name == name) return assessment::text_of(figure, UnitSystem::metric, the_trade().wording);
    return "no such figure";
}

}  // namespace

TEST_CASE("the remarks on the worked rig are these and no others") {
    const std::vector<std::vector<std::string>> expected{
        {"split-pins of port cap shroud", "Thinner than the 3.2 mm"},
        {"chain-of-strength of port cap shroud", "Chainplate: 1.18", "below 1.33"},
        {"chain-of-strength of port cap shroud", "Chainplate: 1.18", "below 1.50"},
        {"chain-of-strength of port cap shroud", "Tang: 1.27", "below 1.33"},
        {"chain-of-strength of", "broken wires, not deducted: 2"},
        {"stay-load of port lower shroud", "Below the 2.25 to 2.75"},
        {"spreader-tip of port spreader tip", "6.0° off"},
        {"port-and-starboard of", "More than 10 % apart"},
        {"ages of forestay", "Beyond the common 10 years by 7 years 9 months"},
        {"ages of forestay", "16000 to 20000 nmi"},
        {"ages of port cap shroud", "by 2 years 5 months"},
        {"ages of starboard cap shroud", "by 2 years 5 months"},
        {"ages of the rig", "relies on her rig alone"},
    };
    const auto all = remarks(worked());
    for (const auto& words : expected) CHECK_MESSAGE(any_has(all, words), words.front(), ": ", words.back());
    CHECK(all.size() == expected.size());
}

TEST_CASE("a remark comes on one side of its limit and not on the other") {
    struct Row {
        const char* from;
        const char* without;  ///< what stays silent
        const char* with;     ///< what is remarked on
        const char* subject;
        const char* words;
    };
    for (const Row& row : {
             // 1x19 commonly lasts 10 years (common practice); counted from the day to 3 October 2026.
             Row{"fitted=\"2019-04-10\"", "fitted=\"2016-10-03\"", "fitted=\"2016-09-03\"", "ages of backstay",
                 "Beyond"},
             Row{"sailed=\"17200 nmi\"", "sailed=\"15999 nmi\"", "sailed=\"16000 nmi\"", "ages of forestay",
                 "has reached"},
             Row{"sailed=\"17200 nmi\"", "sailed=\"20000 nmi\"", "sailed=\"20001 nmi\"", "ages of forestay",
                 "Sailed beyond"},
             // 9 degrees at the least (Principles of Yacht Design), 10 to 12 in common practice.
             Row{"what=\"mast-angle\" value=\"12°\"", "what=\"mast-angle\" value=\"10°\"",
                 "what=\"mast-angle\" value=\"9.5°\"", "mast-angle of port", "Less than 10°"},
             Row{"what=\"mast-angle\" value=\"12°\"", "what=\"mast-angle\" value=\"9°\"",
                 "what=\"mast-angle\" value=\"8.9°\"", "mast-angle of port", "Less than 9°"},
             // 25 % at the most (common practice): 12.61 kN of 50.43.
             Row{"value=\"6.5 kN\"", "value=\"12.6 kN\"", "value=\"12.7 kN\"", "static-tension of starboard cap",
                 "More than 25 %"},
             Row{"value=\"6.5 kN\"", "value=\"7.4 kN\"", "value=\"7.2 kN\"", "port-and-starboard", "apart"},
             Row{"what=\"split-pin-diameter\" value=\"2.5 mm\"", "what=\"split-pin-diameter\" value=\"3.2 mm\"",
                 "what=\"split-pin-diameter\" value=\"2.8 mm\"", "split-pins", "Thinner"},
             // 1.33 times 50.43 kN is 67.07 kN (The Complete Rigger's Apprentice).
             Row{"value=\"64 kN\"", "value=\"67.1 kN\"", "value=\"67 kN\"", "chain-of-strength", "Tang"},
             // 3 degrees off the bisecting 6 (from memory).
             Row{"what=\"spreader-rise\" value=\"0°\"", "what=\"spreader-rise\" value=\"3°\"",
                 "what=\"spreader-rise\" value=\"2.9°\"", "spreader-tip", "off the angle"},
             // 65 % of 21.15 kN times 2.25 is 30.94 kN (The Complete Rigger's Apprentice).
             Row{"alloy=\"316\" diameter=\"4 mm\"", "alloy=\"316\" diameter=\"4 mm\" breaking-load=\"31 kN\"",
                 "alloy=\"316\" diameter=\"4 mm\" breaking-load=\"30.9 kN\"", "stay-load of port lower", "Below"},
             Row{"relies-on-rig=\"yes\"", "relies-on-rig=\"no\"", "relies-on-rig=\"yes\"", "ages of the rig", "halved"},
         }) {
        CHECK_MESSAGE(!any_has(remarks(replaced(worked(), row.from, row.without)), {row.subject, row.words}),
                      row.without);
        CHECK_MESSAGE(any_has(remarks(replaced(worked(), row.from, row.with)), {row.subject, row.words}), row.with);
    }
}

TEST_CASE("the next looks: a year and four years, both halved where she relies on her rig (custom)") {
    const auto halved = calculated(worked());
    CHECK(text_of_result(halved, "owner's next check by") == "3 April 2027");
    CHECK(text_of_result(halved, "next survey by") == "3 October 2028");
    const auto whole = calculated(replaced(worked(), " relies-on-rig=\"yes\"", ""));
    CHECK(text_of_result(whole, "owner's next check by") == "3 October 2027");
    CHECK(text_of_result(whole, "next survey by") == "3 October 2030");
}

TEST_CASE("what is wanted names each input once, with every fitting and calculation it would serve") {
    const auto without = calculated(replaced(worked(), "<measured what=\"plate-thickness\" value=\"8 mm\"/>", ""));
    const auto list = assessment::wanted(without);
    std::size_t thickness = 0;
    for (const assessment::Wanted& one : list) {
        if (one.input != "plate-thickness") continue;
        ++thickness;
        CHECK(one.of == std::vector<std::string>{"cap-port-plate"});
        CHECK(one.calculations == std::vector<std::string>{"Pins in double shear", "Chain of strength"});
    }
    CHECK(thickness == 1);
    for (const assessment::Wanted& one : assessment::wanted(calculated(worked())))
        CHECK(one.input != "plate-thickness");
}

TEST_CASE("a breaking load that is not known is asked for once a size, with every fitting it would serve") {
    const auto list = assessment::wanted(calculated(
        replaced(replaced(worked(), "<measured what=\"breaking-load\" value=\"64 kN\"/>", ""), "</fittings>",
                 "<fitting id=\"a\" kind=\"toggle\" stay=\"cap-port\" station=\"deck\" height=\"1 m\"/>"
                 "<fitting id=\"b\" kind=\"toggle\" stay=\"cap-starboard\" station=\"deck\" height=\"1 m\"/>"
                 "<fitting id=\"c\" kind=\"toggle\" stay=\"backstay\" station=\"deck\" height=\"1 m\"/></fittings>")));
    std::vector<std::vector<std::string>> asked;
    for (const assessment::Wanted& one : list)
        if (one.input == "breaking-load" && one.name.find("toggle") != std::string::npos) asked.push_back(one.of);
    // The backstay is of another size than the cap shrouds, which are alike.
    CHECK(asked == std::vector<std::vector<std::string>>{{"c"}, {"a", "b"}});
}

TEST_CASE("a textile stay at rest carries less than 15 % (The Complete Rigger's Apprentice)") {
    const auto said = [&](const char* tension) {
        std::string text = replaced(complete(), "length=\"6.1 m\"", "length=\"6.1 m\" breaking-load=\"40 kN\"");
        return any_has(remarks(replaced(text, "<seen pass=\"down\" at=\"11:20\"/>",
                                        "<seen pass=\"down\" at=\"11:20\"/><measured what=\"tension\" value=\"" +
                                            std::string(tension) + "\"/>")),
                       {"static-tension", "textile"});
    };
    CHECK(!said("6 kN"));
    CHECK(said("6.1 kN"));
}

TEST_CASE("a lamp that takes no more than an LED has nothing to save") {
    const auto all = calculated(replaced(worked(), "value=\"25 W\"", "value=\"1.2 W\""));
    CHECK(text_of_result(all, "current") == "0.100 A");
    CHECK(text_of_result(all, "saved a day by LED, at least") == "no such figure");
}
