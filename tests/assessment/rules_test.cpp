#include <deque>

#include "assessment/age.hpp"
#include "assessment/assessment.hpp"
#include "survey/sample.hpp"

using namespace rigdeed;
using namespace rigdeed::sample;
using assessment::Answer;
using assessment::FittingVerdict;
using survey::Verdict;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

const assessment::Assessment& assess_one(survey::Survey survey) {
    static std::deque<survey::Survey> kept;
    static std::deque<assessment::Assessment> made;
    kept.push_back(std::move(survey));
    made.push_back(assessment::assess(kept.back(), the_trade()));
    return made.back();
}

const FittingVerdict& find(const assessment::Assessment& all, const std::string& id) {
    for (const FittingVerdict& one : all.fittings)
        if (one.fitting->id == id) return one;
    FAIL("no ", id);
    return all.fittings.front();
}

bool says(const FittingVerdict& one, const std::string& rule) {
    return std::any_of(one.consequences.begin(), one.consequences.end(),
                       [&](const auto& by) { return by.rule->id == rule; });
}

std::string made(const std::string& make, const std::string& alloy, const std::string& fitted) {
    return "make=\"" + make + "\" alloy=\"" + alloy + "\"" +
           (fitted.empty() ? "" : " fitted=\"" + fitted + "\" age-source=\"invoice\"");
}

std::string wire(const std::string& fitted) { return made("1x19", "316", fitted); }

/// A strand and its two terminals.
std::string parts(const std::string& stay, const std::string& low = "", const std::string& line = "") {
    return fitting(stay + "-low", "swaged-terminal", stay, "deck", low) +
           fitting(stay + "-line", "strand", stay, "mast", line) +
           fitting(stay + "-high", "swaged-terminal", stay, "masthead");
}

}  // namespace

TEST_CASE("from new to sixty years old no make's verdict ever gets milder, and past its custom none is sound") {
    struct Row {
        const char* make;
        const char* alloy;
        const char* line;
        const char* end;
    };
    for (const Row& row :
         {Row{"1x19", "316", "strand", "swaged-terminal"}, Row{"compact", "316", "strand", "swaged-stud"},
          Row{"7x7", "galvanised", "wire-rope", "spliced-eye"},
          Row{"7x19", "galvanised", "wire-rope", "swaged-terminal"}, Row{"rod", "22-13-5", "rod", "rod-head"},
          Row{"textile", "uhmwpe", "textile-stay", "spliced-eye"}}) {
        CAPTURE(row.make);
        const trade::Band& band = *the_trade().tables.band(row.make);
        Verdict before = Verdict::sound;
        for (int months = 0; months <= 60 * 12; months += 3) {
            const Date fitted = months_later({2026, 10, 3}, -months);
            const auto& result =
                assess_one(with(stay("s", made(row.make, row.alloy, fitted.iso())),
                                fitting("line", row.line, "s", "mast") + fitting("end", row.end, "s", "deck") +
                                    fitting("plate", "chainplate", "s", "deck")));
            CAPTURE(months);
            const Verdict verdict = find(result, "line").verdict;
            CHECK(verdict >= before);
            CHECK(find(result, "end").verdict == verdict);
            CHECK(find(result, "plate").verdict == Verdict::sound);
            CHECK((verdict == Verdict::sound) == (months <= band.common));
            CHECK((verdict == Verdict::rectify) == (months > band.most));
            CHECK(result.findings.size() == (verdict == Verdict::sound ? 0U : 1U));
            before = verdict;
        }
        CHECK(before == Verdict::rectify);
    }
}

TEST_CASE("miles count like years: within the spread watched, far beyond it put right") {
    const auto sailed = [](const std::string& miles) {
        return find(assess_one(with(stay("s", wire("2024-05") + " sailed=\"" + miles + " nmi\""), parts("s"))),
                    "s-line")
            .verdict;
    };
    CHECK(sailed("15999") == Verdict::sound);
    CHECK(sailed("16000") == Verdict::watch);
    CHECK(sailed("30000") == Verdict::watch);
    CHECK(sailed("30001") == Verdict::rectify);
}

