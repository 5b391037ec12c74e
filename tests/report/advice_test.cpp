#include <map>
#include <regex>
#include <set>

#include "assessment/advice.hpp"
#include "base/text.hpp"
#include "drawing/rig_geometry.hpp"
#include "report/finding_meaning.hpp"
#include "report/sections/sections.hpp"
#include "survey/sample.hpp"

using namespace rigdeed;
using namespace rigdeed::sample;
using assessment::FittingVerdict;
using survey::Verdict;

namespace {

const trade::Trade& the_trade(const std::string& language = "en") {
    static std::map<std::string, trade::Trade> loaded;
    const auto known = loaded.find(language);
    return known != loaded.end() ? known->second
                                 : loaded.emplace(language, trade::load_trade({}, language)).first->second;
}

/// What to do, by the finding and by its row of the works list.
struct Told {
    std::string fitting;
    Verdict verdict;
    std::string todo, works;
};

/// All that stands beside each finding of a survey; `look` is shown what was judged.
template <class Look>
std::vector<Told> told(const survey::Survey& survey, const trade::Trade& trade, const Look& look) {
    static const evidence::Evidence none;
    static const completeness::Completeness complete;
    static const assessment::Calculations calculations;
    const auto judged = assessment::assess(survey, trade);
    look(judged);
    const drawing::RigGeometry rig = drawing::rig_geometry(survey, trade);
    const report::Material material{survey, trade,        none, complete,      judged, calculations,
                                    rig,    UnitSystem{}, {},   {2026, 10, 5}, {},     {}};
    std::vector<document::Block> blocks;
    report::works_list(material, blocks);
    std::map<int, std::string> works;
    for (const document::Block& block : blocks)
        if (const auto* table = std::get_if<document::Table>(&block.value))
            for (const document::RowGroup& group : table->groups)
                for (const document::Row& row : group.rows)
                    if (row.cells.at(0).mark) {
                        std::string& text = works[row.cells[0].mark->number];
                        text = row.cells.at(1).bold + ".";
                        for (std::size_t i = 1; i < row.cells[1].lines.size(); ++i) text += " " + row.cells[1].lines[i];
                    }
    std::vector<Told> all;
    for (const std::size_t i : judged.findings) {
        const FittingVerdict& one = judged.fittings[i];
        all.push_back({one.fitting->id, one.verdict, report::finding_meaning(material, one).right, works[one.number]});
    }
    return all;
}

std::vector<Told> told(const survey::Survey& survey, const trade::Trade& trade) {
    return told(survey, trade, [](const auto&) {});
}

std::string shroud(const std::string& id, const std::string& side, const std::string& fitted) {
    return "<stay id=\"" + id + "\" role=\"cap-shroud\" side=\"" + side +
           "\" diameter=\"8 mm\" make=\"1x19\" alloy=\"316\"" +
           (fitted.empty() ? "" : " fitted=\"" + fitted + "\" age-source=\"invoice\"") + "/>";
}

std::string sign_of(const std::string& code) { return "<sign code=\"" + code + "\">seen</sign>"; }

std::string parts(const std::string& stay, const std::string& low) {
    return fitting(stay + "-low", "swaged-terminal", stay, "deck", low) +
           fitting(stay + "-line", "strand", stay, "mast") +
           fitting(stay + "-high", "swaged-terminal", stay, "masthead");
}

/// Milder than renewal: what only a part that stays is told.
const std::regex milder("[Ll]ook again|[Pp]lan (its|to|the|renewal)|unstep and test|if not, keep|if there is a line");

bool twice_in(const std::string& text) {
    std::set<std::string> seen;
    static const std::regex sentence("[^.;]{12,}[.;]");
    for (std::sregex_iterator at(text.begin(), text.end(), sentence), end; at != end; ++at)
        if (!seen.insert(lower(at->str().substr(at->str().find_first_not_of(" \n")))).second) return true;
    return false;
}

}  // namespace

TEST_CASE("what is renewed is not told to be looked at again, planned or tested instead: each kind, sign and age") {
    std::size_t renewed = 0;
    for (const std::string fitted : {"2025-05", "2014-05", "1990-05", ""})
        for (const bool other_ends : {false, true})
            for (const trade::Kind& kind : the_trade().kinds)
                for (const trade::SignRule& rule : kind.signs) {
                    const survey::Survey survey =
                        with(shroud("p", "port", fitted) + shroud("s", "starboard", "2014-05"),
                             fitting("f", kind.id, "p", "deck", sign_of(rule.code)) + parts("p", "") +
                                 parts("s", other_ends ? sign_of("crack-along") : ""));
                    for (const Told& one : told(survey, the_trade())) {
                        if (one.verdict != Verdict::renew) continue;
                        ++renewed;
                        for (const std::string& text : {one.todo, one.works}) {
                            INFO(kind.id, " ", rule.code, " ", fitted, " ", one.fitting, ": ", text);
                            CHECK(!std::regex_search(text, milder));
                            CHECK(!text.empty());
                            CHECK(!twice_in(one.todo));
                        }
                    }
                }
    CHECK(renewed > 1000);
}

TEST_CASE("by the surveyor's own word renewed: still told what to do") {
    std::string worse = fitting("line", "strand", "p", "mast");
    worse = replaced(worse, "</fitting>", "<verdict is=\"renew\" because=\"it is done\"/></fitting>");
    for (const std::string fitted : {"2025-05", "2014-05", "1990-05"})
        for (const Told& one : told(with(shroud("p", "port", fitted), worse), the_trade())) {
            CHECK(one.verdict == Verdict::renew);
            CHECK(!one.todo.empty());
            CHECK(!std::regex_search(one.todo, milder));
        }
}

TEST_CASE("a part of a stay that is renewed whole goes with it, and its own verdict stays what it was") {
    const survey::Survey survey =
        with(shroud("p", "port", "2014-05"), fitting("f", "toggle", "p", "deck") + parts("p", sign_of("crack-along")));
    std::map<std::string, Verdict> verdicts;
    const auto all = told(survey, the_trade(), [&](const assessment::Assessment& judged) {
        for (const FittingVerdict& one : judged.fittings) verdicts[one.fitting->id] = one.verdict;
    });
    CHECK(verdicts.at("p-low") == Verdict::renew);
    CHECK(verdicts.at("p-line") == Verdict::watch);
    for (const Told& one : all)
        if (one.fitting == "p-line")
            for (const std::string& text : {one.todo, one.works}) {
                CAPTURE(text);
                CHECK(text.find("with its stay") != std::string::npos);
                CHECK(text.find("item 1") != std::string::npos);
                CHECK(!std::regex_search(text, milder));
            }
}

TEST_CASE("the opposite number that a shroud is renewed with is the other side, in every language") {
    for (const std::string language : {"en", "de", "es", "fr"}) {
        const trade::Trade& trade = the_trade(language);
        const survey::Survey survey = with(shroud("p", "port", "2024-05") + shroud("s", "starboard", "2024-05"),
                                           parts("p", sign_of("crack-along")) + parts("s", ""));
        const std::string other = trade::stay_name(survey.stays.at(0), trade),
                          own = trade::stay_name(survey.stays.at(1), trade);
        bool found = false;
        for (const Told& one : told(survey, trade)) {
            if (one.fitting != "s-line") continue;
            found = true;
            CAPTURE(one.todo);
            CHECK(one.todo.find(other) != std::string::npos);
            CHECK(one.todo.rfind(other) > one.todo.find(own));
            CHECK(one.works.find(other) != std::string::npos);
        }
        CHECK(found);
    }
}
