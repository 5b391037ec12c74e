#include "assessment/calculations/sizing.hpp"

#include <cmath>
#include <deque>

#include "assessment/calculation.hpp"
#include "assessment/calculations/panels.hpp"
#include "assessment/calculations/pins.hpp"
#include "assessment/calculations/static_tension.hpp"
#include "survey/sample.hpp"

using namespace rigdeed;
using namespace rigdeed::assessment;
using doctest::Approx;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

Calculations calculated(survey::Survey survey) {
    static std::deque<survey::Survey> kept;
    static std::deque<Assessment> assessed;
    static const evidence::Evidence none;
    kept.push_back(std::move(survey));
    assessed.push_back(assess(kept.back(), the_trade()));
    return calculate({kept.back(), the_trade(), assessed.back(), none});
}

const Calculation* find(const Calculations& all, const std::string& id) {
    for (const Calculation& one : all)
        if (one.id == id) return &one;
    return nullptr;
}

std::string measured(std::string fitting, const std::string& what, const std::string& value) {
    return fitting.insert(fitting.rfind("</fitting>"), "<measured what=\"" + what + "\" value=\"" + value + "\"/>");
}

std::string at(std::string fitting, const std::string& height) {
    const auto from = fitting.find("height=\"") + 8, to = fitting.find('"', from);
    return fitting.replace(from, to - from, height);
}

/// Two pairs of spreaders, everything measured that their statics takes.
survey::Survey two_spreaders(const std::string& first_length = "1.0 m") {
    std::string stays, fittings;
    const std::string more = "make=\"1x19\" alloy=\"316\" fitted=\"2024-05\" age-source=\"invoice\"";
    for (const char* role : {"cap-shroud", "intermediate-shroud", "lower-shroud"})
        stays +=
            sample::replaced(sample::stay(role, more), "role=\"cap-shroud\"", std::string("role=\"") + role + "\"");
    stays += sample::replaced(sample::stay("back", more), "role=\"cap-shroud\"", "role=\"backstay\"");
    fittings += at(sample::fitting("plate", "chainplate", "cap-shroud", "deck"), "1 m");
    fittings += at(sample::fitting("low-tang", "tang", "lower-shroud", "spreader-1"), "6 m");
    fittings += measured(at(sample::fitting("root-1", "spreader-root", "", "spreader-1"), "6 m"), "spreader-length",
                         first_length);
    fittings += at(sample::fitting("mid-tang", "tang", "intermediate-shroud", "spreader-2"), "10 m");
    fittings +=
        measured(at(sample::fitting("root-2", "spreader-root", "", "spreader-2"), "10 m"), "spreader-length", "0.8 m");
    fittings += at(sample::fitting("tang", "tang", "cap-shroud", "masthead"), "14 m");
    survey::Survey survey = sample::with(stays, fittings);
    survey.yacht.rm30 = Moment{{40000}, "40 kN m"};
    survey.yacht.chainplates = Length{{2400}, "2.4 m"};
    return survey;
}

}  // namespace

TEST_CASE("panels: one pair of spreaders, by hand (statics)") {
    // 100 kN m over 10 m: 2 kN/m; 5 kN at the head, 10 kN at the spreader; legs of 1 m over 5 m.
    const auto loads = panel_loads({{100000}, {1000}, {10000}, {{{5000}, {1000}}}});
    REQUIRE(loads);
    CHECK(loads->cap.value == Approx(25 * std::hypot(1, 5) / 5));
    CHECK(loads->to_spreader.at(0).value == Approx(75 * std::hypot(1, 5) / 5));
}

TEST_CASE(
    "panels: the upright parts of all shrouds times the half base is the moment, whatever the geometry (statics)") {
    for (const double tip : {0.6, 0.9, 1.2})
        for (const double spreader : {3.0, 5.0, 7.0}) {
            const double base = tip;  // lower legs upright: what they pull is what they carry upright
            const auto loads = panel_loads({{60000}, {base * 1000}, {10000}, {{{spreader * 1000}, {tip * 1000}}}});
            REQUIRE(loads);
            const double cap = loads->cap.value / (std::hypot(tip, 10 - spreader) / (10 - spreader));
            const double lower = loads->to_spreader.at(0).value / (std::hypot(base, spreader) / spreader);
            CHECK((cap + lower) * base == Approx(60).epsilon(1e-9));
        }
}