TEST_CASE("rope rigging of 1990 is not sound, and the rig not ready") {
    const auto& result =
        assess_one(with(stay("s", made("textile", "uhmwpe", "1990")),
                        fitting("line", "textile-stay", "s", "mast") + fitting("eye", "spliced-eye", "s", "deck")));
    CHECK(find(result, "line").verdict == Verdict::rectify);
    CHECK(find(result, "eye").verdict == Verdict::rectify);
    CHECK(result.answer == Answer::after_work);
}

TEST_CASE("rust at the end of a stay past its age renews the stay; of a young one it is put right") {
    const auto low = [](const std::string& fitted, const std::string& code) {
        return find(assess_one(with(stay("s", wire(fitted)), parts("s", sign(code)))), "s-low");
    };
    CHECK(low("1990", "rust-bleed").verdict == Verdict::renew);
    CHECK(assessment::renews_stay(low("1990", "rust-bleed")));
    CHECK(low("2016-09", "pits").verdict == Verdict::renew);
    CHECK(low("2016-11", "pits").verdict == Verdict::rectify);
    CHECK(low("2024-05", "rust-bleed").verdict == Verdict::rectify);
}

TEST_CASE("what was not seen and is past its age: unstep") {
    const auto line = [](const std::string& fitted) {
        std::string text =
            "<fitting id=\"f\" kind=\"strand\" stay=\"s\" station=\"mast\" height=\"2 m\"><not-seen "
            "reason=\"in the foil\"/></fitting>";
        return find(assess_one(with(stay("s", wire(fitted)), text)), "f");
    };
    CHECK(line("2010").verdict == Verdict::rectify);
    CHECK(says(line("2010"), "unseen-and-age"));
    CHECK(line("2024-05").verdict == Verdict::unseen);
}

TEST_CASE("an unknown age is put right where another stay is finished, and only there") {
    const auto unknown = [](const std::string& low) {
        return find(assess_one(with(stay("a", wire("")) + stay("b", made("rod", "22-13-5", "2024-05")),
                                    parts("a") + fitting("b-rod", "rod", "b", "mast", low))),
                    "a-line")
            .verdict;
    };
    CHECK(unknown("") == Verdict::sound);
    CHECK(unknown(sign("bend")) == Verdict::rectify);
}

TEST_CASE("what is only old stands once, with its stay; a part with a sign of its own stands for itself") {
    const auto& result = assess_one(with(stay("s", wire("2010")), parts("s", sign("cup-full"))));
    CHECK(result.findings.size() == 2);
    CHECK(find(result, "s-high").verdict == Verdict::watch);
    CHECK(find(result, "s-high").number == find(result, "s-line").number);
    CHECK(find(result, "s-high").with.has_value());
    CHECK(!find(result, "s-low").with);
    CHECK(result.count(Verdict::sound) == 0);
}

TEST_CASE("the age and the custom stand in the words of the finding, and the custom is told as custom") {
    const auto& result = assess_one(with(stay("s", wire("2010-10-03")), parts("s")));
    const FittingVerdict& line = find(result, "s-line");
    const auto words = [&](const std::string& pattern) {
        return assessment::words_of(line.consequences.at(0), pattern, line, result, the_trade());
    };
    CHECK(words(line.consequences.at(0).rule->name).find("16 years old") != std::string::npos);
    CHECK(words(line.consequences.at(0).rule->means).find("7 years to 20 years") != std::string::npos);
    CHECK(words(line.consequences.at(0).rule->means).find("Custom, not physics") != std::string::npos);
}

