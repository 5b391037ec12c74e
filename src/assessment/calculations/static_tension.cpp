#include "assessment/calculations/static_tension.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "assessment/calculations/strand_strength.hpp"
#include "assessment/calculations/working.hpp"
#include "trade/judge.hpp"

namespace rigdeed::assessment {
namespace {

bool holds(const std::vector<std::string>& list, const std::string& word) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

std::vector<const trade::Modulus*> moduli_of(const survey::Stay& stay, const trade::Tables& tables) {
    std::vector<const trade::Modulus*> found;
    for (const trade::Modulus& row : tables.moduli)
        if (holds(row.makes, stay.make) && holds(row.alloys, stay.alloy)) found.push_back(&row);
    return found;
}

/// The fitting on which the tension was measured, else the one on which it could be.
const survey::Fitting* gauged(const survey::Stay& stay, const survey::Survey& survey, const trade::Trade& trade) {
    const survey::Fitting* found = nullptr;
    for (const survey::Fitting& fitting : survey.fittings) {
        if (fitting.stay != stay.id) continue;
        for (const char* what : {"tension", "gauge-reading", "stretch"})
            if (fitting.measure(what) != nullptr) return &fitting;
        if (trade.is_a(fitting, trade::KindIs::line)) found = &fitting;
    }
    return found;
}

std::optional<Stretch> stretch_of(const survey::Fitting* fitting, const trade::Trade& trade) {
    if (fitting == nullptr) return std::nullopt;
    const auto by = measure_of<Millimetres>(*fitting, "stretch", trade);
    const auto over = measure_of<Millimetres>(*fitting, "gauge-length", trade);
    return by && over ? std::optional(Stretch{*by, *over}) : std::nullopt;
}

/// What a stay at rest should not carry: less for a rope that creeps.
void caps(Working& working, const survey::Stay& stay, Percent share, const Case& one) {
    const trade::Tables& tables = one.trade.tables;
    const trade::Constant& sense = tables.constant("sense-tension-most");
    const trade::Constant& most = tables.constant("tension-cap-most");
    if (share.value > sense.value)
        return working.doubt("out-of-sense", {{"share", working.number(share.value, 0)}, {"source", sense.source}});
    const trade::Constant& creep = tables.constant("tension-textile-most");
    if (stay.make == "textile" && share.value > creep.value)
        return working.remark("creep", {{"most", working.number(creep.value, 0)}, {"source", creep.source}});
    if (share.value > most.value)
        working.remark("above", {{"most", working.number(most.value, 0)}, {"source", most.source}});
}

void by_stretch(Working& working, const survey::Stay& stay, const Stretch& stretch, const Case& one) {
    const SourcedLoad strand = strength_of(stay, one.trade);
    working.input<Millimetres>("d", "diameter", stay.diameter.quantity, 2, one.trade.wording("calc.source.survey"));
    if (stay.make == "1x19") {
        const Percent rule = tension_by_rule(stretch);
        working.result<Percent>("5 % · s / (l / 2 m) / 1 mm", "tension-by-rule", rule, 1);
        if (strand.load) working.result<Kilonewtons>("", "tension-by-rule", *strand.load * (rule.value / 100), 2);
    }
    int number = 0;
    for (const trade::Modulus* modulus : moduli_of(stay, one.trade.tables)) {
        const std::string suffix = std::to_string(++number);
        working.input<Stress>("E" + suffix, "modulus", modulus->value, 0, modulus->source);
        const Kilonewtons tension = tension_by_modulus(stretch, stay.diameter.quantity, modulus->value);
        working.result<Kilonewtons>("E" + suffix + " · A · s / l", "tension-by-modulus", tension, 2);
        if (!strand.load) continue;
        working.result<Percent>("of F", "share-of-strength", percent_of(tension, *strand.load), 1);
        if (number == 1) caps(working, stay, percent_of(tension, *strand.load), one);
    }
    if (number > 0) working.note("they-differ");
}

void tension_at_rest(const survey::Stay& stay, const Case& one, Calculations& all) {
    Working working(one, "static-tension");
    working.about(stay);
    const SourcedLoad strand = strength_of(stay, one.trade);
    working.input<Kilonewtons>("F", "breaking-load", strand.load, 2, strand.source);
    const survey::Fitting* fitting = gauged(stay, one.survey, one.trade);
    const auto gauge = working.measured_if<Kilonewtons>("Tg", "tension", fitting, 2);
    if (gauge) {
        working.result<Kilonewtons>("Tg", "tension", gauge, 2);
        if (strand.load) {
            working.result<Percent>("Tg / F", "share-of-strength", percent_of(*gauge, *strand.load), 1);
            caps(working, stay, percent_of(*gauge, *strand.load), one);
        }
    }
    const auto reading = working.measured_if<Ratio>("r", "gauge-reading", fitting, 1);
    if (reading && !gauge) {
        const auto by_table = by_gauge_table(reading->value, stay.diameter.quantity, one.survey.gauge);
        if (!by_table) working.remark("not-in-table");
        working.result<Kilonewtons>("T(r)", "tension-by-table", by_table, 2);
        if (by_table && strand.load)
            working.result<Percent>("T(r) / F", "share-of-strength", percent_of(*by_table, *strand.load), 1);
    }
    const auto by = working.measured_if<Millimetres>("s", "stretch", fitting, 2);
    const auto over = working.measured_if<Millimetres>("l", "gauge-length", fitting, 0);
    if (by && over) by_stretch(working, stay, {*by, *over}, one);
    const std::string of = fitting != nullptr ? fitting->id : stay.id;
    if (!by && !gauge && !reading) working.missing("stretch", working.measure_name("stretch"), of);
    if (!over && !gauge && !reading) working.missing("gauge-length", working.measure_name("gauge-length"), of);
    working.result_or_none("T", "tension");
    all.push_back(working.done());
}

void sides(const survey::Stay& port, const survey::Stay& starboard, const Case& one, Calculations& all) {
    const auto left = tension_of(port, one.survey, one.trade);
    const auto right = tension_of(starboard, one.survey, one.trade);
    if (!left && !right) return;
    Working working(one, "port-and-starboard");
    working.about(trade::stay_name(port, one.trade) + ", " + trade::stay_name(starboard, one.trade),
                  {port.id, starboard.id});
    working.input<Kilonewtons>("Tp", "tension-port", left, 2, one.trade.wording("calc.source.above"));
    working.input<Kilonewtons>("Ts", "tension-starboard", right, 2, one.trade.wording("calc.source.above"));
    if (!left) working.missing("stretch", working.measure_name("stretch"), port.id);
    if (!right) working.missing("stretch", working.measure_name("stretch"), starboard.id);
    const auto off = left && right ? std::optional(apart(*left, *right)) : std::nullopt;
    working.result<Percent>("|Tp − Ts| / mean", "apart", off, 1);
    const trade::Constant& limit = one.trade.tables.constant("sides-apart");
    if (off && off->value > limit.value)
        working.remark("uneven", {{"limit", working.number(limit.value, 0)}, {"source", limit.source}});
    all.push_back(working.done());
}

}  // namespace

const trade::Modulus* first_modulus(const survey::Stay& stay, const trade::Tables& tables) {
    const auto found = moduli_of(stay, tables);
    return found.empty() ? nullptr : found.front();
}

Percent tension_by_rule(const Stretch& stretch) {
    constexpr Millimetres two_metres{2000};
    return {5 * stretch.by.value / (stretch.over / two_metres)};
}

Kilonewtons tension_by_modulus(const Stretch& stretch, Millimetres diameter, Stress modulus) {
    return {modulus.value * circle(diameter).value * (stretch.by / stretch.over) / 1000};
}

Millimetres stretch_under(Kilonewtons load, Millimetres over, Millimetres diameter, Stress modulus) {
    return over * (load.value * 1000 / (modulus.value * circle(diameter).value));
}

Stress modulus_from_stretch_factor(Ratio factor) {
    constexpr double psi = 0.0044482216152605 * 1000 / (25.4 * 25.4);  // N/mm²
    return {400 / (std::numbers::pi * factor.value) * psi};
}

Percent percent_of(Kilonewtons part, Kilonewtons whole) { return {100 * (part / whole)}; }

Percent apart(Kilonewtons one, Kilonewtons other) {
    const double mean = (one + other).value / 2;
    return {mean == 0 ? 0 : 100 * std::abs((one - other).value) / mean};
}

std::optional<Kilonewtons> by_gauge_table(double reading, Millimetres diameter,
                                          const std::vector<survey::GaugeRow>& table) {
    constexpr Millimetres same_size{0.2};
    std::vector<const survey::GaugeRow*> rows;
    for (const survey::GaugeRow& row : table)
        if (std::abs((row.diameter.quantity - diameter).value) <= same_size.value) rows.push_back(&row);
    std::sort(rows.begin(), rows.end(), [](const auto* a, const auto* b) { return a->reading < b->reading; });
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (rows[i]->reading == reading) return rows[i]->tension.quantity;
        if (i == 0 || !(rows[i - 1]->reading < reading && reading < rows[i]->reading)) continue;
        const double part = (reading - rows[i - 1]->reading) / (rows[i]->reading - rows[i - 1]->reading);
        return rows[i - 1]->tension.quantity + (rows[i]->tension.quantity - rows[i - 1]->tension.quantity) * part;
    }
    return std::nullopt;
}

std::optional<Kilonewtons> tension_of(const survey::Stay& stay, const survey::Survey& survey,
                                      const trade::Trade& trade) {
    const survey::Fitting* fitting = gauged(stay, survey, trade);
    if (fitting == nullptr) return std::nullopt;
    if (const auto gauge = measure_of<Kilonewtons>(*fitting, "tension", trade)) return gauge;
    if (const auto reading = measure_of<Ratio>(*fitting, "gauge-reading", trade))
        return by_gauge_table(reading->value, stay.diameter.quantity, survey.gauge);
    const auto stretch = stretch_of(fitting, trade);
    const auto moduli = moduli_of(stay, trade.tables);
    if (!stretch || moduli.empty()) return std::nullopt;
    return tension_by_modulus(*stretch, stay.diameter.quantity, moduli.front()->value);
}

void static_tensions(const Case& one, Calculations& all) {
    for (const survey::Stay& stay : one.survey.stays) tension_at_rest(stay, one, all);
    for (const survey::Stay& port : one.survey.stays)
        for (const survey::Stay& starboard : one.survey.stays)
            if (one.trade.are_pair(port, starboard) && one.trade.role(port.role)->pairs)
                sides(port, starboard, one, all);
}

}  // namespace rigdeed::assessment
