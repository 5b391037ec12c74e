#include "assessment/calculations/bolts.hpp"

#include <algorithm>

#include "assessment/calculations/pins.hpp"
#include "assessment/calculations/working.hpp"

namespace rigdeed::assessment {
namespace {

/// A fitting of the same stay at the same end: a tang lies under the bolt that holds it.
const survey::Fitting* beside(const survey::Fitting& fitting, std::string_view kind, const survey::Survey& survey) {
    for (const survey::Fitting& other : survey.fittings)
        if (other.kind == kind && !fitting.stay.empty() && other.stay == fitting.stay &&
            other.at_deck() == fitting.at_deck())
            return &other;
    return nullptr;
}

/// What the bolts of a fitting bear in: which fitting each measure is taken on.
struct Bolted {
    const survey::Fitting& fitting;
    const survey::Fitting* plate;  ///< the strap or plate under the bolts; null: not in the survey
    bool in_mast;                  ///< the mast's wall bears them, too
    bool one;                      ///< the fitting is one bolt
};

Bolted bolted(const survey::Fitting& fitting, const survey::Survey& survey) {
    const bool through = fitting.kind == "through-bolt";
    return {fitting, through ? beside(fitting, "tang", survey) : &fitting, through || fitting.kind == "tang", through};
}

std::optional<double> count_of(const Bolted& bolted, const trade::Trade& trade) {
    if (const auto counted = measure_of<Ratio>(bolted.fitting, "bolts", trade)) return counted->value;
    return bolted.one ? std::optional(1.0) : std::nullopt;
}

/// A tube that goes through the wall with the bolt bears in its place.
std::optional<Millimetres> in_wall(const survey::Fitting& fitting, const trade::Trade& trade) {
    const auto tube = measure_of<Millimetres>(fitting, "tube-diameter", trade);
    return tube ? tube : measure_of<Millimetres>(fitting, "bolt-diameter", trade);
}

std::optional<BoltGroup> wall_group(const Bolted& bolted, const survey::Survey& survey, const trade::Trade& trade) {
    const auto bolts = count_of(bolted, trade);
    const auto diameter = in_wall(bolted.fitting, trade);
    const auto wall = measure_of<Millimetres>(bolted.fitting, "wall", trade);
    if (!bolted.in_mast || survey.yacht.mast != "aluminium" || !bolts || !diameter || !wall) return std::nullopt;
    return BoltGroup{*bolts, *diameter, *wall};
}

std::optional<BoltGroup> plate_group(const Bolted& bolted, const trade::Trade& trade) {
    const auto bolts = count_of(bolted, trade);
    const auto diameter = measure_of<Millimetres>(bolted.fitting, "bolt-diameter", trade);
    if (bolted.plate == nullptr || !is_calculated(*bolted.plate, trade) || !bolts || !diameter) return std::nullopt;
    const auto thickness = measure_of<Millimetres>(*bolted.plate, "plate-thickness", trade);
    return thickness ? std::optional(BoltGroup{*bolts, *diameter, *thickness}) : std::nullopt;
}

/// Plate and bolts, whichever holds less; nothing where neither is known.
std::optional<Kilonewtons> held_by_bolts(const Bolted& bolted, const trade::Trade& trade) {
    std::optional<Kilonewtons> least;
    const auto take = [&](Kilonewtons load) { least = least ? std::min(*least, load) : load; };
    if (const auto group = plate_group(bolted, trade))
        take(bearing_strength(*group, {trade.tables.constant("bearing-ultimate").value}));
    const auto bolts = count_of(bolted, trade);
    const auto diameter = measure_of<Millimetres>(bolted.fitting, "bolt-diameter", trade);
    if (bolts && diameter && is_calculated(bolted.fitting, trade))
        take(single_shear_strength(*bolts, *diameter, {trade.tables.constant("pin-shear-ultimate").value}));
    return least;
}

void wall(Working& working, const Bolted& bolted, std::optional<Kilonewtons> load, const Case& one) {
    if (!bolted.in_mast) return;
    if (one.survey.yacht.mast != "aluminium") {
        working.remark("other-mast");
        return;
    }
    (void)working.measured_if<Millimetres>("D", "tube-diameter", &bolted.fitting, 1);
    (void)working.measured<Millimetres>("w", "wall", &bolted.fitting, bolted.fitting.id, 1);
    const auto most = working.constant<Stress>("σw", "wall-bearing-ultimate", 0);
    const auto group = wall_group(bolted, one.survey, one.trade);
    const bool known = group && load;
    working.result<Stress>("F / (n·D·w)", "wall-bearing", known ? std::optional(bearing(*load, *group)) : std::nullopt,
                           1);
    working.result<Ratio>("n·D·w·σw / F", "wall-to-strand",
                          known ? std::optional(Ratio{bearing_strength(*group, most) / *load}) : std::nullopt, 2);
}

void plate_and_bolts(Working& working, const Bolted& bolted, std::optional<Kilonewtons> load, const Case& one) {
    const auto group = plate_group(bolted, one.trade);
    if (bolted.plate != nullptr && is_calculated(*bolted.plate, one.trade)) {
        (void)working.measured<Millimetres>("t", "plate-thickness", bolted.plate, bolted.fitting.id, 1);
        (void)working.constant<Stress>("σu", "bearing-ultimate", 0);
        working.result<Stress>("F / (n·d·t)", "bearing",
                               group && load ? std::optional(bearing(*load, *group)) : std::nullopt, 1);
    }
    if (is_calculated(bolted.fitting, one.trade)) {
        (void)working.constant<Stress>("τu", "pin-shear-ultimate", 0);
        const auto bolts = count_of(bolted, one.trade);
        const auto diameter = measure_of<Millimetres>(bolted.fitting, "bolt-diameter", one.trade);
        const bool known = bolts && diameter && load;
        working.result<Stress>("F / (n·πd²/4)", "single-shear",
                               known ? std::optional(single_shear(*load, *bolts, *diameter)) : std::nullopt, 1);
    }
    const auto holds = held_by_bolts(bolted, one.trade);
    if (holds && load) working.result<Ratio>("Fb / F", "bolts-to-strand", std::optional(Ratio{*holds / *load}), 2);
}

/// Only where a bolt was measured.
void bolt(const Bolted& bolted, const survey::Stay& stay, const Case& one, Calculations& all) {
    Working working(one, "bolts");
    working.about(bolted.fitting);
    const SourcedLoad strand = strength_of(stay, one.trade);
    working.input<Kilonewtons>("F", "strand-load", strand.load, 2, strand.source);
    if (!strand.load) working.missing("breaking-load", strand_load_name(stay, one.trade), stay.id);
    if (bolted.one) (void)working.measured_if<Ratio>("n", "bolts", &bolted.fitting, 0);
    else (void)working.measured<Ratio>("n", "bolts", &bolted.fitting, bolted.fitting.id, 0);
    (void)working.measured<Millimetres>("d", "bolt-diameter", &bolted.fitting, bolted.fitting.id, 1);
    wall(working, bolted, strand.load, one);
    plate_and_bolts(working, bolted, strand.load, one);
    all.push_back(working.done());
}

bool has_bolts(const survey::Fitting& fitting) {
    return fitting.measure("bolt-diameter") != nullptr || fitting.measure("tube-diameter") != nullptr;
}

}  // namespace

Stress bearing(Kilonewtons load, const BoltGroup& group) {
    return {load.value * newtons / (group.bolts * group.diameter.value * group.plate.value)};
}

Kilonewtons bearing_strength(const BoltGroup& group, Stress ultimate) {
    return {group.bolts * group.diameter.value * group.plate.value * ultimate.value / newtons};
}

Stress single_shear(Kilonewtons load, double bolts, Millimetres diameter) {
    return {load.value * newtons / (bolts * pin_area(diameter).value)};
}

Kilonewtons single_shear_strength(double bolts, Millimetres diameter, Stress ultimate) {
    return {bolts * pin_area(diameter).value * ultimate.value / newtons};
}

std::optional<Kilonewtons> wall_load(const survey::Fitting& fitting, const survey::Survey& survey,
                                     const trade::Trade& trade) {
    const auto group = has_bolts(fitting) ? wall_group(bolted(fitting, survey), survey, trade) : std::nullopt;
    if (!group) return std::nullopt;
    return bearing_strength(*group, {trade.tables.constant("wall-bearing-ultimate").value});
}

std::optional<Kilonewtons> bolts_load(const survey::Fitting& fitting, const survey::Survey& survey,
                                      const trade::Trade& trade) {
    return has_bolts(fitting) ? held_by_bolts(bolted(fitting, survey), trade) : std::nullopt;
}

void bolts(const Case& one, Calculations& all) {
    for (const survey::Fitting& fitting : one.survey.fittings)
        if (const survey::Stay* stay = one.survey.stay(fitting.stay); stay != nullptr && has_bolts(fitting))
            bolt(bolted(fitting, one.survey), *stay, one, all);
}

}  // namespace rigdeed::assessment