TEST_CASE("running backstays are renewed in pairs, and their tensions are not held against each other") {
    const auto of = [](const std::string& id, const std::string& side) {
        return replaced(replaced(stay(id, wire("2024-05")), "cap-shroud", "running-backstay"), "side=\"port\"",
                        "side=\"" + side + "\"");
    };
    const std::string both = of("run-p", "port") + of("run-s", "starboard");
    const auto& worn = assess_one(with(both, parts("run-p", "", sign("wire-broken")) + parts("run-s")));
    CHECK(says(find(worn, "run-s-line"), "opposite-number"));
    const auto tight = [](std::string text, const std::string& value) {
        return text.insert(text.rfind("</fitting>"), "<measured what=\"tension\" value=\"" + value + "\"/>");
    };
    const auto strand = [&](const std::string& on, const std::string& value) {
        return tight(sample::fitting(on + "-line", "strand", on, "mast"), value);
    };
    const auto& unlike = assess_one(with(both, strand("run-p", "8 kN") + strand("run-s", "1 kN")));
    for (const auto& one : unlike.fittings)
        for (const auto& judged : one.signs) CHECK(!judged.rule->code.starts_with("apart"));
}

TEST_CASE("same make within a year, or older, is watched after a failure; the opposite number is renewed with it") {
    const auto of = [](const std::string& id, const std::string& role, const std::string& side,
                       const std::string& fitted) {
        return replaced(replaced(stay(id, wire(fitted)), "cap-shroud", role), "side=\"port\"", "side=\"" + side + "\"");
    };
    const auto& result = assess_one(
        with(of("cap-p", "cap-shroud", "port", "2019-05") + of("cap-s", "cap-shroud", "starboard", "2019-05") +
                 of("next", "lower-shroud", "port", "2020-05") + of("later", "lower-shroud", "starboard", "2020-06") +
                 of("old", "forestay", "centre", "2017-03"),
             parts("cap-p", "", sign("wire-broken")) + parts("cap-s") + parts("next") + parts("later") + parts("old")));
    CHECK(find(result, "cap-s-line").verdict == Verdict::renew);
    CHECK(says(find(result, "cap-s-line"), "opposite-number"));
    CHECK(assessment::renews_stay(find(result, "cap-s-line")));
    CHECK(find(result, "next-line").verdict == Verdict::watch);
    CHECK(says(find(result, "next-line"), "same-make-and-age"));
    CHECK(!says(find(result, "later-line"), "same-make-and-age"));
    CHECK(says(find(result, "old-line"), "same-make-and-age"));
}

TEST_CASE("port unlike starboard is watched on both sides: make, alloy, size or age") {
    const auto verdict = [](const std::string& starboard) {
        const auto& result = assess_one(
            with(stay("p", wire("2024-05")) +
                     replaced("<stay id=\"s\" role=\"cap-shroud\" side=\"starboard\" " + starboard + "/>", "", ""),
                 parts("p") + parts("s")));
        CHECK(find(result, "p-line").verdict == find(result, "s-line").verdict);
        return find(result, "p-line").verdict;
    };
    CHECK(verdict("diameter=\"8 mm\" " + wire("2024-05")) == Verdict::sound);
    CHECK(verdict("diameter=\"8 mm\" " + wire("2025-05")) == Verdict::sound);
    CHECK(verdict("diameter=\"8 mm\" " + wire("2025-06")) == Verdict::watch);
    CHECK(verdict("diameter=\"6 mm\" " + wire("2024-05")) == Verdict::watch);
    CHECK(verdict("diameter=\"8 mm\" " + made("1x19", "304", "2024-05")) == Verdict::watch);
    CHECK(verdict("diameter=\"8 mm\" " + made("compact", "316", "2024-05")) == Verdict::watch);
}

TEST_CASE("a cracked upper end makes the lower one suspect, whatever sort either is") {
    const std::vector<std::string> ends{"swaged-terminal",      "swaged-stud", "t-terminal",
                                        "compression-terminal", "rod-head",    "terminal-eye"};
    for (const std::string& upper : ends)
        for (const std::string& lower : ends) {
            INFO(upper, " above ", lower);
            const std::string code = upper == "terminal-eye" || upper == "swaged-terminal" || upper == "swaged-stud"
                                         ? "crack-across"
                                         : "crack";
            const auto& result =
                assess_one(with(stay("s", wire("2024-05")), fitting("low", lower, "s", "deck") +
                                                                fitting("high", upper, "s", "masthead", sign(code))));
            CHECK(find(result, "low").verdict == Verdict::watch);
        }
}