namespace {

/// Solves the rows of coefficients, each with its right side at its end (Gauss, the greatest pivot first).
std::vector<double> solved(std::vector<std::vector<double>> rows) {
    const std::size_t n = rows.size();
    for (std::size_t k = 0; k < n; ++k) {
        std::size_t best = k;
        for (std::size_t i = k; i < n; ++i)
            if (std::abs(rows[i][k]) > std::abs(rows[best][k])) best = i;
        std::swap(rows[k], rows[best]);
        for (std::size_t i = 0; i < n; ++i) {
            if (i == k) continue;
            const double factor = rows[i][k] / rows[k][k];
            for (std::size_t j = k; j <= n; ++j) rows[i][j] -= factor * rows[k][j];
        }
    }
    std::vector<double> result;
    for (std::size_t k = 0; k < n; ++k) result.push_back(rows[k][n] / rows[k][k]);
    return result;
}

struct Node {
    double x = 0, y = 0;
};

/// The upright parts that the shrouds carry, of a pin-jointed frame of mast, spreaders and shrouds, every joint in
/// balance: the lower, the intermediates, the cap.
std::vector<double> upright_by_frame(double base, double head, const std::vector<Node>& tips, double load) {
    const std::size_t n = tips.size();
    std::vector<Node> nodes;  // spreaders' feet and head; tips; then what stands fast
    for (const Node& tip : tips) nodes.push_back({0, tip.y});
    nodes.push_back({0, head});
    nodes.insert(nodes.end(), tips.begin(), tips.end());
    const std::size_t free = nodes.size(), foot = free, plate = free + 1;
    nodes.push_back({0, 0});
    nodes.push_back({base, 0});
    std::vector<std::pair<std::size_t, std::size_t>> bars;
    for (std::size_t k = 0; k < n; ++k) bars.emplace_back(k, k == 0 ? plate : n + k);  // to the mast, from below
    bars.emplace_back(n, n + n);                                                       // the cap's head
    for (std::size_t k = 0; k < n; ++k) bars.emplace_back(n + 1 + k, k == 0 ? plate : n + k);
    for (std::size_t k = 0; k < n; ++k) bars.emplace_back(k, n + 1 + k);
    for (std::size_t k = 0; k <= n; ++k) bars.emplace_back(k, k == 0 ? foot : k - 1);
    std::vector<std::vector<double>> rows(free * 2, std::vector<double>(bars.size() + 1));
    for (std::size_t i = 0; i < bars.size(); ++i)
        for (const auto& [here, there] : {bars[i], std::pair(bars[i].second, bars[i].first)}) {
            if (here >= free) continue;
            const double dx = nodes[there].x - nodes[here].x, dy = nodes[there].y - nodes[here].y;
            rows[here * 2][i] = dx / std::hypot(dx, dy);
            rows[here * 2 + 1][i] = dy / std::hypot(dx, dy);
        }
    for (std::size_t k = 0; k <= n; ++k) {
        const double below = k == 0 ? 0 : nodes[k - 1].y, above = k == n ? head : nodes[k + 1].y;
        rows[k * 2].back() = load * (above - below) / 2;
    }
    const std::vector<double> forces = solved(std::move(rows));
    std::vector<double> upright;
    for (std::size_t i = 0; i <= n; ++i) {
        const Node a = nodes[bars[i].first], b = nodes[bars[i].second];
        upright.push_back(forces[i] * std::abs(a.y - b.y) / std::hypot(a.x - b.x, a.y - b.y));
    }
    return upright;
}

}  // namespace

