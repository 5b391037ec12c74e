#include "assessment/calculations/sizing.hpp"

#include <cmath>
#include <numbers>

#include "assessment/calculations/static_tension.hpp"
#include "assessment/calculations/strand_strength.hpp"
#include "assessment/calculations/working.hpp"

namespace rigdeed::assessment {
namespace {

/// The stays of one size that are to be renewed.
struct Lot {
    std::string name;
    std::vector<std::string> ids;
    Millimetres length;
    bool every_length = true;
};

std::vector<Lot> lots_of(const Case& one) {
    std::vector<Lot> lots;
    for (const survey::Stay& stay : one.survey.stays) {
        const bool renewed = std::any_of(one.assessment.fittings.begin(), one.assessment.fittings.end(),
                                         [&](const FittingVerdict& of) { return of.stay == &stay && renews_stay(of); });
        if (!renewed) continue;
        const trade::Make* make = one.trade.make(stay.make);
        const std::string name = (make != nullptr ? make->name : stay.make) + ", " +
                                 one.trade.material_name(stay.alloy) + ", " +
                                 one.trade.wording.numbers(stay.diameter.text);
        auto lot = std::find_if(lots.begin(), lots.end(), [&](const Lot& known) { return known.name == name; });
        if (lot == lots.end()) lot = lots.insert(lots.end(), Lot{name, {}, {}, true});
        lot->ids.push_back(stay.id);
        if (stay.length) lot->length += stay.length->quantity;
        else lot->every_length = false;
    }
    return lots;
}

}  // namespace

NewtonMetres moment_by_heel_test(Kilograms mass, Millimetres arm, Degrees heel) {
    return {mass.value * gravity * arm.value / 1000 * 0.5 / std::tan(heel.value * std::numbers::pi / 180)};
}

Kilonewtons tension_by_warmth(Stress modulus, Millimetres diameter, double mast, double stay, double kelvin) {
    return {modulus.value * circle(diameter).value * (mast - stay) * kelvin / 1000};
}

Kilonewtons strength_for_creep(Kilonewtons at_rest, Percent most) { return at_rest / (most.value / 100); }

void heel_tests(const Case& one, Calculations& all) {
    const survey::Yacht& yacht = one.survey.yacht;
    if (!yacht.heel_mass || !yacht.heel_arm || !yacht.heel_angle) return;
    Working working(one, "heel-test");
    working.about(one.trade.wording("calc.rig-load.rig"), {});
    const std::string survey = one.trade.wording("calc.source.survey");
    working.input<Kilograms>("m", "heel-mass", yacht.heel_mass->quantity, 0, survey);
    working.input<Millimetres>("a", "heel-arm", yacht.heel_arm->quantity, 0, survey);
    working.input<Degrees>("φ", "heel-angle", yacht.heel_angle->quantity, 1, survey);
    const NewtonMetres moment =
        moment_by_heel_test(yacht.heel_mass->quantity, yacht.heel_arm->quantity, yacht.heel_angle->quantity);
    working.result<NewtonMetres>("RM30", "rm30", std::optional(moment), 0);
    if (yacht.heel_angle->quantity.value < 1 || yacht.heel_angle->quantity.value > 10) working.remark("small-angle");
    if (const auto other = yacht.rm30 ? std::optional(yacht.rm30->quantity) : std::nullopt)
        working.result<Percent>("", "against-given", std::optional(Percent{100 * (moment / *other)}), 0);
    all.push_back(working.done());
}

/// Where the tension of a wire on an aluminium mast was measured.
void warmth(const Case& one, Calculations& all) {
    if (one.survey.yacht.mast != "aluminium") return;
    for (const survey::Stay& stay : one.survey.stays) {
        const trade::Modulus* modulus = first_modulus(stay, one.trade.tables);
        const auto tension = tension_of(stay, one.survey, one.trade);
        if (modulus == nullptr || !tension) continue;
        Working working(one, "temperature");
        working.about(stay);
        working.input<Millimetres>("d", "diameter", stay.diameter.quantity, 2, one.trade.wording("calc.source.survey"));
        working.input<Stress>("E", "modulus", modulus->value, 0, modulus->source);
        const auto mast = working.constant<Ratio>("αm", "expansion-aluminium", 1);
        const auto wire = working.constant<Ratio>("αs", "expansion-stainless", 1);
        working.result<Kilonewtons>("E · A · (αm − αs) · 10 K", "tension-ten-degrees",
                                    std::optional(tension_by_warmth(modulus->value, stay.diameter.quantity,
                                                                    mast.value * 1e-6, wire.value * 1e-6, 10)),
                                    2);
        all.push_back(working.done());
    }
}

/// Where the tension of a rope was measured at rest.
void rope_sizes(const Case& one, Calculations& all) {
    for (const survey::Stay& stay : one.survey.stays) {
        const auto tension = tension_of(stay, one.survey, one.trade);
        if (stay.make != "textile" || !tension) continue;
        Working working(one, "rope-size");
        working.about(stay);
        working.input<Kilonewtons>("T", "tension", tension, 2, one.trade.wording("calc.source.above"));
        const auto most = working.constant<Percent>("c", "tension-textile-most", 0);
        const Kilonewtons wanted = strength_for_creep(*tension, most);
        working.result<Kilonewtons>("T / c", "strength-wanted", std::optional(wanted), 2);
        const SourcedLoad rope = strength_of(stay, one.trade);
        if (!rope.load) working.missing("breaking-load", strand_load_name(stay, one.trade), stay.id);
        else if (*rope.load < wanted) working.remark("too-small");
        all.push_back(working.done());
    }
}

void quantities_for_renewal(const Case& one, Calculations& all) {
    for (const Lot& lot : lots_of(one)) {
        Working working(one, "quantities");
        working.about(lot.name, lot.ids);
        working.result<Ratio>("n", "stays", std::optional(Ratio{static_cast<double>(lot.ids.size())}), 0);
        working.result<Ratio>("2 n", "terminals", std::optional(Ratio{2.0 * static_cast<double>(lot.ids.size())}), 0);
        working.result<Millimetres>("Σ L", "whole-length", lot.every_length ? std::optional(lot.length) : std::nullopt,
                                    0);
        if (!lot.every_length)
            for (const std::string& id : lot.ids)
                if (!one.survey.stay(id)->length) working.missing("length", one.trade.wording("calc.name.length"), id);
        all.push_back(working.done());
    }
}

}  // namespace rigdeed::assessment
