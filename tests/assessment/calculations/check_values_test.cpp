#include <doctest/doctest.h>

#include <cmath>

#include "assessment/calculations/ages.hpp"
#include "assessment/calculations/bolts.hpp"
#include "assessment/calculations/galvanic.hpp"
#include "assessment/calculations/lamp_load.hpp"
#include "assessment/calculations/photo_scale.hpp"
#include "assessment/calculations/pins.hpp"
#include "assessment/calculations/rig_load.hpp"
#include "assessment/calculations/spreader_tip.hpp"
#include "assessment/calculations/static_tension.hpp"
#include "assessment/calculations/strand_strength.hpp"
#include "trade/trade.hpp"

// Values that others printed, or that follow from definitions; each to the digits it is given with.

using namespace rigdeed;
using namespace rigdeed::assessment;

namespace {

const trade::Tables& tables() {
    static const trade::Trade trade = trade::load_trade();
    return trade.tables;
}

std::string shown(double value, int decimals) { return fixed(value, decimals); }

Ratio factor() { return *tables().construction("1x19")->factor; }

Kilonewtons pounds(double value) { return {value * 0.0044482216152605}; }
Kilonewtons kilograms_force(double value) { return {value * 0.00980665}; }
NewtonMetres foot_pounds(double value) { return {value * 1.3558179483314004}; }
Millimetres feet(double value) { return {value * 304.8}; }
Millimetres inches(double value) { return {value * 25.4}; }
double in_pounds(Kilonewtons load) { return load.value / 0.0044482216152605; }

constexpr double psi = 0.0044482216152605 * 1000 / (25.4 * 25.4);  // in N/mm²

}  // namespace

TEST_CASE("strand strength: F = K d² R (form of EN 12385-2 and ISO 17893)") {
    CHECK(shown(breaking_force({6}, {1570}, factor()).value, 2) == "29.69");
    CHECK(shown(breaking_force({4}, {1500}, factor()).value, 2) == "12.61");
    CHECK(shown(breaking_force({8}, {1500}, factor()).value, 2) == "50.43");
    CHECK(shown(breaking_force({10}, {1400}, factor()).value, 2) == "73.54");
}

TEST_CASE("strand strength: grade 1500 gives the printed loads of 316 at 3, 4 and 5 mm within 0.5 % (printed tables)") {
    for (const auto& [diameter, printed] : {std::pair(3.0, 7.06), std::pair(4.0, 12.60), std::pair(5.0, 19.61)})
        CHECK(std::abs(breaking_force({diameter}, {1500}, factor()).value / printed - 1) < 0.005);
}

TEST_CASE(
    "rod: 50 kN on a round of 20 mm is 159 N/mm² (Beer and Johnston); 1/4 in and 3/8 in hold 10 300 and 22 500 lbf "
    "(printed tables of rod, from memory), never more by the formula and at most 6 % less") {
    const Ratio round = *tables().construction("rod")->factor;
    CHECK(breaking_force({20}, {159.155}, round).value == doctest::Approx(50).epsilon(1e-4));
    for (const auto& [inches, pounds] : {std::pair(0.25, 10300.0), std::pair(0.375, 22500.0)}) {
        const double share = breaking_force({inches * 25.4}, {1380}, round).value / (pounds * 0.0044482216152605);
        CHECK(share <= 1);
        CHECK(share > 0.94);
    }
}

TEST_CASE("strand strength: geometry of 1x19, five wires across (calculated)") {
    CHECK(shown(metal_area({1}, *tables().construction("1x19")->fill).value, 4) == "0.5969");
    CHECK(shown(factor().value / 0.88, 4) == "0.5969");
    CHECK(shown(100 - area_left(19, 1).value, 2) == "5.26");
    CHECK(shown(wires_seen(19, tables().construction("1x19")->outer).value, 0) == "63");
}