TEST_CASE("panels: two and three pairs of spreaders hold what a pin-jointed frame holds, joint by joint") {
    const double moment = 60, base = 1.2, head = 13;
    const double load = 2 * moment / (head * head);
    for (const auto& tips :
         {std::vector<Node>{{1.0, 5}, {0.8, 9}}, std::vector<Node>{{1.1, 4}, {1.0, 7.5}, {0.7, 10}}}) {
        std::vector<PanelLevel> levels;
        for (const Node& tip : tips) levels.push_back({{tip.y * 1000}, {tip.x * 1000}});
        const auto loads = panel_loads({{moment * 1000}, {base * 1000}, {head * 1000}, levels});
        REQUIRE(loads);
        const auto upright = upright_by_frame(base, head, tips, load);
        std::vector<Node> chain{{base, 0}};
        chain.insert(chain.end(), tips.begin(), tips.end());
        double steepest = 1;  // of the legs that run over tips, below
        for (std::size_t k = 0; k < tips.size(); ++k) {
            const double up = chain[k + 1].y - chain[k].y;
            const double ends = std::hypot(chain[k].x, up) / up;
            CHECK(loads->to_spreader.at(k).value == Approx(upright[k] * std::max(steepest, ends)).epsilon(1e-9));
            steepest = std::max(steepest, std::hypot(chain[k + 1].x - chain[k].x, up) / up);
        }
        const double up = head - tips.back().y;
        CHECK(loads->cap.value ==
              Approx(upright.back() * std::max(steepest, std::hypot(tips.back().x, up) / up)).epsilon(1e-9));
    }
}

TEST_CASE("panels: sweep lengthens each leg by its own aft part, and nothing else (statics, in three dimensions)") {
    // 20 degrees of sweep, 1 m and 0.8 m: legs of the head 0.752 m out, 0.274 m aft, 4 m up.
    const double turned = 20 * std::acos(-1) / 180, aft = 0.35;
    const auto at = [&](double length, double height) {
        return PanelLevel{{height * 1000}, {length * 1000 * std::cos(turned)}, {length * 1000 * std::sin(turned)}};
    };
    const auto swept = panel_loads({{60000}, {1200}, {13000}, {at(1.0, 5), at(0.8, 9)}, {aft * 1000}});
    REQUIRE(swept);
    const double out1 = std::cos(turned), out2 = 0.8 * std::cos(turned), aft1 = std::sin(turned), aft2 = 0.8 * aft1;
    const auto upright = upright_by_frame(1.2, 13, {{out1, 5}, {out2, 9}}, 2 * 60.0 / (13 * 13));
    const double lower = std::hypot(1.2, 5, aft) / 5, over = std::hypot(1.2 - out1, 5, aft - aft1) / 5;
    const double middle = std::hypot(out1, 4, aft1) / 4, head = std::hypot(out2, 4, aft2) / 4;
    CHECK(swept->to_spreader.at(0).value == Approx(upright[0] * lower));
    CHECK(swept->to_spreader.at(1).value == Approx(upright[1] * std::max(middle, over)));
    CHECK(swept->cap.value == Approx(upright[2] * std::max(head, over)));
}

TEST_CASE("panels: no geometry, no loads") {
    CHECK(!panel_loads({{100000}, {0}, {10000}, {{{5000}, {1000}}}}));
    CHECK(!panel_loads({{100000}, {1000}, {4000}, {{{5000}, {1000}}}}));
    CHECK(!panel_loads({{100000}, {1000}, {10000}, {{{5000}, {0}}}}));
    CHECK(!panel_loads({{100000}, {1000}, {10000}, {{{5000}, {1000}}, {{4000}, {900}}}}));
}

TEST_CASE("two spreaders have figures by statics, and none where a spreader was not measured") {
    const Calculations all = calculated(two_spreaders());
    const Calculation* panels = find(all, "panel-load");
    REQUIRE(panels != nullptr);
    // w = 2 x 60 kN m / (13 m)²; 0.7101 kN/m: 1.4201 kN at the head, 2.8402 at the upper, 3.1953 at the lower spreader.
    const double w = 2 * 60.0 / (13 * 13);
    const double cap = w * 2 / (0.8 / 4);
    const double upper = (w * 6 - cap * (0.2 / 4)) / (1.0 / 4);
    const double lower = (w * 10.5 - (cap + upper) * (0.2 / 5)) / (1.2 / 5);
    CHECK(panels->result("cap-load").value == Approx(cap * std::hypot(0.8, 4) / 4));
    CHECK(panels->results.at(1).value == Approx(lower * std::hypot(1.2, 5) / 5));
    CHECK(panels->results.at(2).value == Approx(upper * std::hypot(1.0, 4) / 4));
    CHECK((cap + upper + lower) * 1.2 == Approx(60));
    // Without a backstay it stands by its sweep: no figure before that is measured, then another one.
    survey::Survey swept = two_spreaders();
    std::erase_if(swept.stays, [](const survey::Stay& one) { return one.role == "backstay"; });
    const Calculations unswept = calculated(swept);
    CHECK(!find(unswept, "panel-load")->has_result());
    CHECK(find(unswept, "panel-load")->missing.size() == 3);  // two angles, and the chainplate
    for (survey::Fitting& one : swept.fittings) {
        if (one.kind == "spreader-root") one.measured.push_back({0, "spreader-sweep", "20°"});
        if (one.kind == "chainplate") one.measured.push_back({0, "aft-of-mast", "350 mm"});
    }
    CHECK(*find(calculated(swept), "panel-load")->result("cap-load").value > *panels->result("cap-load").value);
    survey::Survey unmeasured = two_spreaders();
    for (survey::Fitting& one : unmeasured.fittings)
        if (one.id == "root-1") one.measured.clear();
    const Calculations without = calculated(std::move(unmeasured));
    CHECK(!find(without, "panel-load")->has_result());
    CHECK(find(without, "panel-load")->missing.size() == 1);
    CHECK(find(without, "stay-load") == nullptr);
}

