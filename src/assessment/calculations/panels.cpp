#include "assessment/calculations/panels.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "assessment/calculations/working.hpp"

namespace rigdeed::assessment {
namespace {

/// A leg that goes `out` to the side over a height of `up`.
struct Leg {
    double out = 0;
    double up = 1;
    double aft = 0;

    [[nodiscard]] double tangent() const { return out / up; }
    [[nodiscard]] double longer() const { return std::hypot(out, up, aft) / up; }  ///< pull over its upright part
};

bool rises(const Panels& panels) {
    double below = 0;
    for (const PanelLevel& level : panels.spreaders) {
        if (level.height.value <= below || level.tip.value <= 0) return false;
        below = level.height.value;
    }
    return panels.head.value > below && panels.half_base.value > 0 && panels.moment.value >= 0;
}

/// What a mast has measured of its panels; the fitting of each spreader on which its length was, or could be, measured.
struct Found {
    Panels panels;
    bool complete = false;
    bool swept = false;
    const survey::Fitting* chainplate = nullptr;                          ///< of a cap shroud
    std::vector<std::pair<std::string, const survey::Fitting*>> lengths;  ///< by station, from the lowest
};

/// Nothing but swept shrouds holds the mast from astern.
bool stands_by_sweep(const std::string& mast, const survey::Survey& survey) {
    return std::none_of(survey.stays.begin(), survey.stays.end(), [&](const survey::Stay& stay) {
        return stay.mast == mast && (stay.role == "backstay" || stay.role == "running-backstay");
    });
}

/// Turns the tips aft by the sweep that was measured; of a rig that is swept every angle and the chainplate is wanted.
void add_sweep(Found& found, const std::string& mast, const survey::Survey& survey, const trade::Trade& trade) {
    std::vector<std::optional<Degrees>> angles;
    for (const auto& [station, fitting] : found.lengths)
        angles.push_back(measure_of<Degrees>(*fitting, "spreader-sweep", trade));
    std::optional<Millimetres> aft;
    if (found.chainplate != nullptr) aft = measure_of<Millimetres>(*found.chainplate, "aft-of-mast", trade);
    found.swept = stands_by_sweep(mast, survey) || aft ||
                  std::any_of(angles.begin(), angles.end(), [](const auto& one) { return one.has_value(); });
    if (!found.swept) return;
    found.complete = found.complete && aft &&
                     std::all_of(angles.begin(), angles.end(), [](const auto& one) { return one.has_value(); });
    if (!found.complete) return;
    found.panels.base_aft = *aft;
    for (std::size_t i = 0; i < angles.size(); ++i) {
        PanelLevel& level = found.panels.spreaders[i];
        const double turned = angles[i]->value * std::numbers::pi / 180;
        level.aft = level.tip * std::sin(turned);
        level.tip = level.tip * std::cos(turned);
    }
}

Found find_panels(const std::string& mast, const survey::Survey& survey, const trade::Trade& trade) {
    Found found;
    std::map<std::string, const survey::Fitting*> by_station;
    double deck = 0, head = 0;
    for (const survey::Fitting& one : survey.fittings) {
        const survey::Stay* stay = survey.stay(one.stay);
        const std::string& of = stay != nullptr ? stay->mast : one.mast;
        if (of != mast) continue;
        const bool is_cap = stay != nullptr && stay->role == "cap-shroud";
        const double height = one.height.quantity.value;
        if (is_cap && one.at_deck() && (deck == 0 || height < deck)) deck = height;
        if (is_cap && one.at_deck() && one.kind == "chainplate" &&
            (found.chainplate == nullptr || one.measure("aft-of-mast") != nullptr))
            found.chainplate = &one;
        if (is_cap && !one.at_deck()) head = std::max(head, height);
        if (!one.station.starts_with("spreader-")) continue;
        const survey::Fitting*& known = by_station[one.station];
        if (known == nullptr || one.measure("spreader-length") != nullptr) known = &one;
    }
    found.complete = deck > 0 && head > deck && !by_station.empty();
    for (const auto& [station, fitting] : by_station) {
        found.lengths.emplace_back(station, fitting);
        const auto length = measure_of<Millimetres>(*fitting, "spreader-length", trade);
        found.complete = found.complete && length.has_value();
        found.panels.spreaders.push_back({{fitting->height.quantity.value - deck}, length.value_or(Millimetres{})});
    }
    found.panels.head = {head - deck};
    const auto base = half_base(survey.yacht);
    const auto moment = moment_of(survey.yacht, trade);
    found.complete = found.complete && base && moment;
    if (base) found.panels.half_base = *base;
    if (moment) found.panels.moment = *moment * trade.tables.constant("load-factor").value;
    add_sweep(found, mast, survey, trade);
    return found;
}

/// The spreader to which a shroud goes, from 1; the highest fitting of the stay says which.
std::size_t goes_to(const survey::Stay& stay, const Found& found, const survey::Survey& survey) {
    double top = 0;
    for (const survey::Fitting& one : survey.fittings)
        if (one.stay == stay.id) top = std::max(top, one.height.quantity.value);
    std::size_t nearest = 0;
    double off = 1e9;
    for (std::size_t i = 0; i < found.lengths.size(); ++i) {
        const double here = std::abs(found.lengths[i].second->height.quantity.value - top);
        if (here < off) {
            off = here;
            nearest = i;
        }
    }
    return nearest;
}

}  // namespace

std::optional<PanelLoads> panel_loads(const Panels& panels) {
    if (!rises(panels)) return std::nullopt;
    const std::size_t n = panels.spreaders.size();
    std::vector<double> height{0}, tip{panels.half_base.value}, aft{panels.base_aft.value};
    for (const PanelLevel& level : panels.spreaders) {
        height.push_back(level.height.value);
        tip.push_back(level.tip.value);
        aft.push_back(level.aft.value);
    }
    height.push_back(panels.head.value);
    tip.push_back(0);
    aft.push_back(0);
    const double load = 2 * panels.moment.value / (panels.head.value * panels.head.value);  // kN/mm
    const auto leg = [&](std::size_t k) {
        return Leg{tip[k - 1] - tip[k], height[k] - height[k - 1], aft[k - 1] - aft[k]};
    };
    const auto to_mast = [&](std::size_t k) { return Leg{tip[k - 1], height[k] - height[k - 1], aft[k - 1]}; };
    // Upright parts; a cut through panel k meets the caps, what goes on above, and the shroud that ends at its head.
    double shear = load * (height[n + 1] - height[n]) / 2;
    double over_tips = shear / leg(n + 1).tangent();
    const auto steepest = [&](std::size_t top, double longest) {
        for (std::size_t k = 1; k < top; ++k) longest = std::max(longest, leg(k).longer());
        return longest;
    };
    PanelLoads loads;
    loads.cap = {over_tips * steepest(n + 1, leg(n + 1).longer())};
    loads.to_spreader.resize(n);
    for (std::size_t k = n; k >= 1; --k) {
        shear += load * (height[k + 1] - height[k - 1]) / 2;
        const double upright = std::max(0.0, (shear - over_tips * leg(k).tangent()) / to_mast(k).tangent());
        loads.to_spreader[k - 1] = {upright * steepest(k, to_mast(k).longer())};
        over_tips += upright;
    }
    return loads;
}

double least_inertia(Kilonewtons compression, Millimetres panel, Stress modulus, double factor) {
    return factor * compression.value * 1000 * panel.value * panel.value /
           (std::numbers::pi * std::numbers::pi * modulus.value);
}

std::optional<Kilonewtons> load_by_panels(const survey::Stay& stay, const survey::Survey& survey,
                                          const trade::Trade& trade) {
    const Found found = find_panels(stay.mast, survey, trade);
    if (!found.complete) return std::nullopt;
    const auto loads = panel_loads(found.panels);
    if (!loads) return std::nullopt;
    if (stay.role == "cap-shroud") return loads->cap;
    if (stay.role == "lower-shroud") return loads->to_spreader.front();
    if (stay.role == "fore-lower" || stay.role == "aft-lower") return loads->to_spreader.front() / 2;
    if (stay.role == "intermediate-shroud") return loads->to_spreader[goes_to(stay, found, survey)];
    return std::nullopt;
}

void panel_statics(const Case& one, Calculations& all) {
    std::vector<std::string> masts;
    for (const survey::Fitting& fitting : one.survey.fittings)
        if (fitting.station == "spreader-2" && fitting.stay.empty() &&
            std::find(masts.begin(), masts.end(), fitting.mast) == masts.end())
            masts.push_back(fitting.mast);
    for (const std::string& mast : masts) {
        if (!mast.empty() && mast != "main") continue;
        const Found found = find_panels(mast, one.survey, one.trade);
        Working working(one, "panel-load");
        working.about(one.trade.wording("calc.rig-load.rig"), {});
        const auto moment = moment_of(one.survey.yacht, one.trade);
        working.input<NewtonMetres>("RM30", "rm30", moment, 0, one.trade.wording("calc.source.above"));
        if (!moment) working.missing("rm30", one.trade.wording("calc.name.rm30-or-lever"), {});
        working.constant<Ratio>("k", "load-factor", 2);
        working.input<Millimetres>("b", "half-base", half_base(one.survey.yacht), 0,
                                   one.trade.wording("calc.source.survey"));
        for (const auto& [station, fitting] : found.lengths)
            (void)working.measured<Millimetres>("s", "spreader-length", fitting, fitting->id, 0);
        if (found.swept) {
            for (const auto& [station, fitting] : found.lengths)
                (void)working.measured<Degrees>("λ", "spreader-sweep", fitting, fitting->id, 1);
            (void)working.measured<Millimetres>("a", "aft-of-mast", found.chainplate, {}, 0);
        }
        const auto loads = found.complete ? panel_loads(found.panels) : std::nullopt;
        working.result<Kilonewtons>("T", "cap-load", loads ? std::optional(loads->cap) : std::nullopt, 2);
        for (std::size_t i = 0; i < found.lengths.size(); ++i)
            working.result<Kilonewtons>("D" + std::to_string(i + 1), "panel-shroud",
                                        loads ? std::optional(loads->to_spreader[i]) : std::nullopt, 2);
        all.push_back(working.done());
    }
}

/// Only where a panel's length was measured.
void panel_inertias(const Case& one, Calculations& all) {
    for (const survey::Fitting& fitting : one.survey.fittings) {
        const auto length = measure_of<Millimetres>(fitting, "panel", one.trade);
        if (!length) continue;
        Working working(one, "panel-inertia");
        working.about(fitting);
        const auto compression = mast_compression(one.survey, one.trade);
        working.input<Kilonewtons>("C", "compression", compression, 2, one.trade.wording("calc.source.above"));
        if (!compression) working.missing("rm30", one.trade.wording("calc.name.rm30-or-lever"), {});
        (void)working.measured<Millimetres>("L", "panel", &fitting, fitting.id, 0);
        const auto factor = working.constant<Ratio>("n", "buckling-factor", 1);
        const bool aluminium = one.survey.yacht.mast == "aluminium";
        if (!aluminium) working.remark("other-mast");
        const auto modulus = working.constant<Stress>("E", "aluminium-modulus", 0);
        const auto least =
            compression && aluminium
                ? std::optional(Ratio{least_inertia(*compression, *length, modulus, factor.value) / 10000})
                : std::nullopt;
        working.result<Ratio>("n · C · L² / (π² · E)", "least-inertia", least, 1);
        all.push_back(working.done());
    }
}

}  // namespace rigdeed::assessment
