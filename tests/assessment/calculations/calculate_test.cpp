#include <algorithm>
#include <cmath>
#include <set>

#include "assessment/calculation.hpp"
#include "base/error.hpp"
#include "survey/sample.hpp"

using namespace rigdeed;
using namespace rigdeed::sample;
using assessment::Calculation;
using assessment::Calculations;
using assessment::Figure;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

Calculations calculated(const survey::Survey& survey) {
    for (const Problem& problem : trade::check_names(survey, the_trade())) FAIL(problem.what);
    const auto assessment = assessment::assess(survey, the_trade());
    return assessment::calculate({survey, the_trade(), assessment, evidence::Evidence{}});
}

const Calculation& find(const Calculations& all, const std::string& id, const std::string& about) {
    for (const Calculation& one : all)
        if (one.id == id && (about.empty() ? one.about.empty() : std::count(one.about.begin(), one.about.end(), about)))
            return one;
    FAIL("no calculation " << id << " of " << about);
    throw 0;
}

const Figure& figure_of(const Calculation& one, const std::string& symbol) {
    const auto found = std::find_if(one.results.begin(), one.results.end(),
                                    [&](const Figure& known) { return known.symbol == symbol; });
    REQUIRE_MESSAGE(found != one.results.end(), symbol);
    return *found;
}

std::optional<double> result(const Calculation& one, const std::string& symbol) { return figure_of(one, symbol).value; }

std::string worked() { return text_of("fixtures/worked/survey.xml"); }

std::string everywhere(std::string text, const std::string& from, const std::string& to) {
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

/// Port and starboard changed over.
std::string mirrored(std::string text) {
    text = everywhere(text, "starboard", "@");
    text = everywhere(text, "port", "starboard");
    return everywhere(text, "@", "port");
}

std::multiset<std::string> numbers(const Calculations& all) {
    std::multiset<std::string> found;
    for (const Calculation& one : all)
        for (const Figure& figure : one.results)
            if (figure.value) found.insert(one.id + " " + figure.name + " " + fixed(*figure.value, 9));
    return found;
}

}  // namespace

TEST_CASE("figures are found by their ids, and one that no calculation has is a bug") {
    const Calculations all = calculated(read(worked()));
    const Calculation& chain = find(all, "chain-of-strength", "cap-port");
    CHECK(chain.input("strand").value == find(all, "strand-strength", "cap-port").result("breaking-load").value);
    CHECK(chain.result("weakest").value == doctest::Approx(62 * 0.81));
    CHECK(&chain.result("weakest") == chain.find_result("weakest"));
    CHECK(chain.find_result("strand") == nullptr);
    CHECK_THROWS_AS((void)chain.result("strand"), Error);
    CHECK_THROWS_AS((void)chain.input("weakest"), Error);
    for (const Calculation& one : all)
        for (const auto* figures : {&one.inputs, &one.results})
            for (const Figure& figure : *figures) CHECK_MESSAGE(!figure.id.empty(), one.id << ": " << figure.name);
}

TEST_CASE("port and starboard mirrored give the same figures") {
    const auto one = numbers(calculated(read(worked())));
    CHECK(one.size() > 60);
    CHECK(numbers(calculated(read(mirrored(worked())))) == one);
}

TEST_CASE("the same rig in US units gives the same figures within rounding") {
    std::string us = worked();
    struct Row {
        const char* metric;
        const char* us;
    };
    for (const Row& row :
         {Row{"beam=\"3.2 m\"", "beam=\"10.498688 ft\""},
          Row{"displacement=\"4600 kg\"", "displacement=\"10141.264 lb\""},
          Row{"gz30=\"0.5 m\"", "gz30=\"19.685039 in\""},
          Row{"breaking-load=\"30.5 kN\"", "breaking-load=\"6856.673 lbf\""},
          Row{"\"8 mm\" fitted", "\"0.31496063 in\" fitted"}, Row{"value=\"18 mm\"", "value=\"0.70866142 in\""},
          Row{"value=\"10.8 mm\"", "value=\"0.42519685 in\""}, Row{"value=\"3 mm\"", "value=\"0.11811024 in\""},
          Row{"value=\"2 m\"", "value=\"6.5616798 ft\""}, Row{"value=\"62 kN\"", "value=\"13938.1545 lbf\""},
          Row{"value=\"6.5 kN\"", "value=\"1461.2581 lbf\""}, Row{"value=\"12°\"", "value=\"12 deg\""}}) {
        REQUIRE(us.find(row.metric) != std::string::npos);
        us = everywhere(us, row.metric, row.us);
    }
    const Calculations metric = calculated(read(worked())), same = calculated(read(us));
    REQUIRE(metric.size() == same.size());
    for (std::size_t i = 0; i < metric.size(); ++i) {
        REQUIRE(metric[i].results.size() == same[i].results.size());
        for (std::size_t k = 0; k < metric[i].results.size(); ++k) {
            const Figure& a = metric[i].results[k];
            const Figure& b = same[i].results[k];
            CHECK(a.value.has_value() == b.value.has_value());
            if (a.value && b.value)
                CHECK_MESSAGE(*b.value == doctest::Approx(*a.value).epsilon(1e-6), metric[i].id, a.name);
            CHECK(assessment::text_of(a, UnitSystem::metric, the_trade().wording) ==
                  assessment::text_of(b, UnitSystem::metric, the_trade().wording));
        }
    }
}