TEST_CASE(
    "heel test: 25 t moved 15 m, 20 cm on a plumb line of 4 m, 8000 t: GM 0.9375 m (Ship Stability for Masters and "
    "Mates)") {
    const Degrees heel{std::atan(0.2 / 4) * 180 / std::acos(-1)};
    CHECK(moment_by_heel_test({25000}, {15000}, heel).value == Approx(8000e3 * 9.81 * 0.9375 * 0.5));
}

TEST_CASE(
    "heel test: a round hull, whose metacentre stands still, by the pressure on its skin summed up at 30 degrees") {
    // Radius 1 m, 10 m long, axis in the waterline; ballast 0.3 m below the axis. Pressure acts towards the axis, so
    // its moment about the axis is nothing, and its lift is the weight that it holds.
    const double density = 1025, length = 10, below = 0.3, pi = std::acos(-1), heel = 30 * pi / 180;
    const int strips = 200000;
    double lift = 0;
    for (int i = 0; i < strips; ++i) {
        const double angle = pi * (i + 0.5) / strips;  // from one waterline to the other
        lift += density * 9.81 * std::sin(angle) * std::sin(angle) * length * pi / strips;
    }
    const double righting = lift * below * std::sin(heel);
    const double mass = 100, arm = 1, found = std::atan(mass * 9.81 * arm / (lift * below));
    CHECK(moment_by_heel_test({mass}, {arm * 1000}, {found * 180 / pi}).value == Approx(righting).epsilon(1e-6));
}

TEST_CASE("warmth: a bar held fast at both ends, of two parts, 125 °F colder: 18.85 kip (Beer and Johnston)") {
    // 12 in of 0.6 in² and 12 in of 1.2 in², 29e6 psi, 6.5e-6 a °F: springs in a row for the one, the formula for each.
    const double kip = 4.4482216152605, inch = 25.4, fahrenheit = 5.0 / 9;
    const auto alone = [&](double area) {
        return tension_by_warmth({29000 * 6.894757}, {std::sqrt(area * 4 / std::acos(-1)) * inch}, 0,
                                 6.5e-6 / fahrenheit, -125 * fahrenheit)
            .value;
    };
    const double narrow = alone(0.6), wide = alone(1.2);
    CHECK(2 / (1 / narrow + 1 / wide) / kip == Approx(18.85).epsilon(1e-3));
}

TEST_CASE(
    "Euler: 100 kN x 2.5 on 2 m of wood, E 13 GPa: 7.794e6 mm⁴ (Beer and Johnston); W8x31 of 24 ft holds 128 kip "
    "(Hibbeler)") {
    CHECK(least_inertia({100}, {2000}, {13000}, 2.5) == Approx(7.794e6).epsilon(1e-3));
    const double inches4 = 25.4 * 25.4 * 25.4 * 25.4;
    CHECK(least_inertia({128 * 4.4482216152605}, {24 * 304.8}, {29000 * 6.894757}, 1) / inches4 ==
          Approx(37.1).epsilon(2e-3));
}

TEST_CASE(
    "warmth: a steel bar held fast, 12e-6 and 50 K, 200 GPa: 120 N/mm² (textbooks); aluminium mast and 8 mm wire") {
    const Millimetres of_100_mm2{std::sqrt(400 / std::acos(-1))};
    CHECK(tension_by_warmth({200000}, of_100_mm2, 12e-6, 0, 50).value == Approx(12.0));
    CHECK(tension_by_warmth({107000}, {8}, 23.1e-6, 16e-6, 10).value == Approx(0.3819).epsilon(1e-3));
}

