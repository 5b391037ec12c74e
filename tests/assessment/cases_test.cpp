#include <algorithm>
#include <deque>

#include "assessment/calculation.hpp"
#include "survey/sample.hpp"

using namespace rigdeed;
using namespace rigdeed::sample;
using assessment::Calculation;
using survey::Verdict;

// Single cases of the trade, each told and judged wrongly once; common practice unless the templates name a source.
namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

const assessment::Calculations& calculated(survey::Survey survey) {
    static std::deque<survey::Survey> kept;
    static std::deque<assessment::Assessment> assessed;
    static std::deque<assessment::Calculations> made;
    static const evidence::Evidence none;
    kept.push_back(std::move(survey));
    assessed.push_back(assessment::assess(kept.back(), the_trade()));
    made.push_back(assessment::calculate({kept.back(), the_trade(), assessed.back(), none}));
    return made.back();
}

const Calculation* find(const assessment::Calculations& all, const std::string& id) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Calculation& one) { return one.id == id; });
    return found != all.end() ? &*found : nullptr;
}

std::string of(const std::string& what, const std::string& value) {
    return "<measured what=\"" + what + "\" value=\"" + value + "\"/>";
}

std::string made_of(const std::string& metal, std::string fitting, const std::string& measures) {
    fitting = replaced(fitting, "height", "metal=\"" + metal + "\" height");
    return fitting.insert(fitting.rfind("</fitting>"), measures);
}

const trade::SignRule& rule(const std::string& kind, const std::string& code) {
    const trade::Kind* found = the_trade().kind(kind);
    REQUIRE(found != nullptr);
    const auto sign = std::find_if(found->signs.begin(), found->signs.end(),
                                   [&](const trade::SignRule& one) { return one.code == code; });
    REQUIRE(sign != found->signs.end());
    return *sign;
}

bool contains(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

const std::string wire = "make=\"1x19\" alloy=\"316\" fitted=\"2024-05\" age-source=\"invoice\"";

}  // namespace

TEST_CASE("case: a thimble is no link, and the chain says of how many links its weakest is") {
    const survey::Survey survey =
        with(stay("s", wire), fitting("t", "thimble", "s", "deck") +
                                  made_of("316", fitting("p", "clevis-pin", "s", "deck"), of("pin-diameter", "12 mm")) +
                                  fitting("g", "toggle", "s", "deck"));
    const Calculation* chain = find(calculated(survey), "chain-of-strength");
    REQUIRE(chain != nullptr);
    CHECK(std::none_of(chain->inputs.begin(), chain->inputs.end(), [](const auto& one) { return one.of == "t"; }));
    CHECK(std::none_of(chain->missing.begin(), chain->missing.end(), [](const auto& one) { return one.of == "t"; }));
    CHECK(std::any_of(chain->notes.begin(), chain->notes.end(),
                      [](const std::string& note) { return contains(note, "2") && contains(note, "3"); }));
}

TEST_CASE("case: a plate tears out beyond its hole, in the pins as in the chain; where no hole was measured the pin") {
    const auto figures = [](const std::string& hole) {
        return calculated(with(
            stay("s", wire), made_of("316", fitting("c", "chainplate", "s", "deck"),
                                     of("plate-thickness", "8 mm") + of("edge-distance", "18 mm") + hole) +
                                 made_of("316", fitting("p", "clevis-pin", "s", "deck"), of("pin-diameter", "12 mm"))));
    };
    const double strand = 0.5253 * 64 * 1500;
    const auto tear_out = [&](const std::string& hole) {
        return *find(figures(hole), "pins")->result("tear-out").value;
    };
    CHECK(tear_out("") == doctest::Approx(strand / (2 * 12 * 8)));
    CHECK(tear_out(of("hole-diameter", "12 mm")) == doctest::Approx(strand / (2 * 12 * 8)));
    CHECK(tear_out(of("hole-diameter", "16 mm")) == doctest::Approx(strand / (2 * 10 * 8)));
    const auto& all = figures(of("hole-diameter", "16 mm"));
    const Calculation* chain = find(all, "chain-of-strength");
    CHECK(*chain->result("weakest").value == doctest::Approx(2 * 10 * 8 * 309 / 1000.0));
}

