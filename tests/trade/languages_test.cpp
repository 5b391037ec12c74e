#include <doctest/doctest.h>

#include <filesystem>
#include <set>

#include "base/error.hpp"
#include "base/language.hpp"
#include "base/resources.hpp"
#include "base/text.hpp"
#include "base/xml.hpp"
#include "completeness/completeness.hpp"
#include "pipeline.hpp"
#include "trade/phrases.hpp"
#include "trade/trade.hpp"

using namespace rigdeed;

namespace {

const trade::Trade& the_trade(std::string_view language) {
    static std::map<std::string, trade::Trade, std::less<>> loaded;
    const auto known = loaded.find(language);
    if (known != loaded.end()) return known->second;
    return loaded.emplace(language, trade::load_trade({}, language)).first->second;
}

std::vector<std::string_view> other_languages() { return {languages.begin() + 1, languages.end()}; }

trade::Phrases phrases_of(std::string_view language) {
    trade::Phrases phrases;
    Problems problems;
    for (const Resource& one : resources())
        if (one.name.starts_with("phrases/" + std::string(language) + "/"))
            phrases.read(*xml::read(one.bytes, std::string(one.name)).root, std::string(one.name), problems);
    for (const Problem& problem : problems) FAIL_CHECK(problem.at.text() << ": " << problem.what);
    return phrases;
}

/// Every text of the templates that a reader sees, in English.
std::set<std::string> english_texts() {
    std::set<std::string> texts;
    for (const Resource& one : resources())
        if (one.name.starts_with("kinds/") || one.name.starts_with("plans/") || one.name.starts_with("tables/"))
            for (std::string& text : trade::texts_of(*xml::read(one.bytes, std::string(one.name)).root))
                texts.insert(std::move(text));
    return texts;
}

/// Words that no language but English has, as whole words.
bool sounds_english(const std::string& text) {
    const std::set<std::string> english{"the", "and", "of", "with", "is", "are", "by", "where", "which", "when"};
    for (const std::string& word : split(lower(text), ' '))
        if (english.contains(word)) return true;
    return false;
}

}  // namespace

TEST_CASE("every language has the words of the report, all of them and with the same fill-ins") {
    const auto& english = the_trade("en").wording.all();
    for (const std::string_view language : other_languages()) {
        CAPTURE(language);
        const auto& words = the_trade(language).wording.all();
        for (const auto& [key, text] : english) {
            CAPTURE(key);
            const auto found = words.find(key);
            CHECK(found != words.end());
            if (found == words.end()) continue;
            CHECK(trade::fill_ins(found->second) == trade::fill_ins(text));
            CHECK_FALSE(sounds_english(found->second));
        }
        for (const auto& [key, text] : words) {
            CAPTURE(key);
            CHECK(english.contains(key));
        }
    }
}

TEST_CASE("every language has each text of the templates, and none that they do not have") {
    const std::set<std::string> english = english_texts();
    CHECK(english.size() > 1500);
    for (const std::string_view language : other_languages()) {
        CAPTURE(language);
        const trade::Phrases phrases = phrases_of(language);
        for (const std::string& text : english) {
            CAPTURE(text);
            CHECK(phrases.all().contains(text));
        }
        for (const auto& [text, translation] : phrases.all()) {
            CAPTURE(text);
            CHECK(english.contains(text));
            CHECK(text.ends_with('.') == translation.ends_with('.'));
            if (text.find("Apprentice") == std::string::npos && text.find("Principles of") == std::string::npos)
                CHECK_FALSE(sounds_english(translation));
        }
    }
}

TEST_CASE("numbers, dates, lists and names have the form of their language") {
    const auto& english = the_trade("en").wording;
    CHECK(english.number(3.5, 2) == "3.50");
    CHECK(english.date(Date{2026, 10, 1}) == "1 October 2026");
    CHECK(english.date(PartDate{2014, 5, {}}) == "May 2014");
    CHECK(english.listed({"1", "2", "3"}) == "1, 2 and 3");
    CHECK(english.numbers("50.43 kN (11337 lbf), 7/16 in, a.b") == "50.43 kN (11337 lbf), 7/16 in, a.b");
    const auto& german = the_trade("de").wording;
    CHECK(german.number(-0.25, 2) == "−0,25");
    CHECK(german.date(Date{2026, 10, 3}) == "3. Oktober 2026");
    CHECK(german.listed({"1", "2"}) == "1 und 2");
    CHECK(german.numbers("50.43 kN (11337 lbf), 7/16 in, a.b") == "50,43 kN (11337 lbf), 7/16 in, a.b");
    const auto& spanish = the_trade("es").wording;
    CHECK(spanish.date(Date{2026, 10, 3}) == "3 de octubre de 2026");
    CHECK(spanish.either({"1", "2"}) == "1 o 2");
    const auto& french = the_trade("fr").wording;
    CHECK(french.date(Date{2026, 8, 1}) == "1er août 2026");
    CHECK(french.date(Date{2026, 8, 2}) == "2 août 2026");
    CHECK(french.count("calc.years", 1) == "1 an");

    survey::Stay stay;
    stay.role = "cap-shroud";
    stay.side = survey::Side::port;
    CHECK(trade::stay_name(stay, the_trade("de")) == "Oberwant Backbord");
    CHECK(trade::stay_name(stay, the_trade("fr")) == "galhauban bâbord");
    stay.mast = "mizzen";
    CHECK(trade::stay_name(stay, the_trade("en")) == "port mizzen cap shroud");
    CHECK(trade::stay_name(stay, the_trade("de")) == "Oberwant Backbord (Besanmast)");
    stay.mast = "third";
    stay.side = survey::Side::centre;
    CHECK(trade::stay_name(stay, the_trade("en")) == "third cap shroud");
}