TEST_CASE("a gauge's reading is read straight between two rows of its own table, and not beyond it") {
    const std::vector<survey::GaugeRow> table{{0, {{8}, "8 mm"}, 20, {{3}, "3 kN"}},
                                              {0, {{8}, "8 mm"}, 30, {{6}, "6 kN"}},
                                              {0, {{7}, "7 mm"}, 20, {{2}, "2 kN"}}};
    CHECK(by_gauge_table(25, {8}, table)->value == Approx(4.5));
    CHECK(by_gauge_table(20, {8}, table)->value == Approx(3));
    CHECK(by_gauge_table(30, {8}, table)->value == Approx(6));
    CHECK(!by_gauge_table(31, {8}, table));
    CHECK(!by_gauge_table(19, {8}, table));
    CHECK(by_gauge_table(20, {7}, table)->value == Approx(2));
    CHECK(!by_gauge_table(20, {6}, table));
}

TEST_CASE("a reading and its table make a tension at rest, and that a verdict") {
    const auto verdict = [](const std::string& reading) {
        survey::Survey survey = sample::with(
            sample::stay("s"), measured(sample::fitting("f", "strand", "s", "mast"), "gauge-reading", reading));
        survey.gauge = {{0, {{8}, "8 mm"}, 10, {{5}, "5 kN"}}, {0, {{8}, "8 mm"}, 40, {{20}, "20 kN"}}};
        return assess(survey, the_trade()).fittings.at(0).verdict;
    };
    CHECK(verdict("15") == survey::Verdict::sound);
    CHECK(verdict("22") == survey::Verdict::watch);    // 11 kN of 50.4
    CHECK(verdict("28") == survey::Verdict::rectify);  // 14 kN
    CHECK(verdict("99") == survey::Verdict::sound);    // beyond the table: no figure
}

TEST_CASE("chainplates inboard carry more than half the beam would say, and a heel test is used") {
    survey::Survey survey = sample::with(sample::stay("s"), sample::fitting("f", "light", "", "mast"));
    survey.yacht.beam = Length{{3000}, "3 m"};
    survey.yacht.heel_mass = Mass{{200}, "200 kg"};
    survey.yacht.heel_arm = Length{{2000}, "2 m"};
    survey.yacht.heel_angle = Angle{{5}, "5°"};
    const double moment = 200 * 9.81 * 2 * 0.5 / std::tan(5 * std::acos(-1) / 180);
    const auto load = [&](survey::Survey of) {
        return find(calculated(std::move(of)), "rig-load")->result("side-load").value;
    };
    CHECK(load(survey) == Approx(1.5 * moment / 1500));
    survey.yacht.chainplates = Length{{2000}, "2 m"};
    CHECK(load(survey) == Approx(1.5 * moment / 1000));
    CHECK(find(calculated(survey), "heel-test")->result("rm30").value == Approx(moment));
}

TEST_CASE("rope is sized for creep, and what bears its pin for the plate (arithmetic)") {
    CHECK(strength_for_creep({6}, {15}).value == Approx(40));
    CHECK(bearing_strength({11}, {8}, {318.1818}).value == Approx(28).epsilon(1e-5));
}

TEST_CASE("quantities: stays to be renewed by size, their terminals, their length where every one is known") {
    const std::string more = "make=\"1x19\" alloy=\"316\" fitted=\"2024-05\" age-source=\"invoice\" length=\"12 m\"";
    const std::string two =
        sample::stay("a", more) + sample::replaced(sample::stay("b", more), "side=\"port\"", "side=\"starboard\"");
    const Calculations all =
        calculated(sample::with(two, sample::fitting("f", "strand", "a", "mast", sample::sign("wire-broken")) +
                                         sample::fitting("g", "strand", "b", "mast")));
    const Calculation* lot = find(all, "quantities");
    REQUIRE(lot != nullptr);
    CHECK(lot->result("stays").value == 2);
    CHECK(lot->result("terminals").value == 4);
    CHECK(lot->result("whole-length").value == 24000);
    CHECK(find(calculated(sample::with(two, sample::fitting("g", "strand", "b", "mast"))), "quantities") == nullptr);
}

