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

/// How a source may begin: a title, or one of the two marks for what has none.
bool is_marked(const std::string& source) {
    return source.starts_with("common practice") || source.starts_with("from memory") ||
           source.starts_with("The Complete Rigger's Apprentice");
}

/// Words that promise what no look can promise.
bool promises(const std::string& words) {
    const auto has = [&](const char* word) { return words.find(word) != std::string::npos; };
    return has("safe ") || has("guarantee") || has("approved") || has(" OK") || has("certif");
}

TEST_CASE("every kind explains itself and every sign names its source") {
    CHECK(the_trade().kinds.size() >= 44);
    std::size_t signs = 0;
    for (const trade::Kind& kind : the_trade().kinds) {
        CAPTURE(kind.id);
        CHECK(!kind.signs.empty());
        CHECK(kind.plain.size() > 20);
        CHECK(kind.look.size() > 10);
        CHECK(!kind.hidden.empty());
        CHECK(!kind.schematic.empty());
        CHECK(!kind.parts.empty());
        for (const trade::SignRule& rule : kind.signs) {
            CAPTURE(rule.code);
            ++signs;
            CHECK(is_marked(rule.source));
            CHECK(rule.verdict != survey::Verdict::sound);
            CHECK(rule.plainly.size() > 15);
            CHECK(rule.plainly.ends_with("."));
            CHECK(rule.plainly != rule.name);
            CHECK(!rule.work.ends_with("."));
            for (const std::string* words : {&rule.name, &rule.plainly, &rule.means, &rule.act, &rule.then, &rule.work})
                CHECK_MESSAGE(!promises(*words), *words);
        }
    }
    CHECK(signs >= 140);
}

TEST_CASE("what a sign says of the whole stay agrees with itself") {
    for (const trade::Kind& kind : the_trade().kinds)
        for (const trade::SignRule& rule : kind.signs) {
            INFO(kind.id, ": ", rule.code);
            if (rule.renews_stay) CHECK(rule.verdict == survey::Verdict::renew);
            if (rule.renews_stay) CHECK(rule.work.find("{stay}") != std::string::npos);
            if (rule.spreads) CHECK(rule.renews_stay);
            if (rule.bars == trade::Bars::always) CHECK(rule.verdict >= survey::Verdict::rectify);
        }
}

TEST_CASE("families are whole: each of the seven has its kinds") {
    std::set<std::string> families;
    for (const trade::Kind& kind : the_trade().kinds) families.insert(kind.family);
    CHECK(families == std::set<std::string>{"deck and hull", "terminals", "strand, rod, textile", "joints and pins",
                                            "spreaders", "mast and masthead", "services aloft"});
}

TEST_CASE("demands name kinds that exist") {
    for (const trade::Make& make : the_trade().makes) {
        CHECK(!make.demands.empty());
        for (const trade::Demand& demand : make.demands)
            for (const std::string& kind : demand.kinds)
                CHECK_MESSAGE(the_trade().kind(kind) != nullptr, make.id, " demands ", kind);
    }
}

TEST_CASE("usual metals of the kinds and their parts are materials that are known") {
    const auto known = [](const std::string& metal) {
        return std::any_of(the_trade().materials.begin(), the_trade().materials.end(),
                           [&](const auto& one) { return one.id == metal; });
    };
    for (const trade::Kind& kind : the_trade().kinds) {
        for (const std::string& metal : kind.metals) CHECK_MESSAGE(known(metal), kind.id, ": ", metal);
        for (const trade::Part& part : kind.parts)
            for (const std::string& metal : part.metals)
                CHECK_MESSAGE((known(metal) || metal == "fitting" || metal == "stay" || metal == "mast"), kind.id, ", ",
                              part.name, ": ", metal);
    }
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

TEST_CASE("wires are named for what wires show, and on strand that has them numbered") {
    const auto problems = [](const std::string& make, const std::string& code) {
        const std::string seen = "<sign code=\"" + code + "\" wires=\"4\">x</sign>";
        return trade::check_names(with(stay("s", make), fitting("f", "strand", "s", "mast", seen)), the_trade()).size();
    };
    CHECK(problems("make=\"1x19\" alloy=\"316\"", "wire-broken") == 0);
    CHECK(problems("make=\"7x19\" alloy=\"316\"", "wire-broken") == 1);
    CHECK(problems("make=\"1x19\" alloy=\"316\"", "tea-stain") == 1);
}

TEST_CASE("fittings are called by stay, place and kind") {
    const survey::Survey survey =
        with(stay("s"),
             fitting("a", "swaged-terminal", "s", "deck") + fitting("b", "swaged-terminal", "s", "masthead") +
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
    const trade::Trade own = trade::load_trade(trade::read_own_templates(folder));
    CHECK(own.interval("watch").months == 3);
    CHECK(own.own.telling() == std::vector<std::string>{"tables/intervals.xml"});
    std::ofstream(folder / "tables/intervals.xml") << "<intervals xmlns=\"urn:rigdeed:intervals:1\">\n<interval "
                                                      "id=\"watch\" months=\"many\" source=\"own\"/></intervals>";
    try {
        (void)trade::load_trade(trade::read_own_templates(folder));
        FAIL("a broken template was taken");
    } catch (const Error& error) { CHECK(error.where.find("intervals.xml:2") != std::string::npos); }
    std::filesystem::remove_all(folder);
}
