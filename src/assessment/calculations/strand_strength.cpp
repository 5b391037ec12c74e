#include "assessment/calculations/strand_strength.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "assessment/calculations/working.hpp"

namespace rigdeed::assessment {
namespace {

constexpr Millimetres same_diameter{0.02};  // 0.315 in is 8 mm

const trade::PrintedLoad* printed_load(const survey::Stay& stay, const std::string& alloy,
                                       const trade::Tables& tables) {
    for (const trade::PrintedLoad& row : tables.printed_loads) {
        const Millimetres off{std::abs((row.diameter - stay.diameter.quantity).value)};
        if (row.make == stay.make && row.alloy == alloy && off < same_diameter) return &row;
    }
    return nullptr;
}

const trade::Grade* grade_of(const survey::Stay& stay, const trade::Tables& tables) {
    const trade::Construction* construction = tables.construction(stay.make);
    const bool wires = construction != nullptr && construction->wires > 1;
    const auto holds = [](const std::vector<std::string>& list, const std::string& one) {
        return std::find(list.begin(), list.end(), one) != list.end();
    };
    for (const trade::Grade& row : tables.grades)
        if ((row.makes.empty() ? wires : holds(row.makes, stay.make)) &&
            stay.diameter.quantity <= row.up_to + same_diameter && holds(row.alloys, stay.alloy))
            return &row;
    return nullptr;
}

}  // namespace

int broken_wires(const survey::Stay& stay, const survey::Survey& survey, const trade::Trade& trade) {
    int most = 0;
    for (const survey::Fitting& fitting : survey.fittings) {
        const trade::Kind* kind = trade.kind(fitting.kind);
        if (fitting.stay != stay.id || kind == nullptr || !kind->is_a(trade::KindIs::wires)) continue;
        for (const survey::Seen& seen : fitting.seen)
            for (const survey::Sign& sign : seen.signs)
                if (const trade::SignRule* rule = trade.sign(*kind, sign.code);
                    rule != nullptr && rule->is == trade::SignIs::broken_wire)
                    most = std::max(most, sign.count.value_or(1));
    }
    return most;
}

namespace {

/// The inputs and the formula, by where the strength is known from.
std::optional<Kilonewtons> strength(Working& working, const survey::Stay& stay, const trade::Trade& trade) {
    const std::string survey = trade.wording("calc.source.survey");
    if (stay.breaking_load) {
        working.formula("formula-certificate");
        working.input<Kilonewtons>("F", "breaking-load", stay.breaking_load->quantity, 2,
                                   trade.wording("calc.source.certificate"));
        return stay.breaking_load->quantity;
    }
    working.input<Millimetres>("d", "diameter", stay.diameter.quantity, 2, survey);
    if (const trade::PrintedLoad* printed = printed_load(stay, stay.alloy, trade.tables)) {
        working.formula("formula-table");
        working.input<Kilonewtons>("F", "breaking-load", printed->load, 2, printed->source);
        return printed->load;
    }
    const trade::Construction* construction = trade.tables.construction(stay.make);
    const trade::Grade* grade = grade_of(stay, trade.tables);
    if (construction == nullptr || !construction->factor || grade == nullptr) {
        working.formula("formula-none");
        working.missing("breaking-load", strand_load_name(stay, trade), stay.id);
        return std::nullopt;
    }
    working.input<Ratio>("K", "factor", construction->factor, 4, construction->source);
    working.input<Stress>("R", "grade", grade->value, 0, grade->source);
    return breaking_force(stay.diameter.quantity, grade->value, *construction->factor);
}

void what_is_left(Working& working, const survey::Stay& stay, const Case& one) {
    const trade::Construction* construction = one.trade.tables.construction(stay.make);
    const int broken = broken_wires(stay, one.survey, one.trade);
    if (construction == nullptr || broken == 0) return;
    working.input<Ratio>("n", "wires-broken", Ratio{static_cast<double>(broken)}, 0,
                         one.trade.wording("calc.source.survey"));
    working.input<Ratio>("N", "wires", Ratio{static_cast<double>(construction->wires)}, 0, construction->source);
    if (broken > construction->wires) return working.doubt("more-than-all");
    working.result<Percent>("(N − n) / N", "area-left", area_left(construction->wires, broken), 1);
    working.note("not-a-licence");
}

/// What the same size would hold in the alloy of today, 316: by printed tables if both are printed, else by the usual
/// loss.
void in_316(Working& working, const survey::Stay& stay, std::optional<Kilonewtons> force, const trade::Trade& trade) {
    const trade::Material* alloy = trade.material(stay.alloy);
    if (!force || alloy == nullptr || alloy->now.empty()) return;
    const trade::Tables& tables = trade.tables;
    const trade::PrintedLoad* now = printed_load(stay, stay.alloy, tables);
    const trade::PrintedLoad* then = printed_load(stay, alloy->now, tables);
    if (now != nullptr && then != nullptr) {
        working.input<Kilonewtons>("F316", "load-in-316", then->load, 2, then->source);
        working.result<Percent>("1 − F316 / F", "loss-in-316", loss(then->load, now->load), 1);
        return;
    }
    const auto usual = working.constant<Percent>("v", "alloy-316-for-302", 0);
    working.result<Kilonewtons>("F · (1 − v)", "load-in-316", *force * (1 - usual.value / 100), 2);
}

}  // namespace

Kilonewtons breaking_force(Millimetres diameter, Stress grade, Ratio factor) {
    return {factor.value * diameter.value * diameter.value * grade.value / 1000};
}

SquareMillimetres circle(Millimetres diameter) { return {std::numbers::pi / 4 * diameter.value * diameter.value}; }

SquareMillimetres metal_area(Millimetres diameter, Ratio fill) { return circle(diameter) * fill.value; }

Percent area_left(int wires, int broken) { return {100.0 * (wires - broken) / wires}; }

Percent wires_seen(int wires, int outer) { return {100.0 * outer / wires}; }

Percent loss(Kilonewtons of_this, Kilonewtons against) { return {100 * (1 - of_this / against)}; }

SourcedLoad strength_of(const survey::Stay& stay, const trade::Trade& trade) {
    const trade::Wording& words = trade.wording;
    if (stay.breaking_load) return {stay.breaking_load->quantity, words("calc.source.certificate")};
    if (const trade::PrintedLoad* printed = printed_load(stay, stay.alloy, trade.tables))
        return {printed->load, words("calc.source.table")};
    const trade::Construction* construction = trade.tables.construction(stay.make);
    const trade::Grade* grade = grade_of(stay, trade.tables);
    if (construction == nullptr || !construction->factor || grade == nullptr) return {};
    return {breaking_force(stay.diameter.quantity, grade->value, *construction->factor), words("calc.source.formula")};
}

void strand_strengths(const Case& one, Calculations& all) {
    for (const survey::Stay& stay : one.survey.stays) {
        Working working(one, "strand-strength");
        working.about(stay);
        const auto force = strength(working, stay, one.trade);
        working.result<Kilonewtons>("F", "breaking-load", force, 2);
        if (force) working.result_text("", "basis", strength_of(stay, one.trade).source);
        const trade::Construction* construction = one.trade.tables.construction(stay.make);
        if (construction != nullptr && construction->fill)
            working.result<SquareMillimetres>("A", "metal-area",
                                              metal_area(stay.diameter.quantity, *construction->fill), 1);
        if (construction != nullptr && construction->wires > 1)
            working.result<Percent>("", "wires-seen", wires_seen(construction->wires, construction->outer), 0);
        what_is_left(working, stay, one);
        in_316(working, stay, force, one.trade);
        all.push_back(working.done());
    }
}

}  // namespace rigdeed::assessment