namespace {

const Calculation* bolts_of(const std::string& kind, const std::string& measures, const std::string& mast = "aluminium",
                            const std::string& others = "") {
    static std::deque<Calculations> kept;
    std::string one = sample::replaced(sample::fitting("f", kind, "s", "masthead"), "height", "metal=\"316\" height");
    one.insert(one.rfind("</fitting>"), measures);
    survey::Survey survey = sample::with(sample::stay("s", "make=\"1x19\" alloy=\"316\""), one + others);
    survey.yacht.mast = mast;
    kept.push_back(calculated(std::move(survey)));
    return find(kept.back(), "bolts");
}

std::string of(const std::string& what, const std::string& value) {
    return "<measured what=\"" + what + "\" value=\"" + value + "\"/>";
}

}  // namespace

TEST_CASE("bolts are reckoned only where one was measured, and no figure stands without its inputs") {
    CHECK(bolts_of("tang", of("wall", "4 mm")) == nullptr);
    const Calculation* uncounted = bolts_of("tang", of("bolt-diameter", "10 mm") + of("wall", "4 mm"));
    REQUIRE(uncounted != nullptr);
    CHECK(!uncounted->has_result());
    CHECK(std::any_of(uncounted->missing.begin(), uncounted->missing.end(),
                      [](const Missing& one) { return one.input == "bolts" && one.of == "f"; }));
    const Calculation* no_wall = bolts_of("through-bolt", of("bolt-diameter", "10 mm"));
    CHECK(no_wall->result("single-shear").known());
    CHECK(!no_wall->result("wall-bearing").known());
    CHECK(no_wall->find_result("bearing") == nullptr);  // no plate is in the survey
}

TEST_CASE(
    "a through-bolt is one bolt; its plate is the tang beside it; a tube bears in the wall and not in the plate") {
    const std::string tang = sample::replaced(
        sample::replaced(sample::fitting("t", "tang", "s", "masthead"), "height", "metal=\"316\" height"), "</fitting>",
        of("plate-thickness", "6 mm") + "</fitting>");
    const std::string bolt = of("bolt-diameter", "12 mm") + of("wall", "4 mm");
    const double strand = 0.5253 * 64 * 1500;
    const Calculation* plain = bolts_of("through-bolt", bolt, "aluminium", tang);
    CHECK(plain->result("wall-bearing").value == Approx(strand / (12 * 4)));
    CHECK(plain->result("bearing").value == Approx(strand / (12 * 6)));
    const Calculation* tube = bolts_of("through-bolt", bolt + of("tube-diameter", "20 mm"), "aluminium", tang);
    CHECK(tube->result("wall-bearing").value == Approx(strand / (20 * 4)));
    CHECK(tube->result("bearing").value == plain->result("bearing").value);
    CHECK(bolts_of("through-bolt", bolt + of("bolts", "2"))->result("wall-to-strand").value ==
          Approx(2 * 12 * 4 * 488 / strand));
}

TEST_CASE("what the wall of a mast of carbon or wood bears is not made up") {
    for (const char* mast : {"carbon", "wood"}) {
        const Calculation* one = bolts_of("through-bolt", of("bolt-diameter", "12 mm") + of("wall", "4 mm"), mast);
        CHECK(one->find_result("wall-bearing") == nullptr);
        CHECK(one->remarks.size() == 1);
    }
}

TEST_CASE("a panel's stiffness is printed only where its length was measured") {
    survey::Survey survey =
        sample::with(sample::stay("s"), measured(sample::fitting("w", "mast-wall", "", "mast"), "panel", "4 m"));
    CHECK(!find(calculated(survey), "panel-inertia")->has_result());
    survey.yacht.rm30 = Moment{{40000}, "40 kN m"};
    survey.yacht.chainplates = Length{{2400}, "2.4 m"};
    const double compression = 2.78 * 40000 / 1200;
    CHECK(find(calculated(survey), "panel-inertia")->result("least-inertia").value ==
          Approx(1.5 * compression * 1000 * 16e6 / (std::acos(-1) * std::acos(-1) * 70000) / 1e4));
    survey.fittings.at(0).measured.clear();
    CHECK(find(calculated(survey), "panel-inertia") == nullptr);
}
