#include "assessment/calculations/spreader_tip.hpp"

#include <cmath>
#include <numbers>

#include "assessment/calculations/working.hpp"

namespace rigdeed::assessment {
namespace {

double sine(Degrees angle) { return std::sin(angle.value * std::numbers::pi / 180); }
double cosine(Degrees angle) { return std::cos(angle.value * std::numbers::pi / 180); }

bool passes_all_tips(const survey::Stay& stay, const trade::Trade& trade) {
    const trade::Role* role = trade.role(stay.role);
    return role != nullptr && role->over_tips == trade::OverTips::all;
}

/// The cap shroud of the tip's side: it passes every spreader's tip.
const survey::Stay* shroud_over(const survey::Fitting& tip, const Case& one) {
    if (const survey::Stay* own = one.survey.stay(tip.stay)) return own;
    for (const survey::Stay& stay : one.survey.stays)
        if (passes_all_tips(stay, one.trade) && stay.mast == tip.mast && tip.side == stay.side) return &stay;
    return nullptr;
}

void one_tip(const survey::Fitting& tip, const Case& one, Calculations& all) {
    Working working(one, "spreader-tip");
    working.about(tip);
    const auto above = working.measured<Degrees>("a1", "angle-above", &tip, tip.id, 1);
    const auto below = working.measured<Degrees>("a2", "angle-below", &tip, tip.id, 1);
    const auto rise = working.measured<Degrees>("θ", "spreader-rise", &tip, tip.id, 1);
    const survey::Stay* shroud = shroud_over(tip, one);
    const auto tension = shroud != nullptr ? load_of(*shroud, one.survey, one.trade) : std::nullopt;
    if (tension) working.input<Kilonewtons>("T", "shroud-load", tension, 2, one.trade.wording("calc.source.above"));
    const bool measured = above && below && rise;
    const TipAngles angles = measured ? TipAngles{*above, *below, *rise} : TipAngles{};
    const TipForces shares = tip_forces({100}, angles);
    const auto only_if = [&](auto value) { return measured ? std::optional(value) : std::nullopt; };
    working.result<Degrees>("θ* = (a1 − a2) / 2", "bisecting", only_if(bisecting(angles)), 2);
    working.result<Percent>("compression / T", "tip-compression", only_if(Percent{shares.compression.value}), 2);
    working.result<Percent>("slip / T", "tip-slip", only_if(Percent{shares.slip.value}), 2);
    if (measured && tension) {
        const TipForces forces = tip_forces(*tension, angles);
        working.result<Kilonewtons>("compression", "tip-compression", forces.compression, 3);
        working.result<Kilonewtons>("slip", "tip-slip", forces.slip, 3);
    }
    const trade::Constant& tolerance = one.trade.tables.constant("tip-tolerance");
    if (measured && std::abs((*rise - bisecting(angles)).value) > tolerance.value)
        working.remark("not-bisecting", {{"off", working.number(std::abs((*rise - bisecting(angles)).value), 1)},
                                         {"tolerance", working.number(tolerance.value, 0)},
                                         {"source", tolerance.source}});
    all.push_back(working.done());
}

/// The angle at the mast stands at the tang or masthead, or above the tip of the cap shroud's spreader.
void at_mast(const survey::Stay& stay, const Case& one, Calculations& all) {
    Working working(one, "mast-angle");
    working.about(stay);
    const survey::Fitting* measured = nullptr;
    for (const survey::Fitting& fitting : one.survey.fittings)
        if (fitting.stay == stay.id && fitting.measure("mast-angle") != nullptr) measured = &fitting;
    std::optional<Degrees> angle;
    if (measured != nullptr) angle = working.measured<Degrees>("β", "mast-angle", measured, stay.id, 1);
    for (const survey::Fitting& fitting : one.survey.fittings)
        if (measured == nullptr && passes_all_tips(stay, one.trade) && one.trade.is_a(fitting, trade::KindIs::tip) &&
            fitting.measure("angle-above") != nullptr && shroud_over(fitting, one) == &stay)
            angle = measure_of<Degrees>(fitting, "angle-above", one.trade);
    if (measured == nullptr && angle)
        working.input<Degrees>("β", "mast-angle", angle, 1, one.trade.wording("calc.mast-angle.from-tip"));
    if (!angle) working.missing("mast-angle", working.measure_name("mast-angle"), stay.id);
    const bool usable = angle && angle->value > 0;
    working.result<Ratio>("T / H = 1 / sin β", "times-across",
                          usable ? std::optional(times_across(*angle)) : std::nullopt, 2);
    const trade::Constant& least = one.trade.tables.constant("mast-angle-least");
    const trade::Constant& common = one.trade.tables.constant("mast-angle-common");
    if (usable && angle->value < common.value) {
        const trade::Constant& row = angle->value < least.value ? least : common;
        working.remark("small", {{"least", working.number(row.value, 0)}, {"source", row.source}});
    }
    all.push_back(working.done());
}

}  // namespace

Degrees bisecting(const TipAngles& angles) { return (angles.above - angles.below) / 2; }

TipForces tip_forces(Kilonewtons tension, const TipAngles& angles) {
    const Kilonewtons both = 2 * tension * sine((angles.above + angles.below) / 2);
    const Degrees off = angles.rise - bisecting(angles);
    return {both * cosine(off), both * sine(off)};
}

Kilonewtons shroud_tension(Kilonewtons across, Degrees angle) { return across / sine(angle); }

Ratio times_across(Degrees angle) { return {1 / sine(angle)}; }

void spreader_tips(const Case& one, Calculations& all) {
    for (const survey::Fitting& fitting : one.survey.fittings)
        if (one.trade.is_a(fitting, trade::KindIs::tip)) one_tip(fitting, one, all);
    for (const survey::Stay& stay : one.survey.stays)
        if (passes_all_tips(stay, one.trade)) at_mast(stay, one, all);
}

}  // namespace rigdeed::assessment