TEST_CASE("each measure left out takes its figures away and is asked for, and never becomes a number") {
    const std::string text = worked();
    struct Row {
        const char* measure;
        const char* id;
        const char* about;
        const char* symbol;
    };
    for (const Row& row :
         {Row{"<measured what=\"plate-thickness\" value=\"8 mm\"/>", "pins", "cap-port-pin", "F / (d·t)"},
          Row{"<measured what=\"edge-distance\" value=\"18 mm\"/>", "pins", "cap-port-pin", "F / (2·(e − d/2)·t)"},
          Row{"<measured what=\"pin-diameter\" value=\"12 mm\"/>", "pins", "cap-port-pin", "F / (2·A)"},
          Row{"<measured what=\"leg-gap\" value=\"10.35 mm\"/>", "split-pins", "cap-port-split", "θ"},
          Row{"<measured what=\"angle-below\" value=\"0°\"/>", "spreader-tip", "tip-port", "slip / T"},
          Row{"<measured what=\"lamp-voltage\" value=\"12 V\"/>", "lamp-load", "steaming-light", "I = P / U"},
          Row{"<measured what=\"lamp-hours\" value=\"8 h\"/>", "lamp-load", "steaming-light", "I · h"},
          Row{" gz30=\"0.5 m\"", "rig-load", "", "P"}, Row{" beam=\"3.2 m\"", "rig-load", "", "C"}}) {
        CHECK(result(find(calculated(read(text)), row.id, row.about), row.symbol).has_value());
        const Calculations without = calculated(read(replaced(text, row.measure, "")));
        const Calculation& one = find(without, row.id, row.about);
        CHECK_MESSAGE(!result(one, row.symbol), row.measure);
        CHECK_MESSAGE(!one.missing.empty(), row.measure);
        CHECK(assessment::text_of(figure_of(one, row.symbol), UnitSystem::both, the_trade().wording) == "not measured");
        CHECK(!assessment::wanted(without).empty());
    }
}

TEST_CASE(
    "a certificate stands before a printed table, a table before the formula, and a make without either has none") {
    const auto strength = [&](const std::string& more) {
        const Calculations all = calculated(
            with("<stay id=\"s\" role=\"cap-shroud\" side=\"port\" " + more + "/>", fitting("t", "tang", "s", "mast")));
        const Calculation& one = find(all, "strand-strength", "s");
        const Figure* basis = nullptr;
        for (const Figure& figure : one.results)
            if (figure.name == "known from") basis = &figure;
        return std::pair(result(one, "F"), basis != nullptr ? basis->text : std::string());
    };
    using Pair = std::pair<std::optional<double>, std::string>;
    CHECK(strength("make=\"1x19\" alloy=\"316\" diameter=\"5 mm\" breaking-load=\"18 kN\"") == Pair(18, "certificate"));
    CHECK(strength("make=\"1x19\" alloy=\"316\" diameter=\"5 mm\"") == Pair(19.61, "printed table"));
    CHECK(strength("make=\"1x19\" alloy=\"316\" diameter=\"6 mm\"").second == "formula and grade");
    CHECK(strength("make=\"rod\" alloy=\"22-13-5\" diameter=\"8 mm\"").second == "formula and grade");
    CHECK(!strength("make=\"rod\" alloy=\"22-13-5\" diameter=\"14 mm\"").first);  // beyond what the grade is for
    CHECK(!strength("make=\"rod\" alloy=\"316\" diameter=\"6 mm\"").first);       // a grade of wires is none of rod
    CHECK(!strength("make=\"textile\" alloy=\"uhmwpe\" diameter=\"6 mm\"").first);
}

TEST_CASE("a stay's chain is as strong as the weakest link that was measured") {
    const Calculations all = calculated(read(worked()));
    const Calculation& chain = find(all, "chain-of-strength", "cap-port");
    CHECK(*result(chain, "Fw") == doctest::Approx(62 * 0.81));
    const Calculations weaker = calculated(read(replaced(worked(), "value=\"64 kN\"", "value=\"40 kN\"")));
    CHECK(*result(find(weaker, "chain-of-strength", "cap-port"), "Fw") == doctest::Approx(40));
}

