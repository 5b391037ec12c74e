#include "assessment/calculations/rig_load.hpp"

#include <algorithm>
#include <set>

#include "assessment/calculations/sizing.hpp"
#include "assessment/calculations/working.hpp"

namespace rigdeed::assessment {
namespace {

std::optional<NewtonMetres> by_heel_test(const survey::Yacht& yacht) {
    if (!yacht.heel_mass || !yacht.heel_arm || !yacht.heel_angle) return std::nullopt;
    return moment_by_heel_test(yacht.heel_mass->quantity, yacht.heel_arm->quantity, yacht.heel_angle->quantity);
}

bool several_masts(const survey::Survey& survey) {
    return std::any_of(survey.stays.begin(), survey.stays.end(),
                       [](const survey::Stay& stay) { return !stay.mast.empty() && stay.mast != "main"; });
}

/// The lever that the moment needs, against the beam: a ship's moment on a yacht is a slip of the pen.
void sense(Working& working, NewtonMetres moment, const Case& one) {
    const survey::Yacht& yacht = one.survey.yacht;
    if (!yacht.displacement || !yacht.beam) return;
    const Millimetres lever = righting_lever(moment, yacht.displacement->quantity);
    const double share = 100 * (lever / yacht.beam->quantity);
    const trade::Constant& least = one.trade.tables.constant("sense-lever-least");
    const trade::Constant& most = one.trade.tables.constant("sense-lever-most");
    if (share < least.value || share > most.value)
        working.doubt("out-of-sense", {{"lever", working.number(lever.value / 1000, 2)},
                                       {"share", working.number(share, 0)},
                                       {"source", (share < least.value ? least : most).source}});
}

std::optional<NewtonMetres> given_moment(Working& working, const Case& one) {
    const survey::Yacht& yacht = one.survey.yacht;
    const trade::Wording& words = one.trade.wording;
    const std::string survey = words("calc.source.survey");
    if (yacht.rm30) {
        working.formula("formula");
        working.input<NewtonMetres>("RM30", "rm30", yacht.rm30->quantity, 0, survey);
        return yacht.rm30->quantity;
    }
    if (const auto tested = by_heel_test(yacht)) {
        working.formula("formula");
        working.input<NewtonMetres>("RM30", "rm30", tested, 0, words("calc.source.above"));
        return tested;
    }
    working.formula("formula-lever");
    const auto add = [&](auto quantity, const char* symbol, const char* name, int decimals) {
        using Q = typename std::decay_t<decltype(quantity)>::value_type;
        working.input<Q>(symbol, name, quantity, decimals, survey);
    };
    add(yacht.displacement ? std::optional(yacht.displacement->quantity) : std::nullopt, "Δ", "displacement", 0);
    add(yacht.gz30 ? std::optional(yacht.gz30->quantity) : std::nullopt, "GZ30", "gz30", 0);
    const auto moment = moment_of(yacht, one.trade);
    if (!moment) working.missing("rm30", words("calc.name.rm30-or-lever"), {});
    working.result<NewtonMetres>("RM30", "rm30", moment, 0);
    return moment;
}

void whole_rig(const Case& one, Calculations& all) {
    Working working(one, "rig-load");
    working.about(one.trade.wording("calc.rig-load.rig"), {});
    const survey::Yacht& yacht = one.survey.yacht;
    const auto moment = given_moment(working, one);
    const std::string by_survey = one.trade.wording("calc.source.survey");
    if (yacht.chainplates) working.input<Millimetres>("B", "chainplates", yacht.chainplates->quantity, 0, by_survey);
    else
        working.input<Millimetres>("B", "beam", yacht.beam ? std::optional(yacht.beam->quantity) : std::nullopt, 0,
                                   by_survey);
    if (!yacht.chainplates) working.missing("chainplates", one.trade.wording("calc.name.chainplates"), {});
    if (!yacht.chainplates && yacht.beam) working.note("beam-flatters");
    const auto shrouds = working.constant<Ratio>("k", "load-factor", 2);
    const auto mast = working.constant<Ratio>("c", "compression-factor", 2);
    const auto from = [&](Ratio factor) {
        const auto base = half_base(yacht);
        return moment && base ? std::optional(load_of_rig(*moment, *base * 2, factor)) : std::nullopt;
    };
    working.result<Kilonewtons>("P", "side-load", from(shrouds), 2);
    working.result<Kilonewtons>("C", "compression", from(mast), 2);
    if (moment) sense(working, *moment, one);
    if (several_masts(one.survey)) working.remark("several-masts");
    all.push_back(working.done());
}

/// Pairs of spreaders on a mast.
std::size_t spreaders_on(const std::string& mast, const survey::Survey& survey) {
    std::set<std::string> stations;
    for (const survey::Fitting& fitting : survey.fittings)
        if (fitting.mast == mast && fitting.station.starts_with("spreader-")) stations.insert(fitting.station);
    return stations.size();
}

/// The shares are those of a mast with one pair of spreaders and a backstay: without one the caps hold the forestay,
/// too.
const trade::LoadShare* share_of_stay(const survey::Stay& stay, const survey::Survey& survey,
                                      const trade::Tables& tables) {
    const bool is_main = stay.mast.empty() || stay.mast == "main";
    const bool has_backstay = std::any_of(survey.stays.begin(), survey.stays.end(), [&](const survey::Stay& other) {
        return other.mast == stay.mast && (other.role == "backstay" || other.role == "running-backstay");
    });
    return is_main && has_backstay && spreaders_on(stay.mast, survey) < 2 ? tables.share(stay.role) : nullptr;
}

void load_under_way(const survey::Stay& stay, const trade::LoadShare& share, const Case& one, Calculations& all) {
    Working working(one, "stay-load");
    working.about(stay);
    const trade::Tables& tables = one.trade.tables;
    const SourcedLoad side = load_of_side(one.survey, one.trade);
    working.input<Kilonewtons>("P", "side-load", side.load, 2, one.trade.wording("calc.source.above"));
    if (!side.load) working.missing("rm30", one.trade.wording("calc.name.rm30-or-lever"), {});
    working.input<Percent>("p", "share", share.share, 1, share.source);
    const SourcedLoad strand = strength_of(stay, one.trade);
    working.input<Kilonewtons>("F", "breaking-load", strand.load, 2, strand.source);
    if (!strand.load) working.missing("breaking-load", strand_load_name(stay, one.trade), stay.id);
    const auto load = load_of(stay, one.survey, one.trade);
    working.result<Kilonewtons>("p · P", "stay-load", load, 2);
    const auto factor = load && strand.load ? std::optional(safety(*strand.load, *load)) : std::nullopt;
    working.result<Ratio>("F / (p · P)", "safety", factor, 2);
    const trade::Constant& least = tables.constant("safety-least");
    const trade::Constant& most = tables.constant("safety-wanted");
    if (factor && factor->value < least.value)
        working.remark("below", {{"least", working.number(least.value, 2)},
                                 {"most", working.number(most.value, 2)},
                                 {"source", least.source}});
    all.push_back(working.done());
}

}  // namespace

NewtonMetres righting_moment(Kilograms displacement, Millimetres lever) {
    return {displacement.value * gravity * lever.value / 1000};
}

Millimetres righting_lever(NewtonMetres moment, Kilograms displacement) {
    return {moment.value * 1000 / (displacement.value * gravity)};
}

Kilonewtons load_of_rig(NewtonMetres moment, Millimetres beam, Ratio factor) {
    return {factor.value * moment.value / (beam.value / 2)};  // N m / mm = kN
}

Kilonewtons share_of(Kilonewtons load, Percent share) { return load * (share.value / 100); }

Ratio safety(Kilonewtons strength, Kilonewtons load) { return {strength / load}; }

std::optional<NewtonMetres> moment_of(const survey::Yacht& yacht, const trade::Trade&) {
    if (yacht.rm30) return yacht.rm30->quantity;
    if (const auto tested = by_heel_test(yacht)) return tested;
    if (yacht.displacement && yacht.gz30) return righting_moment(yacht.displacement->quantity, yacht.gz30->quantity);
    return std::nullopt;
}

std::optional<Millimetres> half_base(const survey::Yacht& yacht) {
    if (yacht.chainplates) return yacht.chainplates->quantity / 2;
    return yacht.beam ? std::optional(yacht.beam->quantity / 2) : std::nullopt;
}

std::optional<Kilonewtons> mast_compression(const survey::Survey& survey, const trade::Trade& trade) {
    const auto moment = moment_of(survey.yacht, trade);
    const auto base = half_base(survey.yacht);
    if (!moment || !base) return std::nullopt;
    return load_of_rig(*moment, *base * 2, Ratio{trade.tables.constant("compression-factor").value});
}

SourcedLoad load_of_side(const survey::Survey& survey, const trade::Trade& trade) {
    const auto moment = moment_of(survey.yacht, trade);
    const auto base = half_base(survey.yacht);
    if (!moment || !base) return {};
    const Ratio factor{trade.tables.constant("load-factor").value};
    return {load_of_rig(*moment, *base * 2, factor), trade.tables.source_of("rig-load")};
}

std::optional<Kilonewtons> load_of(const survey::Stay& stay, const survey::Survey& survey, const trade::Trade& trade) {
    if (const auto statics = load_by_panels(stay, survey, trade); statics && spreaders_on(stay.mast, survey) > 1)
        return statics;
    const trade::LoadShare* share = share_of_stay(stay, survey, trade.tables);
    const SourcedLoad side = load_of_side(survey, trade);
    return share != nullptr && side.load ? std::optional(share_of(*side.load, share->share)) : std::nullopt;
}

void rig_loads(const Case& one, Calculations& all) {
    whole_rig(one, all);
    for (const survey::Stay& stay : one.survey.stays)
        if (const trade::LoadShare* share = share_of_stay(stay, one.survey, one.trade.tables))
            load_under_way(stay, *share, one, all);
}

}  // namespace rigdeed::assessment