TEST_CASE("strand strength: 316 for 302 at 1/4 in keeps 0.841 (printed tables: 6900 and 8200 lbf)") {
    CHECK(shown(1 - loss(pounds(6900), pounds(8200)).value / 100, 3) == "0.841");
}

TEST_CASE("pins: an 11 mm pin under 28 kN (mechanics-of-materials textbooks)") {
    CHECK(shown(pin_area({11}).value, 2) == "95.03");
    CHECK(shown(double_shear({28}, {11}).value, 1) == "147.3");
    CHECK(shown(bearing({28}, {11}, {8}).value, 1) == "318.2");
    CHECK(shown(tear_out({{28}, {11}, {8}, {18}})->value, 1) == "140.0");
}

TEST_CASE("pins: 0.6 in under 6 kip is 10.61 ksi (mechanics-of-materials textbooks)") {
    CHECK(shown(double_shear(pounds(6000), inches(0.6)).value / psi / 1000, 2) == "10.61");
}

TEST_CASE("pins: worn to 0.9 of its diameter it has 0.81 of its area (calculated)") {
    CHECK(shown(worn_area({9.9}, {11}).value, 0) == "81");
}

TEST_CASE("pins: ultimate shear is 0.6 of 515 N/mm² for stainless 316 (from memory)") {
    CHECK(tables().constant("pin-shear-ultimate").value == 309);
    CHECK(0.6 * tables().constant("plate-ultimate").value == doctest::Approx(309));
}

TEST_CASE("pins: a hole that reaches the edge has no tear-out") {
    CHECK(!tear_out({{28}, {11}, {8}, {5.5}}));
    CHECK(!tear_out_strength({11}, {8}, {5}, {309}));
    CHECK(!net_section_strength({12}, {12}, {8}, {515}));
}

TEST_CASE("bolts: two of 0.5 in in plates of 0.375 in under 800 lbf bear 2133 psi (a published practice problem)") {
    CHECK(shown(bearing(pounds(800), {2, inches(0.5), inches(0.375)}).value / psi, 0) == "2133");
}

TEST_CASE("bolts: a rivet of 20 mm at 60 N/mm² in shear wants 7.85 mm of plate at 120 (a strength-of-materials text)") {
    const Kilonewtons load = single_shear_strength(1, {20}, {60});
    CHECK(shown(load.value, 2) == "18.85");
    CHECK(shown(single_shear(load, 1, {20}).value, 1) == "60.0");
    CHECK(shown(load.value * 1000 / (20 * 120), 2) == "7.85");
    CHECK(shown(bearing(load, {1, {20}, {7.853982}}).value, 2) == "120.00");
    CHECK(shown(bearing_strength({1, {20}, {7.853982}}, {120}).value, 2) == "18.85");
}

TEST_CASE("bolts: 1318 lbf on 0.625 in in 3/16 in stands 4.08 times to 46 000 psi (a machine-design handbook)") {
    const BoltGroup channel{1, inches(0.625), inches(3.0 / 16)};
    CHECK(bearing_strength(channel, {46000 * psi}) / pounds(1318) == doctest::Approx(4.08).epsilon(0.004));
    CHECK(bearing_strength({1, inches(0.625), inches(0.25)}, {45500 * psi}) / pounds(1318) ==
          doctest::Approx(5.40).epsilon(0.004));
}

TEST_CASE("bolts: what the table takes for the mast's wall is 2.5 of 195 N/mm² (form of EN 1999-1-1; from memory)") {
    CHECK(tables().constant("wall-bearing-ultimate").value == std::round(2.5 * 195));
}

TEST_CASE("split pins: legs of 20 mm with a gap of 10.35 mm stand at 30.0 degrees (geometry)") {
    CHECK(shown(leg_angle({20}, {10.35})->value, 1) == "30.0");
    CHECK(shown(leg_angle({20}, {40})->value, 1) == "180.0");
    CHECK(!leg_angle({20}, {40.1}));
}