TEST_CASE("a stay that carries a sail wants toggles at both ends; a rope one and a shroud do not") {
    const auto verdict = [](const std::string& role, const std::string& more, const std::string& of = wire("2024-05"),
                            const std::string& end = "") {
        std::string one = replaced(replaced(stay("s", of), "cap-shroud", role), "side=\"port\"", "side=\"centre\"");
        if (!end.empty()) one = replaced(one, "/>", ">" + end + "</stay>");
        return find(assess_one(with(one, parts("s") + more)), "s-high").verdict;
    };
    CHECK(verdict("forestay", "") == Verdict::watch);
    CHECK(verdict("inner-forestay", "") == Verdict::watch);
    CHECK(verdict("backstay", "") == Verdict::sound);
    CHECK(verdict("forestay", fitting("t", "toggle", "s", "deck")) == Verdict::watch);
    CHECK(verdict("forestay", fitting("t", "toggle", "s", "masthead")) == Verdict::sound);
    CHECK(verdict("forestay", fitting("t", "toggle", "s", "masthead", sign("missing"))) == Verdict::watch);
    CHECK(verdict("forestay", "", wire("2024-05"), "<end at=\"top\" toggle=\"yes\"/>") == Verdict::sound);
    CHECK(verdict("forestay", "", made("textile", "uhmwpe", "2024-05")) == Verdict::sound);
    CHECK(verdict("backstay", fitting("foil", "foil", "s", "mast")) == Verdict::watch);
}

TEST_CASE("cause and consequence are named: toggle and bent screw, halyard and stay, tip and root") {
    const auto& bent = assess_one(
        with(stay("s", wire("2024-05")), fitting("t", "toggle", "s", "deck", sign("seized")) +
                                             fitting("screw", "turnbuckle", "s", "deck", sign("screw-bent"))));
    CHECK(says(find(bent, "screw"), "cause-toggle"));
    CHECK(find(bent, "screw").consequences.at(0).because_of == 0);
    const auto& wrap = assess_one(with(replaced(stay("s", made("rod", "22-13-5", "2024-05")), "cap-shroud", "forestay"),
                                       fitting("swivel", "furler-swivel", "s", "mast", sign("halyard-wrap")) +
                                           fitting("foil", "foil", "s", "mast") + fitting("rod", "rod", "s", "mast")));
    CHECK(find(wrap, "rod").verdict == Verdict::watch);
    CHECK(find(wrap, "foil").verdict == Verdict::watch);
    const auto& tip = assess_one(
        with(stay("s", wire("2024-05")), fitting("tip", "spreader-tip", "", "spreader-1", sign("not-seized")) +
                                             fitting("root", "spreader-root", "", "spreader-1") +
                                             fitting("other", "spreader-root", "", "spreader-2")));
    CHECK(find(tip, "root").verdict == Verdict::watch);
    CHECK(find(tip, "other").verdict == Verdict::sound);
}

