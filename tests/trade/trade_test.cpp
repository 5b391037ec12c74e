#include "trade/trade.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>

#include "base/error.hpp"
#include "survey/sample.hpp"
#include "trade/judge.hpp"

using namespace rigdeed;
using namespace rigdeed::sample;

namespace {
const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}
}  // namespace

TEST_CASE("every kind explains itself and every sign names its source") {
    CHECK(the_trade().kinds.size() >= 10);
    for (const trade::Kind& kind : the_trade().kinds) {
        CAPTURE(kind.id);
        CHECK(!kind.signs.empty());
        CHECK(kind.plain.size() > 20);
        CHECK(kind.look.size() > 10);
        CHECK(!kind.hidden.empty());
        CHECK(!kind.schematic.empty());
        for (const trade::SignRule& rule : kind.signs) {
            CAPTURE(rule.code);
            const bool marked = rule.source.find("common practice") == 0 || rule.source.find("from memory") == 0 ||
                                rule.source.find("Apprentice") != std::string::npos;
            CHECK(marked);
            CHECK(rule.verdict != survey::Verdict::sound);
        }
    }
}

TEST_CASE("demands name kinds that exist") {
    for (const trade::Make& make : the_trade().makes) {
        CHECK(!make.demands.empty());
        for (const trade::Demand& demand : make.demands)
            for (const std::string& kind : demand.kinds)
                CHECK_MESSAGE(the_trade().kind(kind) != nullptr, make.id, " demands ", kind);
    }
}

TEST_CASE("usual metals of the kinds are materials that are known") {
    for (const trade::Kind& kind : the_trade().kinds)
        for (const std::string& metal : kind.metals)
            CHECK_MESSAGE(std::any_of(the_trade().materials.begin(), the_trade().materials.end(),
                                      [&](const auto& one) { return one.id == metal; }),
                          kind.id, ": ", metal);
}

TEST_CASE("unknown names are answered with the nearest known ones and their line") {
    const survey::Survey survey =
        with("\n" + stay("s", "make=\"1x91\" alloy=\"613\""),
             "\n\n" + fitting("f", "chainplat", "s", "deck") + fitting("g", "chainplate", "s", "deck", sign("krack")));
    const Problems problems = trade::check_names(survey, the_trade());
    REQUIRE(problems.size() == 4);
    CHECK(problems[0].hint.find("1x19") != std::string::npos);
    CHECK(problems[1].hint.find("316") != std::string::npos);
    CHECK(problems[2].hint.find("chainplate") != std::string::npos);
    CHECK(problems[2].at.line == 4);
    CHECK(problems[3].hint.find("crack") != std::string::npos);
}

TEST_CASE("a sign of another kind does not belong") {
    const survey::Survey survey = with(stay("s"), fitting("f", "light", "", "mast", sign("crack-along")));
    CHECK(trade::check_names(survey, the_trade()).size() == 1);
}

TEST_CASE("fittings are called by stay, place and kind") {
    const survey::Survey survey =
        with(stay("s"),
             fitting("a", "swaged-terminal", "s", "deck") +
                 replaced(fitting("b", "swaged-terminal", "s", "masthead"), "2 m", "14 m") +
                 "<fitting id=\"c\" kind=\"spreader-tip\" side=\"starboard\" station=\"spreader-1\" height=\"8 m\"/>");
    CHECK(trade::fitting_name(survey.fittings[0], survey, the_trade()) == "port cap shroud, lower swaged terminal");
    CHECK(trade::fitting_name(survey.fittings[1], survey, the_trade()) == "port cap shroud, upper swaged terminal");
    CHECK(trade::fitting_name(survey.fittings[2], survey, the_trade()) == "starboard spreader tip");
}

TEST_CASE("a template of the user's takes the place of ours, and is named") {
    char pattern[] = "/tmp/rigdeed-trade-XXXXXX";
    const std::filesystem::path folder = ::mkdtemp(pattern);
    std::filesystem::create_directories(folder / "tables");
    std::ofstream(folder / "tables/intervals.xml") << "<intervals xmlns=\"urn:rigdeed:intervals:1\"><interval "
                                                      "id=\"watch\" months=\"3\" source=\"own\"/></intervals>";
    const trade::Trade own = trade::load_trade(folder);
    CHECK(own.interval("watch").months == 3);
    CHECK(own.replaced == std::vector<std::string>{"tables/intervals.xml"});
    std::ofstream(folder / "tables/intervals.xml") << "<intervals xmlns=\"urn:rigdeed:intervals:1\">\n<interval "
                                                      "id=\"watch\" months=\"many\" source=\"own\"/></intervals>";
    try {
        (void)trade::load_trade(folder);
        FAIL("a broken template was taken");
    } catch (const Error& error) { CHECK(error.where.find("intervals.xml:2") != std::string::npos); }
    std::filesystem::remove_all(folder);
}