TEST_CASE("split pins: the pairing by clevis pin (from memory; sizes of ISO 1234)") {
    const auto size = [&](double pin) {
        for (const trade::SplitPinSize& row : tables().split_pins)
            if (Millimetres{pin} > row.over && Millimetres{pin} <= row.up_to) return row.size.value;
        return 0.0;
    };
    for (const auto& [pin, wanted] :
         {std::pair(5.0, 1.2), std::pair(5.5, 1.6), std::pair(12.7, 3.2), std::pair(7.0, 2.0), std::pair(8.5, 2.5),
          std::pair(10.0, 3.2), std::pair(16.0, 4.0), std::pair(20.0, 5.0), std::pair(25.0, 6.3), std::pair(30.0, 0.0)})
        CHECK(size(pin) == wanted);
}

TEST_CASE("rig load: Skene's method as given in The Complete Rigger's Apprentice") {
    const Ratio shrouds{tables().constant("load-factor").value};
    const Ratio mast{tables().constant("compression-factor").value};
    const Percent cap = tables().share("cap-shroud")->share;
    const Percent lower = tables().share("fore-lower")->share;
    const Kilonewtons side = load_of_rig(foot_pounds(30000), feet(11), shrouds);
    CHECK(shown(in_pounds(side), 0) == "8182");
    CHECK(std::abs(in_pounds(share_of(side, cap)) * 2.5 - 9205) <= 1);
    CHECK(shown(in_pounds(share_of(pounds(14465), cap)) * 2.75, 0) == "17900");
    CHECK(shown(in_pounds(share_of(pounds(14465), lower)) * 2.75, 0) == "12928");
    CHECK(shown(in_pounds(load_of_rig(foot_pounds(50000), feet(11), mast)), 1) == "25272.7");
    const NewtonMetres moment{6925 * 9.80665};
    CHECK(shown(load_of_rig(moment, {2 * 1670.0}, mast) / kilograms_force(1), 0) == "11528");
    CHECK(shown(righting_moment({1490}, {277}).value, 0) == "4049");
    CHECK(shown(tables().constant("safety-least").value, 2) == "2.25");
    CHECK(shown(tables().constant("safety-wanted").value, 2) == "2.75");
    CHECK(shown(tables().share("lower-shroud")->share.value, 0) == "65");
}

TEST_CASE("rig load: 1.85 times the shrouds' load is the mast's 2.78 within 0.2 % (calculated)") {
    CHECK(std::abs(1.85 * tables().constant("load-factor").value / tables().constant("compression-factor").value - 1) <
          0.002);
}

TEST_CASE("spreader tip: forces under 10 000 N (statics)") {
    struct Row {
        TipAngles angles;
        const char* compression;
        const char* slip;
    };
    for (const Row& row : {Row{{{12}, {0}, {6}}, "2090.6", "0.0"}, Row{{{12}, {0}, {0}}, "2079.1", "-218.5"},
                           Row{{{12}, {0}, {-5}}, "2052.2", "-398.9"}, Row{{{11}, {2}, {4.5}}, "2264.1", "0.0"}}) {
        const TipForces forces = tip_forces({10}, row.angles);
        CHECK(shown(forces.compression.value * 1000, 1) == row.compression);
        CHECK(shown(forces.slip.value * 1000, 1) == row.slip);
    }
    CHECK(shown(in_pounds(tip_forces(pounds(6300), {{11}, {0}, {5.5}}).compression), 1) == "1207.7");
}

TEST_CASE("shroud angle: H 2206.9 N at 12 degrees pulls 10 615 N (statics)") {
    CHECK(shown(shroud_tension({2.2069}, {12}).value * 1000, 0) == "10615");
    CHECK(tables().constant("mast-angle-least").value == 9);  // Principles of Yacht Design
}