TEST_CASE("what kills a climber bars climbing aloft too, in either pass") {
    const std::vector<std::pair<const char*, const char*>> rows{{"strand", "wire-broken"},
                                                                {"masthead", "crack"},
                                                                {"masthead", "loose"},
                                                                {"mast-wall", "crack"},
                                                                {"sheave-box", "crack"},
                                                                {"spreader-root", "crack"},
                                                                {"compression-terminal", "crack"},
                                                                {"rod-head", "crack"},
                                                                {"toggle", "crack"},
                                                                {"swaged-terminal", "slipped"},
                                                                {"spliced-eye", "slipping"},
                                                                {"textile-stay", "fibre-chafe"},
                                                                {"terminal-eye", "crack-across"},
                                                                {"clevis-pin", "no-split-pin"},
                                                                {"masthead", "sheave-worn"},
                                                                {"masthead", "halyard-crossed"},
                                                                {"sheave-box", "pin-unlocked"},
                                                                {"halyard-exit", "edge-sharp"},
                                                                {"spreader", "soft"},
                                                                {"jumper-strut", "crack"},
                                                                {"rod", "nick"}};
    for (const auto& [kind, code] : rows)
        for (const bool down : {false, true}) {
            INFO(kind, ": ", code);
            const auto& result =
                assess_one(with(stay("s", wire("2024-05")),
                                fitting("f", kind, "s", "mast", down ? "" : sign(code), down ? sign(code) : "")));
            CHECK(result.do_not_climb);
            REQUIRE(result.barred.size() == 1);
            CHECK(result.barred.at(0).mast.empty());
            CHECK(result.barred.at(0).items == std::vector<int>{result.fittings.at(0).number});
        }
}

TEST_CASE("nothing on a guardwire, a gooseneck or a light bars climbing") {
    for (const char* id : {"guardwire", "stanchion-base", "gooseneck", "light", "wiring", "antenna", "flag-halyard"})
        for (const trade::SignRule& rule : the_trade().kind(id)->signs)
            CHECK_MESSAGE(rule.bars == trade::Bars::never, id, rule.code);
}

TEST_CASE("the mast that is barred is the one it stands on; a triatic bars both, and what names no mast all") {
    const auto barred = [](const std::string& stay_text, const std::string& kind, const std::string& code) {
        const std::string stays = replaced(stay("m", wire("2024-05")), "side", "mast=\"main\" side") + stay_text;
        const std::string line = replaced(fitting("x", "strand", "m", "mast"), "height", "height");
        std::vector<std::string> masts;
        for (const auto& one : assess_one(with(stays, line + fitting("f", kind, "z", "deck", sign(code)))).barred)
            masts.push_back(one.mast);
        return masts;
    };
    using Masts = std::vector<std::string>;
    const std::string mizzen =
        replaced(stay("z", made("textile", "uhmwpe", "2024-05")), "side", "mast=\"mizzen\" side");
    CHECK(barred(mizzen, "deadeye-lashing", "chafe") == Masts{"mizzen"});
    CHECK(barred(replaced(mizzen, "mizzen", "main"), "deadeye-lashing", "chafe") == Masts{"main"});
    CHECK(barred(replaced(mizzen, "cap-shroud", "triatic"), "textile-stay", "fibre-chafe") == Masts{"main", "mizzen"});
    CHECK(barred(replaced(mizzen, "mast=\"mizzen\" ", "") +
                     replaced(replaced(mizzen, "id=\"z\"", "id=\"y\""), "cap-shroud", "backstay"),
                 "deadeye-lashing", "chafe") == Masts{"main", "mizzen"});
}

TEST_CASE("what is finished or bars climbing is called no milder than rectify, whatever the reason") {
    const auto word = [](const std::string& kind, const std::string& code, const std::string& is) {
        std::string text = fitting("f", kind, "s", "deck", sign(code));
        text.insert(text.rfind("</fitting>"), "<verdict is=\"" + is + "\" because=\"owner says ok\"/>");
        return with(stay("s", wire("2024-05")), text);
    };
    for (const char* is : {"sound", "watch"}) {
        const survey::Survey cracked = word("swaged-terminal", "crack-along", is);
        CHECK(assess_one(cracked).fittings.at(0).verdict == Verdict::rectify);
        CHECK(assess_one(cracked).do_not_climb);
        const Problems problems = trade::check_names(cracked, the_trade());
        REQUIRE(problems.size() == 1);
        CHECK(problems.at(0).at.line > 0);
        CHECK(problems.at(0).what.find("crack-along") != std::string::npos);
        CHECK(problems.at(0).hint.find("rectify") != std::string::npos);
    }
    CHECK(trade::check_names(word("swaged-terminal", "crack-along", "rectify"), the_trade()).empty());
    CHECK(assess_one(word("swaged-terminal", "crack-along", "rectify")).fittings.at(0).verdict == Verdict::rectify);
    CHECK(trade::check_names(word("clevis-pin", "head-down", "watch"), the_trade()).empty());
    CHECK(trade::check_names(word("clevis-pin", "no-split-pin", "watch"), the_trade()).size() == 1);
    CHECK(trade::check_names(word("swaged-terminal", "crack-along", "renew"), the_trade()).empty());
}