TEST_CASE("metals: a carbon mast is a large cathode, an aluminium one is not; titanium has two indices") {
    const auto pair = [&](const std::string& mast, const std::string& metal) {
        std::string text = replaced(worked(), "mast=\"aluminium\"", "mast=\"" + mast + "\"");
        text = replaced(text, "height=\"12 m\" metal=\"316\"", "height=\"12 m\" metal=\"" + metal + "\"");
        const Calculations all = calculated(read(text));
        for (const Calculation& one : all)
            if (one.id == "galvanic" && one.subject.find("mast") != std::string::npos) return one;
        return Calculation{};
    };
    CHECK(pair("carbon", "aluminium").remarks.front().find("large cathode") != std::string::npos);
    CHECK(pair("aluminium", "316").remarks.empty());
    const Calculation titanium = pair("aluminium", "titanium");
    std::vector<double> differences;
    for (const Figure& figure : titanium.results)
        if (figure.symbol == "|V1 − V2|") differences.push_back(*figure.value);
    REQUIRE(differences.size() == 2);
    CHECK(differences[0] == doctest::Approx(0.60));
    CHECK(differences[1] == doctest::Approx(0.75));
    CHECK(pair("wood", "316").id.empty());
}

TEST_CASE(
    "the angle above a spreader's tip is the cap shroud's at the mast, on its own side, where none was measured "
    "there") {
    const std::string unmeasured = replaced(worked(), "<measured what=\"mast-angle\" value=\"12°\"/>", "");
    const auto times = [&](const std::string& text, const char* stay) {
        return result(find(calculated(read(text)), "mast-angle", stay), "T / H = 1 / sin β");
    };
    CHECK(*times(unmeasured, "cap-port") == doctest::Approx(1 / std::sin(12 * std::acos(-1) / 180)));
    CHECK(!times(unmeasured, "cap-starboard"));
    const std::string other =
        replaced(unmeasured, "kind=\"spreader-tip\" side=\"port\"", "kind=\"spreader-tip\" side=\"starboard\"");
    CHECK(!times(other, "cap-port"));
    CHECK(times(other, "cap-starboard").has_value());
}

TEST_CASE("quantities out of sense are said with the reason, and ordinary ones are not") {
    for (const Calculation& one : calculated(read(worked()))) CHECK(one.doubts.empty());
    struct Row {
        const char* from;
        const char* to;
    };
    for (const Row& row : {Row{"what=\"pin-diameter\" value=\"12 mm\"", "what=\"pin-diameter\" value=\"40 mm\""},
                           Row{"gz30=\"0.5 m\"", "rm30=\"40000 kN m\""}, Row{"gz30=\"0.5 m\"", "rm30=\"500 N m\""},
                           Row{"value=\"6.5 kN\"", "value=\"45 kN\""}, Row{"value=\"3 mm\"", "value=\"30 mm\""},
                           Row{"value=\"10.35 mm\"", "value=\"50 mm\""}, Row{"count=\"2\"", "count=\"40\""},
                           Row{"value=\"18 mm\"", "value=\"6 mm\""}, Row{"fitted=\"2009\"", "fitted=\"2027\""},
                           Row{"value=\"10.8 mm\"", "value=\"13 mm\""}}) {
        std::size_t doubts = 0;
        for (const Calculation& one : calculated(read(replaced(worked(), row.from, row.to))))
            doubts += one.doubts.size();
        CHECK_MESSAGE(doubts > 0, row.to);
    }
}

TEST_CASE("every calculation has words, a formula, a source and a caveat; every figure is finite or absent") {
    std::set<std::string> ids;
    for (const std::string& text : {worked(), complete(), text_of("demo/survey.xml")})
        for (const Calculation& one : calculated(read(text))) {
            ids.insert(one.id);
            for (const std::string& words : {one.title, one.subject, one.formula, one.source, one.caveat})
                CHECK_MESSAGE(!words.empty(), one.id);
            for (const auto* figures : {&one.inputs, &one.results})
                for (const Figure& figure : *figures) {
                    CHECK(!figure.name.empty());
                    CHECK((!figure.value || std::isfinite(*figure.value)));
                }
            for (const Figure& figure : one.inputs)
                CHECK_MESSAGE((!figure.known() || !figure.source.empty()), one.id, ": ", figure.name);
        }
    CHECK(ids.size() == 17);  // all but photo-scale, for which there are no photos here
}

TEST_CASE("every row of the tables names its source") {
    const trade::Tables& tables = the_trade().tables;
    std::vector<std::string> sources;
    const auto take = [&](const auto& rows) {
        CHECK(!rows.empty());
        for (const auto& row : rows) sources.push_back(row.source);
    };
    take(tables.constructions), take(tables.grades), take(tables.printed_loads), take(tables.moduli),
        take(tables.metals);
    take(tables.split_pins), take(tables.bands), take(tables.shares), take(tables.constants), take(tables.formulas);
    CHECK(sources.size() > 80);
    for (const std::string& source : sources) CHECK(source.size() > 5);
    for (const trade::MeasureName& row : tables.measures) {
        CHECK(row.least < row.most);
        for (const std::string& kind : row.kinds) CHECK_MESSAGE(the_trade().kind(kind) != nullptr, row.id, " ", kind);
    }
    for (const trade::Touch& row : tables.touches)
        CHECK(
            (the_trade().kind(row.kind) != nullptr && (row.other == "mast" || the_trade().kind(row.other) != nullptr)));
}
