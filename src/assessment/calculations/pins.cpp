#include "assessment/calculations/pins.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "assessment/calculations/working.hpp"

namespace rigdeed::assessment {
namespace {

using trade::KindIs;

constexpr Millimetres same_size{0.02};  // a pin of 0.4725 in is one of 12 mm

/// Another fitting of its stay, at the same end, of which something is true.
template <class Wanted>
const survey::Fitting* beside(const survey::Survey& survey, const survey::Fitting& fitting, const Wanted& wanted) {
    for (const survey::Fitting& other : survey.fittings)
        if (&other != &fitting && other.stay == fitting.stay && other.at_deck() == fitting.at_deck() && wanted(other))
            return &other;
    return nullptr;
}

const survey::Fitting* beside(const survey::Fitting& fitting, trade::KindIs what, const Case& one) {
    return beside(one.survey, fitting, [&](const survey::Fitting& other) { return one.trade.is_a(other, what); });
}

/// A link for which the tables ask a ratio to the strand: a plate.
bool is_plate(const survey::Fitting& fitting, const trade::Tables& tables) {
    return std::any_of(tables.links.begin(), tables.links.end(),
                       [&](const trade::LinkKind& kind) { return !kind.least.empty() && kind.kind == fitting.kind; });
}

/// A pin of another thickness than any that goes with the strand is a slip of the pen or the wrong pin.
void sense(Working& working, Millimetres pin, const survey::Stay& stay, const trade::Tables& tables) {
    const double times = pin / stay.diameter.quantity;
    if (times < tables.constant("sense-pin-least").value || times > tables.constant("sense-pin-most").value)
        working.doubt("out-of-sense", {{"pin", working.number(pin.value, 1)},
                                       {"strand", stay.diameter.text},
                                       {"source", tables.constant("sense-pin-most").source}});
}

Millimetres hole_of(const survey::Fitting* plate, Millimetres pin, const trade::Trade& trade) {
    const auto hole = plate != nullptr ? measure_of<Millimetres>(*plate, "hole-diameter", trade) : std::nullopt;
    return std::max(pin, hole.value_or(pin));
}

void plate(Working& working, const survey::Fitting& pin, std::optional<Millimetres> diameter,
           std::optional<Kilonewtons> load, const Case& one) {
    const survey::Fitting* plate =
        beside(one.survey, pin, [&](const survey::Fitting& other) { return is_plate(other, one.trade.tables); });
    const std::string of = plate != nullptr ? plate->id : pin.id;
    const auto thickness = working.measured<Millimetres>("t", "plate-thickness", plate, of, 1);
    const auto edge = working.measured<Millimetres>("e", "edge-distance", plate, of, 1);
    const bool bears = diameter && load && thickness;
    working.result<Stress>("F / (d·t)", "bearing",
                           bears ? std::optional(bearing(*load, *diameter, *thickness)) : std::nullopt, 1);
    if (bears && plate != nullptr && is_calculated(*plate, one.trade)) {
        const auto most = working.constant<Stress>("σu", "bearing-ultimate", 0);
        working.result<Percent>("F / (d·t) / σu", "bearing-of-ultimate",
                                Percent{100 * (bearing(*load, *diameter, *thickness) / most)}, 0);
    }
    // What is left beyond the hole, as in the chain of strength; a pin fills its hole where that was not measured.
    std::optional<Stress> torn;
    if (bears && edge) torn = tear_out({*load, hole_of(plate, *diameter, one.trade), *thickness, *edge});
    working.result<Stress>("F / (2·(e − d/2)·t)", "tear-out", torn, 1);
    if (bears && edge && !torn) working.doubt("hole-at-edge");
}

void pin(const survey::Fitting& fitting, const survey::Stay& stay, const Case& one, Calculations& all) {
    Working working(one, "pins");
    working.about(fitting);
    const SourcedLoad strand = strength_of(stay, one.trade);
    working.input<Kilonewtons>("F", "strand-load", strand.load, 2, strand.source);
    if (!strand.load) working.missing("breaking-load", strand_load_name(stay, one.trade), stay.id);
    const auto diameter = working.measured<Millimetres>("d", "pin-diameter", &fitting, fitting.id, 2);
    if (diameter) sense(working, *diameter, stay, one.trade.tables);
    const auto from = [&](auto calculate) {
        return diameter && strand.load ? std::optional(calculate(*strand.load, *diameter)) : std::nullopt;
    };
    working.result<SquareMillimetres>("A", "pin-area", diameter ? std::optional(pin_area(*diameter)) : std::nullopt, 2);
    working.result<Stress>("F / (2·A)", "shear", from(double_shear), 1);
    plate(working, fitting, diameter, strand.load, one);
    if (const auto worn = working.measured_if<Millimetres>("d'", "worn-diameter", &fitting, 2); worn && diameter) {
        working.result<Percent>("(d' / d)²", "worn-area", worn_area(*worn, *diameter), 0);
        if (*worn > *diameter) working.doubt("worn-thicker");
    }
    all.push_back(working.done());
}

/// Legs: the angle as measured, or from their length and gap.
void legs(Working& working, const survey::Fitting& fitting, const Case& one) {
    auto angle = working.measured_if<Degrees>("θ", "leg-angle", &fitting, 1);
    if (!angle) {
        const auto leg = working.measured<Millimetres>("l", "leg-length", &fitting, fitting.id, 1);
        const auto gap = working.measured<Millimetres>("g", "leg-gap", &fitting, fitting.id, 2);
        if (leg && gap) {
            angle = leg_angle(*leg, *gap);
            if (!angle) working.doubt("gap-too-wide");
        }
    }
    working.result<Degrees>("θ", "leg-angle", angle, 1);
    if (angle) {
        const trade::Constant& enough = one.trade.tables.constant("leg-angle-enough");
        working.note("advice-differs", {{"enough", working.number(enough.value, 0)}, {"source", enough.source}});
    }
}

void split_pin(const survey::Fitting& fitting, const Case& one, Calculations& all) {
    Working working(one, "split-pins");
    working.about(fitting);
    const survey::Fitting* clevis = one.trade.is_a(fitting, KindIs::pin) ? &fitting : beside(fitting, KindIs::pin, one);
    const auto diameter =
        working.measured<Millimetres>("d", "pin-diameter", clevis, clevis != nullptr ? clevis->id : fitting.id, 2);
    const trade::SplitPinSize* size = diameter ? split_pin_for(*diameter, one.trade.tables) : nullptr;
    if (size != nullptr) working.input_text("", "pairing", one.trade.wording("calc.split-pins.pairing"), size->source);
    working.result<Millimetres>("s", "split-pin-size", size != nullptr ? std::optional(size->size) : std::nullopt, 1);
    if (diameter && size == nullptr) working.remark("no-size");
    const auto fitted = working.measured_if<Millimetres>("s'", "split-pin-diameter", &fitting, 1);
    if (fitted && size != nullptr && *fitted < size->size * 0.9)
        working.remark("too-thin", {{"size", working.number(size->size.value, 1)}});
    legs(working, fitting, one);
    all.push_back(working.done());
}

}  // namespace

SquareMillimetres pin_area(Millimetres pin) { return {std::numbers::pi / 4 * pin.value * pin.value}; }

Stress double_shear(Kilonewtons load, Millimetres pin) { return {load.value * newtons / (2 * pin_area(pin).value)}; }

Kilonewtons pin_strength(Millimetres pin, Stress ultimate) {
    return {2 * pin_area(pin).value * ultimate.value / newtons};
}

Stress bearing(Kilonewtons load, Millimetres pin, Millimetres plate) {
    return {load.value * newtons / (pin.value * plate.value)};
}

std::optional<Stress> tear_out(const PinJoint& joint) {
    const Millimetres beyond = joint.edge - joint.pin / 2;
    if (beyond.value <= 0) return std::nullopt;
    return Stress{joint.load.value * newtons / (2 * beyond.value * joint.plate.value)};
}

std::optional<Kilonewtons> tear_out_strength(Millimetres pin, Millimetres plate, Millimetres edge, Stress ultimate) {
    const Millimetres beyond = edge - pin / 2;
    if (beyond.value <= 0) return std::nullopt;
    return Kilonewtons{2 * beyond.value * plate.value * ultimate.value / newtons};
}

Kilonewtons bearing_strength(Millimetres pin, Millimetres plate, Stress ultimate) {
    return {pin.value * plate.value * ultimate.value / newtons};
}

std::optional<Kilonewtons> net_section_strength(Millimetres width, Millimetres hole, Millimetres plate,
                                                Stress ultimate) {
    if (hole >= width) return std::nullopt;
    return Kilonewtons{(width - hole).value * plate.value * ultimate.value / newtons};
}

Percent worn_area(Millimetres worn, Millimetres whole) { return {100 * (worn / whole) * (worn / whole)}; }

std::optional<Degrees> leg_angle(Millimetres leg, Millimetres gap) {
    const double half = gap / (leg * 2);
    if (!(half >= 0 && half <= 1)) return std::nullopt;
    return Degrees{2 * std::asin(half) * 180 / std::numbers::pi};
}

const trade::SplitPinSize* split_pin_for(Millimetres clevis, const trade::Tables& tables) {
    for (const trade::SplitPinSize& row : tables.split_pins)
        if (clevis > row.over + same_size && clevis <= row.up_to + same_size) return &row;
    return nullptr;
}

const survey::Fitting* pin_beside(const survey::Fitting& fitting, const survey::Survey& survey,
                                  const trade::Trade& trade) {
    if (trade.is_a(fitting, KindIs::pin)) return &fitting;
    if (fitting.stay.empty()) return nullptr;
    return beside(survey, fitting, [&](const survey::Fitting& other) { return trade.is_a(other, KindIs::pin); });
}

std::optional<Degrees> legs_of(const survey::Fitting& fitting, const trade::Trade& trade) {
    if (const auto angle = measure_of<Degrees>(fitting, "leg-angle", trade)) return angle;
    const auto leg = measure_of<Millimetres>(fitting, "leg-length", trade);
    const auto gap = measure_of<Millimetres>(fitting, "leg-gap", trade);
    return leg && gap ? leg_angle(*leg, *gap) : std::nullopt;
}

void pins(const Case& one, Calculations& all) {
    for (const survey::Fitting& fitting : one.survey.fittings)
        if (const survey::Stay* stay = one.survey.stay(fitting.stay);
            stay != nullptr && one.trade.is_a(fitting, KindIs::pin))
            pin(fitting, *stay, one, all);
    for (const survey::Fitting& fitting : one.survey.fittings)
        if (one.trade.is_a(fitting, KindIs::split_pin) ||
            (one.trade.is_a(fitting, KindIs::pin) && beside(fitting, KindIs::split_pin, one) == nullptr))
            split_pin(fitting, one, all);
}

}  // namespace rigdeed::assessment