TEST_CASE("case: split pins: 5 mm wants 1.2, a US pin of 1/2 in with its cotter of 1/8 in is not too thin") {
    const auto too_thin = [](const std::string& pin, const std::string& cotter) {
        const survey::Survey survey =
            with(stay("s", wire), made_of("316", fitting("p", "clevis-pin", "s", "deck"),
                                          of("pin-diameter", pin) + of("split-pin-diameter", cotter)));
        const auto assessed = assessment::assess(survey, the_trade());
        const auto& signs = assessed.fittings.at(0).signs;
        return std::any_of(signs.begin(), signs.end(),
                           [](const auto& one) { return one.rule->code == "split-pin-thin"; });
    };
    CHECK(!too_thin("5 mm", "1.2 mm"));
    CHECK(too_thin("5 mm", "1 mm"));
    CHECK(!too_thin("12.7 mm", "3.175 mm"));
    CHECK(too_thin("12.7 mm", "2.5 mm"));
}

TEST_CASE("case: split pins: no advice bends a leg less than 10 degrees, or says 15 between both") {
    for (const char* kind : {"split-pin", "clevis-pin"})
        for (const trade::SignRule& one : the_trade().kind(kind)->signs) {
            CHECK_MESSAGE(!contains(one.act, "about 15"), kind, ": ", one.code);
            if (contains(one.act, "degrees")) CHECK_MESSAGE(contains(one.act, "10 to 15 degrees"), one.act);
        }
}

TEST_CASE("case: a heat-treated spar is sleeved, not welded; no advice welds a mast") {
    CHECK(contains(rule("mast-wall", "crack").act, "sleeve"));
    for (const trade::Kind& kind : the_trade().kinds)
        for (const trade::SignRule& one : kind.signs)
            CHECK_MESSAGE((!contains(one.act, "sleeve or weld") && !contains(one.act, "weld it")), one.act);
}

TEST_CASE("case: a chainplate is bent once, cold, and looked at with penetrant, or made new") {
    const std::string& act = rule("chainplate", "out-of-line").act;
    for (const char* piece : {"cold, once", "penetrant", "make it new"}) CHECK_MESSAGE(contains(act, piece), act);
}

TEST_CASE("case: an LED is one made for its lantern; a light that does not burn is put right, not watched") {
    CHECK(contains(rule("light", "does-not-burn").act, "this lantern"));
    CHECK(rule("light", "does-not-burn").verdict == Verdict::rectify);
    CHECK(!contains(rule("wiring", "bare").act, "does not weaken"));
    CHECK(rule("wiring", "bare").verdict == Verdict::rectify);
}

TEST_CASE("case: a furling line chafed on any furler is put right before the next passage") {
    std::size_t tried = 0;
    for (const trade::Kind& kind : the_trade().kinds)
        for (const trade::SignRule& one : kind.signs)
            if (one.code == "line-chafed") {
                CHECK(one.verdict == Verdict::rectify);
                ++tried;
            }
    CHECK(tried >= 2);
}

TEST_CASE("case: stain, bleed and corrosion of a turnbuckle are three verdicts, and a swage's bleed is like its own") {
    CHECK(rule("turnbuckle", "stain").verdict == Verdict::watch);
    CHECK(rule("turnbuckle", "rust-bleed").verdict == Verdict::rectify);
    CHECK(rule("turnbuckle", "corroded").verdict == Verdict::renew);
    CHECK(rule("swaged-terminal", "rust-bleed").verdict >= rule("turnbuckle", "rust-bleed").verdict);
}

TEST_CASE("case: a cracked turnbuckle is renewed, whatever its threads are like; a rusting one is taken apart") {
    const trade::SignRule& cracked = rule("turnbuckle", "crack");
    CHECK(cracked.verdict == Verdict::renew);
    CHECK(contains(cracked.act, "renew the turnbuckle whole"));
    CHECK(!contains(cracked.act, " if "));
    CHECK(contains(rule("turnbuckle", "rust-bleed").act, "renew body and screws if one is pitted"));
}

