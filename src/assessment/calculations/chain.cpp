#include <algorithm>
#include <array>

#include "assessment/calculations/pins.hpp"
#include "assessment/calculations/working.hpp"
#include "trade/judge.hpp"

namespace rigdeed::assessment {
namespace {

// From the deck up; what is not here carries none of the stay's load.
constexpr std::array links{"chainplate",           "clevis-pin",      "toggle",       "turnbuckle", "swaged-terminal",
                           "compression-terminal", "deadeye-lashing", "terminal-eye", "thimble",    "tang"};

struct Link {
    const survey::Fitting* fitting = nullptr;
    std::optional<Kilonewtons> load;
    std::string source;
};

bool stainless(const std::string& metal) { return metal == "316" || metal == "316L"; }

/// A plate torn out at its edge or across its hole, whichever is less.
std::optional<Kilonewtons> plate_strength(const survey::Fitting& plate, const trade::Trade& trade) {
    const auto measure = [&](const char* what) { return measure_of<Millimetres>(plate, what, trade); };
    const auto thickness = measure("plate-thickness");
    const auto edge = measure("edge-distance");
    const auto hole = measure("hole-diameter");
    if (!thickness || !edge || !hole) return std::nullopt;
    const Stress shear{trade.tables.constant("pin-shear-ultimate").value};
    const Stress tension{trade.tables.constant("plate-ultimate").value};
    auto load = tear_out_strength(*hole, *thickness, *edge, shear);
    const auto width = measure("width");
    if (load && width)
        if (const auto across = net_section_strength(*width, *hole, *thickness, tension))
            load = std::min(*load, *across);
    return load;
}

Link link_of(const survey::Fitting& fitting, const trade::Trade& trade) {
    const trade::Wording& words = trade.wording;
    const auto worn = measure_of<Millimetres>(fitting, "worn-diameter", trade);
    const auto whole = measure_of<Millimetres>(fitting, "pin-diameter", trade);
    if (const auto load = measure_of<Kilonewtons>(fitting, "breaking-load", trade)) {
        if (!worn || !whole || *worn >= *whole) return {&fitting, load, words("calc.source.maker")};
        return {&fitting, *load * (worn_area(*worn, *whole).value / 100), words("calc.chain-of-strength.worn")};
    }
    if (!stainless(fitting.metal)) return {&fitting, std::nullopt, {}};
    if (fitting.kind == "clevis-pin") {
        const Stress ultimate{trade.tables.constant("pin-shear-ultimate").value};
        const auto diameter = worn ? worn : whole;
        if (diameter) return {&fitting, pin_strength(*diameter, ultimate), words("calc.chain-of-strength.pin")};
    }
    if (fitting.kind == "chainplate" || fitting.kind == "tang")
        return {&fitting, plate_strength(fitting, trade), words("calc.chain-of-strength.plate")};
    return {&fitting, std::nullopt, {}};
}

/// What it would take to know this link.
void wanted_of(Working& working, const survey::Fitting& fitting, const trade::Trade& trade) {
    const auto want = [&](const char* what) {
        if (fitting.measure(what) == nullptr) working.missing(what, working.measure_name(what), fitting.id);
    };
    const bool plate = fitting.kind == "chainplate" || fitting.kind == "tang";
    if (stainless(fitting.metal) && plate)
        for (const char* what : {"plate-thickness", "edge-distance", "hole-diameter"}) want(what);
    else if (stainless(fitting.metal) && fitting.kind == "clevis-pin") want("pin-diameter");
    else working.missing("breaking-load", trade.wording("calc.name.maker-load"), fitting.id);
}

void ratios(Working& working, const Link& link, const std::string& name, Kilonewtons strand, const Case& one) {
    const trade::Tables& tables = one.trade.tables;
    const bool chainplate = link.fitting->kind == "chainplate";
    if (!chainplate && link.fitting->kind != "tang") return;
    const double ratio = *link.load / strand;
    working.link_ratio(name, Ratio{ratio});
    const auto below = [&](const char* id) {
        if (ratio < tables.constant(id).value)
            working.remark("below", {{"fitting", capitalised(name)},
                                     {"ratio", fixed(ratio, 2)},
                                     {"wanted", fixed(tables.constant(id).value, 2)},
                                     {"source", tables.constant(id).source}});
    };
    below("link-least");
    if (chainplate) below("chainplate-least");
}

/// "lower swaged terminal": the stay is named already.
std::string short_name(const survey::Fitting& fitting, const survey::Stay& stay, const Case& one) {
    const std::string name = trade::fitting_name(fitting, one.survey, one.trade);
    const std::string before = trade::stay_name(stay, one.trade) + ", ";
    return name.starts_with(before) ? name.substr(before.size()) : name;
}

void add_link(Working& working, const Link& link, const std::string& name, const SourcedLoad& strand, const Case& one) {
    working.link(name, link.load, link.source);
    if (!link.load) wanted_of(working, *link.fitting, one.trade);
    else if (strand.load) ratios(working, link, name, *strand.load, one);
}

}  // namespace

void chains_of_strength(const Case& one, Calculations& all) {
    for (const survey::Stay& stay : one.survey.stays) {
        Working working(one, "chain-of-strength");
        working.about(stay);
        const SourcedLoad strand = strength_of(stay, one.trade);
        working.link(one.trade.wording("calc.chain-of-strength.strand"), strand.load, strand.source);
        if (!strand.load) working.missing("breaking-load", one.trade.wording("calc.name.breaking-load"), stay.id);
        std::optional<Kilonewtons> weakest = strand.load;
        std::string name = one.trade.wording("calc.chain-of-strength.strand");
        bool all_known = strand.load.has_value(), any_link = false;
        for (const char* kind : links)
            for (const survey::Fitting& fitting : one.survey.fittings) {
                if (fitting.stay != stay.id || fitting.kind != kind) continue;
                const Link link = link_of(fitting, one.trade);
                add_link(working, link, short_name(fitting, stay, one), strand, one);
                all_known = all_known && link.load.has_value();
                any_link = any_link || link.load.has_value();
                if (!link.load || (weakest && *link.load >= *weakest)) continue;
                weakest = link.load;
                name = short_name(fitting, stay, one);
            }
        if (!any_link) weakest = std::nullopt;
        if (weakest) working.result_text("", "weakest-link", name);
        working.result<Kilonewtons>("Fw", "weakest", weakest, 2);
        working.result<Ratio>("Fw / F", "to-strand",
                              weakest && strand.load ? std::optional(Ratio{*weakest / *strand.load}) : std::nullopt, 2);
        if (weakest && !all_known) working.note("of-those-measured");
        all.push_back(working.done());
    }
}

}  // namespace rigdeed::assessment
