#include <algorithm>

#include "assessment/calculations/pins.hpp"
#include "assessment/calculations/strand_strength.hpp"
#include "assessment/calculations/working.hpp"
#include "trade/judge.hpp"

namespace rigdeed::assessment {
namespace {

struct Link {
    const survey::Fitting* fitting = nullptr;
    const trade::LinkKind* kind = nullptr;
    std::optional<Kilonewtons> load;
    std::string source;
};

/// A plate torn out at its edge, parted across its hole, or crushed by its pin, whichever is least.
std::optional<Kilonewtons> plate_strength(const survey::Fitting& plate, const trade::Trade& trade) {
    const auto measure = [&](const char* what) { return measure_of<Millimetres>(plate, what, trade); };
    const auto thickness = measure("plate-thickness");
    const auto edge = measure("edge-distance");
    const auto hole = measure("hole-diameter");
    if (!thickness || !edge || !hole) return std::nullopt;
    const Stress shear{trade.tables.constant("pin-shear-ultimate").value};
    const Stress tension{trade.tables.constant("plate-ultimate").value};
    auto load = tear_out_strength(*hole, *thickness, *edge, shear);
    const Stress bearing_ultimate{trade.tables.constant("bearing-ultimate").value};
    const Millimetres pin = measure("pin-diameter").value_or(*hole);
    if (load) load = std::min(*load, bearing_strength(pin, *thickness, bearing_ultimate));
    const auto width = measure("width");
    if (load && width)
        if (const auto across = net_section_strength(*width, *hole, *thickness, tension))
            load = std::min(*load, *across);
    return load;
}

Link link_of(const survey::Fitting& fitting, const trade::LinkKind& kind, const trade::Trade& trade) {
    const trade::Wording& words = trade.wording;
    const auto worn = measure_of<Millimetres>(fitting, "worn-diameter", trade);
    const auto whole = measure_of<Millimetres>(fitting, "pin-diameter", trade);
    if (const auto load = measure_of<Kilonewtons>(fitting, "breaking-load", trade)) {
        if (!worn || !whole || *worn >= *whole) return {&fitting, &kind, load, words("calc.source.maker")};
        return {&fitting, &kind, *load * (worn_area(*worn, *whole).value / 100), words("calc.chain-of-strength.worn")};
    }
    if (!is_calculated(fitting, trade)) return {&fitting, &kind, std::nullopt, {}};
    if (kind.by == trade::LinkBy::pin) {
        const Stress ultimate{trade.tables.constant("pin-shear-ultimate").value};
        const auto diameter = worn ? worn : whole;
        if (diameter) return {&fitting, &kind, pin_strength(*diameter, ultimate), words("calc.chain-of-strength.pin")};
    }
    if (kind.by == trade::LinkBy::plate)
        return {&fitting, &kind, plate_strength(fitting, trade), words("calc.chain-of-strength.plate")};
    return {&fitting, &kind, std::nullopt, {}};
}

/// What it would take to know this link.
void wanted_of(Working& working, const Link& link, const survey::Survey& survey, const trade::Trade& trade) {
    const survey::Fitting& fitting = *link.fitting;
    const auto want = [&](const char* what) {
        if (fitting.measure(what) == nullptr) working.missing(what, working.measure_name(what), fitting.id);
    };
    if (is_calculated(fitting, trade) && link.kind->by == trade::LinkBy::plate)
        for (const char* what : {"plate-thickness", "edge-distance", "hole-diameter"}) want(what);
    else if (is_calculated(fitting, trade) && link.kind->by == trade::LinkBy::pin) want("pin-diameter");
    else working.missing("breaking-load", maker_load_name(fitting, survey, trade), fitting.id);
}

/// A link against the strand, and against each of the ratios asked of its kind.
void ratios(Working& working, const Link& link, const std::string& name, Kilonewtons strand, const Case& one) {
    if (link.kind->least.empty()) return;
    const double ratio = *link.load / strand;
    working.link_ratio(name, Ratio{ratio});
    for (const std::string& id : link.kind->least) {
        const trade::Constant& least = one.trade.tables.constant(id);
        if (ratio < least.value)
            working.remark("below", {{"fitting", capitalised(name)},
                                     {"ratio", working.number(ratio, 2)},
                                     {"wanted", working.number(least.value, 2)},
                                     {"source", least.source}});
    }
}

std::vector<Link> links_of(const survey::Stay& stay, const Case& one) {
    std::vector<Link> links;
    for (const trade::LinkKind& kind : one.trade.tables.links)
        for (const survey::Fitting& fitting : one.survey.fittings)
            if (fitting.stay == stay.id && fitting.kind == kind.kind)
                links.push_back(link_of(fitting, kind, one.trade));
    return links;
}

void chain(const survey::Stay& stay, const Case& one, Calculations& all) {
    Working working(one, "chain-of-strength");
    working.about(stay);
    const SourcedLoad strand = strength_of(stay, one.trade);
    std::optional<Kilonewtons> weakest = strand.load;
    std::string weakest_name = one.trade.wording("calc.chain-of-strength.strand");
    working.strand(weakest_name, strand);
    if (!strand.load) working.missing("breaking-load", strand_load_name(stay, one.trade), stay.id);
    bool every_link = strand.load.has_value(), any_link = false;
    std::size_t known = strand.load ? 1 : 0, links = 1;
    for (const Link& link : links_of(stay, one)) {
        const std::string name = trade::own_name(*link.fitting, one.survey, one.trade);
        working.link(name, {link.load, link.source}, link.fitting->id);
        ++links;
        if (link.load) ++known;
        if (!link.load) {
            wanted_of(working, link, one.survey, one.trade);
            every_link = false;
            continue;
        }
        any_link = true;
        if (strand.load) ratios(working, link, name, *strand.load, one);
        if (weakest && *link.load >= *weakest) continue;
        weakest = link.load;
        weakest_name = name;
    }
    if (!any_link) weakest = std::nullopt;  // a chain of the strand alone says nothing
    if (weakest) working.result_text("", "weakest-link", weakest_name);
    working.result<Kilonewtons>("Fw", "weakest", weakest, 2);
    const bool compared = weakest && strand.load;
    working.result<Ratio>("Fw / F", "to-strand",
                          compared ? std::optional(Ratio{*weakest / *strand.load}) : std::nullopt, 2);
    if (weakest && !every_link)
        working.note("of-those-measured", {{"n", std::to_string(known)}, {"m", std::to_string(links)}});
    if (const int broken = broken_wires(stay, one.survey, one.trade); broken > 0 && strand.load)
        working.remark("wires-broken", {{"n", std::to_string(broken)}});
    all.push_back(working.done());
}

}  // namespace

SourcedLoad link_load(const survey::Fitting& fitting, const survey::Survey&, const trade::Trade& trade) {
    for (const trade::LinkKind& kind : trade.tables.links) {
        if (kind.kind != fitting.kind) continue;
        Link link = link_of(fitting, kind, trade);
        return {link.load, std::move(link.source)};
    }
    return {};
}

void chains_of_strength(const Case& one, Calculations& all) {
    for (const survey::Stay& stay : one.survey.stays) chain(stay, one, all);
}

}  // namespace rigdeed::assessment