TEST_CASE("case: what is put right before sailing is not left to the next opportunity") {
    std::size_t asked = 0;
    for (const trade::Kind& kind : the_trade().kinds)
        for (const trade::SignRule& one : kind.signs) {
            if (one.verdict != Verdict::rectify && one.verdict != Verdict::renew) continue;
            INFO(kind.id, ": ", one.code, ": ", one.act);
            CHECK(!contains(one.act, "next opportunity"));
            CHECK(!contains(one.act, "next season"));
            ++asked;
        }
    CHECK(asked > 200);
}

TEST_CASE("case: no sign says the same thing twice: in plain words, and what it means") {
    for (const trade::Kind& kind : the_trade().kinds)
        for (const trade::SignRule& one : kind.signs) {
            INFO(kind.id, ": ", one.code);
            if (one.plainly.size() > 12) CHECK(!one.means.starts_with(one.plainly.substr(0, one.plainly.size() / 2)));
        }
}

TEST_CASE("case: a single lower carries no less than the two that may stand in its place") {
    const trade::Tables& tables = the_trade().tables;
    CHECK(tables.share("lower-shroud")->share.value >=
          tables.share("fore-lower")->share.value + tables.share("aft-lower")->share.value - 1e-9);
}

TEST_CASE("case: the shares of one pair of spreaders are not printed for two pairs") {
    survey::Survey survey =
        with(stay("s", wire) + replaced(stay("back", wire), "cap-shroud", "backstay"),
             fitting("a", "spreader-root", "", "spreader-1") + fitting("b", "spreader-root", "", "spreader-2"));
    survey.yacht.beam = Length{{3000}, "3 m"};
    survey.yacht.rm30 = Moment{{40000}, "40 kN m"};
    CHECK(find(calculated(survey), "stay-load") == nullptr);
    survey.fittings.pop_back();
    CHECK(find(calculated(survey), "stay-load") != nullptr);
}

TEST_CASE(
    "case: printed loads of 316 at 1/4, 9/32 and 5/16 in stand before the formula (printed tables; from memory)") {
    for (const auto& [inches, pounds] :
         {std::pair(0.25, 6900.0), std::pair(0.28125, 8700.0), std::pair(0.3125, 10600.0)}) {
        const std::string size = inches == 0.25 ? "1/4 in" : inches == 0.28125 ? "9/32 in" : "5/16 in";
        const survey::Survey survey =
            with(replaced(stay("s", wire), "8 mm", size), fitting("f", "strand", "s", "mast"));
        CHECK(find(calculated(survey), "strand-strength")->result("breaking-load").value ==
              doctest::Approx(pounds * 0.0044482216152605));
    }
}

TEST_CASE("case: copper is in the galvanic table") {
    const auto& metals = the_trade().tables.metals;
    CHECK(std::any_of(metals.begin(), metals.end(), [](const auto& one) { return one.id == "copper"; }));
}

TEST_CASE("case: the tensions of runners and check stays, of which one side is set up, are not compared") {
    for (const auto& [role, compared] :
         {std::pair("cap-shroud", true), std::pair("running-backstay", false), std::pair("check-stay", false)}) {
        const auto side = [&](const std::string& id, const std::string& of_side) {
            return replaced(replaced(stay(id, wire), "cap-shroud", role), "side=\"port\"", "side=\"" + of_side + "\"");
        };
        const auto& all =
            calculated(with(side("p", "port") + side("s", "starboard"),
                            made_of("316", fitting("a", "strand", "p", "mast"), of("tension", "8 kN")) +
                                made_of("316", fitting("b", "strand", "s", "mast"), of("tension", "0.5 kN"))));
        CHECK((find(all, "port-and-starboard") != nullptr) == compared);
        const auto& again = calculated(with(side("p", "port"), fitting("a", "strand", "p", "mast")));
        CHECK(find(again, "port-and-starboard") == nullptr);
    }
}