namespace {

int rank(Answer answer) {
    switch (answer) {
        case Answer::nothing_found: return 0;
        case Answer::nothing_found_in_seen: return 1;
        case Answer::after_work: return 2;
        case Answer::not_to_be_sailed: return 3;
        case Answer::stopped_at_deck: return 4;
    }
    return 5;
}

/// A stay with one fitting of every kind on it, old enough and young enough for every rule to matter, and its opposite.
std::string whole_rig(const std::string& first_kind, const std::string& first, const std::string& second_kind,
                      const std::string& second) {
    std::string text =
        fitting("one", first_kind, "p", "deck", first) + fitting("two", second_kind, "p", "masthead", "", second);
    return text + parts("s") + fitting("p-line", "strand", "p", "mast") +
           fitting("rope-line", "textile-stay", "rope", "mast");
}

survey::Survey rig_of(const std::string& fittings) {
    return with(stay("p", wire("2015-05")) +
                    replaced(stay("s", wire("2015-05")), "side=\"port\"", "side=\"starboard\"") +
                    replaced(stay("rope", made("textile", "uhmwpe", "")), "cap-shroud", "forestay"),
                fittings);
}

}  // namespace

TEST_CASE("adding a bad sign to any other never makes any verdict, any bar or the rig's answer milder") {
    std::size_t tried = 0;
    std::vector<std::pair<std::string, std::string>> signs;
    for (const trade::Kind& kind : the_trade().kinds)
        for (const trade::SignRule& rule : kind.signs) signs.emplace_back(kind.id, rule.code);
    for (std::size_t i = 0; i < signs.size(); ++i)
        for (std::size_t k = i % 7; k < signs.size(); k += 7) {  // every sign with every seventh other, all in turn
            const auto& [kind, code] = signs[i];
            const auto& [other, added] = signs[k];
            const survey::Survey before = rig_of(whole_rig(kind, sign(code), other, ""));
            const survey::Survey after = rig_of(whole_rig(kind, sign(code), other, sign(added)));
            const auto was = assessment::assess(before, the_trade()), is = assessment::assess(after, the_trade());
            bool milder =
                rank(is.answer) < rank(was.answer) || is.worst < was.worst || (was.do_not_climb && !is.do_not_climb);
            for (std::size_t f = 0; f < was.fittings.size(); ++f)
                milder = milder || is.fittings[f].verdict < was.fittings[f].verdict ||
                         (was.fittings[f].bars_climbing && !is.fittings[f].bars_climbing);
            if (milder) FAIL_CHECK(kind << "/" << code << " and then " << other << "/" << added);
            ++tried;
        }
    CHECK(tried > 9000);
}

TEST_CASE("the rule that makes a verdict worse than the signs is the one that is told first") {
    const auto of = [](const std::string& id, const std::string& side) {
        return replaced(stay(id, wire("2019-05")), "side=\"port\"", "side=\"" + side + "\"");
    };
    const auto& result = assess_one(with(of("p", "port") + of("s", "starboard"),
                                         parts("p", "", sign("wire-broken")) + parts("s", "", sign("tea-stain"))));
    const FittingVerdict& line = find(result, "s-line");
    REQUIRE(assessment::worse_than_signs(line) != nullptr);
    CHECK(assessment::worse_than_signs(line)->rule->id == "opposite-number");
    CHECK(assessment::worse_than_signs(find(result, "p-line")) == nullptr);
}