TEST_CASE("a language changes the words and nothing else") {
    std::vector<std::string> files;
    for (const char* fixture : {"worked", "complete", "stopped", "unstepped"})
        files.push_back(std::string(RIGDEED_SOURCE_DIR "/fixtures/") + fixture + "/survey.xml");
    for (const auto& folder : std::filesystem::directory_iterator(RIGDEED_SOURCE_DIR "/fixtures/gaps"))
        files.push_back((folder.path() / "survey.xml").string());
    CHECK(files.size() > 20);
    for (const std::string& file : files) {
        CAPTURE(file);
        const auto english = inspect(file, the_trade("en"), {}).inspected;
        for (const std::string_view language : other_languages()) {
            CAPTURE(language);
            const auto other = inspect(file, the_trade(language), {}).inspected;
            const auto& a = english->assessment;
            const auto& b = other->assessment;
            CHECK(a.answer == b.answer);
            CHECK(a.findings == b.findings);
            CHECK(a.watch_by == b.watch_by);
            REQUIRE(a.fittings.size() == b.fittings.size());
            for (std::size_t i = 0; i < a.fittings.size(); ++i) {
                CHECK(a.fittings[i].verdict == b.fittings[i].verdict);
                CHECK(a.fittings[i].bars_climbing == b.fittings[i].bars_climbing);
                CHECK(a.fittings[i].name != b.fittings[i].name);
            }
            const auto codes = [](const std::vector<completeness::Note>& notes) {
                std::vector<std::string> list;
                for (const completeness::Note& note : notes) list.push_back(note.code + " " + note.fitting);
                return list;
            };
            CHECK(codes(english->completeness.gaps) == codes(other->completeness.gaps));
            CHECK(codes(english->completeness.remarks) == codes(other->completeness.remarks));
            REQUIRE(english->calculations.size() == other->calculations.size());
            for (std::size_t i = 0; i < english->calculations.size(); ++i)
                for (std::size_t k = 0; k < english->calculations[i].results.size(); ++k)
                    CHECK(english->calculations[i].results[k].value == other->calculations[i].results[k].value);
        }
    }
}

TEST_CASE("an unknown language, and a phrase that is not whole, are said with what to write") {
    CHECK_THROWS_WITH_AS((void)trade::load_trade({}, "xx"), "no language \"xx\"", Error);
    trade::Phrases phrases;
    Problems problems;
    phrases.read(*xml::read("<phrases><p><en>one {stay}</en><to>eins</to></p><p><en>two</en></p>"
                            "<p><en>three</en><to>drei</to></p><p><en>three</en><to>drei</to></p></phrases>",
                            "own.xml")
                      .root,
                 "own.xml", problems);
    REQUIRE(problems.size() == 3);
    CHECK(problems[0].what == "the translation of \"one {stay}\" has other fill-ins");
    CHECK(problems[1].what == "a phrase is not whole");
    CHECK(problems[2].what == "\"three\" stands there twice");
    CHECK(phrases.all().size() == 1);
}

TEST_CASE("each trouble of a photo has words in each language, its number and its files in them") {
    for (const std::string_view language : languages)
        for (const evidence::WhyRow& row : evidence::why_rows()) {
            if (row.why == evidence::Why::none || row.why == evidence::Why::told_before) continue;
            evidence::Photo photo;
            photo.refuse({row.why, 4711, {"A1.jpg", "A1.JPG"}, {}});
            const std::string words = completeness::reason_words(photo, the_trade(language).wording);
            CAPTURE(words);
            CHECK_FALSE(words.empty());
            CHECK(words.find('{') == std::string::npos);
            const bool numbered = row.why == evidence::Why::bits || row.why == evidence::Why::channels ||
                                  row.why == evidence::Why::cannot_read;
            CHECK((words.find("4711") != std::string::npos) == numbered);
            const bool files = row.why == evidence::Why::several || row.why == evidence::Why::not_there;
            CHECK((words.find("A1.JPG") != std::string::npos) == files);
        }
}