TEST_CASE("static tension: a wire-rope handbook's stretch factor is 112.7 GPa of the circle, 148 of the metal") {
    const Stress gross = modulus_from_stretch_factor({0.00000779});
    CHECK(shown(gross.value / 1000, 1) == "112.7");
    CHECK(shown(gross.value / 1000 / 0.76, 0) == "148");
    bool in_table = false;
    for (const trade::Modulus& row : tables().moduli)
        in_table = in_table || std::abs(row.value.value / gross.value - 1) < 0.001;
    CHECK(in_table);
}

TEST_CASE(
    "static tension: stretch of two metres at 5 % of the breaking load (wire-rope handbook; 107 GPa from memory)") {
    const Stress handbook = modulus_from_stretch_factor({0.00000779});
    CHECK(shown(stretch_under(pounds(8200) * 0.05, {2000}, inches(0.25), handbook).value, 3) == "1.022");
    CHECK(shown(stretch_under(pounds(6900) * 0.05, {2000}, inches(0.25), handbook).value, 3) == "0.860");
    const Kilonewtons metric = breaking_force({8}, {1500}, factor());
    CHECK(shown(stretch_under(metric * 0.05, {2000}, {8}, {107000}).value, 3) == "0.938");
}

TEST_CASE("static tension: two metres that grow by 1 mm carry 5 % (common practice)") {
    CHECK(tension_by_rule({{1}, {2000}}).value == doctest::Approx(5));
    CHECK(tension_by_rule({{3}, {2000}}).value == doctest::Approx(15));
    CHECK(tension_by_rule({{1}, {1000}}).value == doctest::Approx(10));
}

TEST_CASE("galvanic: differences by index and by seawater potential (reprints of MIL-STD-889; ASTM G82-type chart)") {
    const auto index = [&](const char* id) { return *tables().metal(id)->index; };
    const auto potential = [&](const char* id) {
        return middle({*tables().metal(id)->noble, *tables().metal(id)->base});
    };
    CHECK(shown(difference(index("316"), index("aluminium")).value, 2) == "0.40");
    CHECK(shown(difference(index("bronze"), index("316")).value, 2) == "0.10");
    CHECK(shown(difference(index("carbon"), index("aluminium")).value, 2) == "0.90");
    CHECK(shown(difference(potential("316"), potential("aluminium")).value, 2) == "0.83");
    CHECK(shown(index("titanium").value, 2) == "0.30");
    CHECK(shown(tables().metal("titanium")->elsewhere->value, 2) == "0.15");
    CHECK(shown(index("galvanised").value, 2) == "1.20");
    CHECK(shown(index("steel").value, 2) == "0.85");
}

TEST_CASE("photo scale: 0.104 mm a pixel at 0.30 m, 26 mm, 4000 px; 18.5 at 100 m (photogrammetry)") {
    const View phone{{300}, {26}, {36}, 4000};
    CHECK(shown(scale_of(phone).value, 3) == "0.104");
    CHECK(shown(scale_of({{100000}, {15.4}, {13.125}, 4608}).value, 1) == "18.5");
    CHECK(shown(farthest_for({0.1}, phone, {tables().constant("pixels-a-line").value}).value, 0) == "96");
}

TEST_CASE("lamp load: 25 W at 12 V for 8 h (arithmetic)") {
    CHECK(shown(lamp_current({25}, {12}).value, 3) == "2.083");
    CHECK(shown(charge(lamp_current({25}, {12}), {8}).value, 1) == "16.7");
    CHECK(shown(charge({tables().constant("led-least").value}, {12}).value, 1) == "1.2");
}

TEST_CASE("ages: whole months, the day counted (calendar)") {
    CHECK(whole_months({2014, 5, 1}, {2026, 10, 3}) == 149);
    CHECK(whole_months({2014, 5, 4}, {2026, 10, 3}) == 148);
    CHECK(whole_months({2024, 1, 31}, {2024, 2, 29}) == 1);
    CHECK(whole_months({2026, 10, 3}, {2026, 10, 3}) == 0);
    CHECK(whole_months({2027, 1, 1}, {2026, 10, 3}) == 0);
}
