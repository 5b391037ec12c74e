#include "assessment/quantities.hpp"

#include <array>
#include <cmath>

#include "assessment/calculations/rig_load.hpp"
#include "assessment/calculations/spreader_tip.hpp"
#include "assessment/calculations/static_tension.hpp"
#include "assessment/calculations/working.hpp"
#include "base/error.hpp"
#include "base/text.hpp"

namespace rigdeed::assessment {
namespace {

using Found = std::optional<double>;

Found measured(std::string_view what, const Place& place) {
    const auto value = measure_of<Ratio>(place.fitting, what, place.trade);
    return value ? Found(value->value) : std::nullopt;
}

/// The part of `of` that `what` is, in per cent.
Found share(std::string_view what, std::string_view of, const Place& place) {
    const auto part = measured(what, place), whole = measured(of, place);
    return part && whole && *whole > 0 ? Found(100 * *part / *whole) : std::nullopt;
}

Found thread_turns(const Place& place) {
    const auto engaged = measured("thread-engaged", place), screw = measured("thread-diameter", place);
    return engaged && screw && *screw > 0 ? Found(*engaged / *screw) : std::nullopt;
}

Found pin_wear(const Place& place) {
    const auto left = share("worn-diameter", "pin-diameter", place);
    return left ? Found(100 - *left) : std::nullopt;
}

/// The pin as measured on the fitting itself, else the one beside it; as it is now, if it is worn.
Found hole_clearance(const Place& place) {
    const auto hole = measured("hole-diameter", place);
    auto pin = measured("pin-diameter", place);
    if (!pin)
        if (const survey::Fitting* beside = pin_beside(place.fitting, place.survey, place.trade))
            pin = measured("pin-diameter", {*beside, place.survey, place.trade});
    return hole && pin && *pin > 0 ? Found(100 * (*hole - *pin) / *pin) : std::nullopt;
}

Found plate_left(const Place& place) { return share("plate-thickness", "plate-whole", place); }
Found wall_left(const Place& place) { return share("wall", "wall-whole", place); }

bool is_line(const Place& place) { return place.trade.is_a(place.fitting, trade::KindIs::line); }

Found rest_tension(const Place& place) {
    const survey::Stay* stay = place.stay();
    if (stay == nullptr || !is_line(place)) return std::nullopt;
    const auto tension = tension_of(*stay, place.survey, place.trade);
    const SourcedLoad strand = strength_of(*stay, place.trade);
    return tension && strand.load ? Found(percent_of(*tension, *strand.load).value) : std::nullopt;
}

const survey::Stay* opposite(const survey::Stay& stay, const Place& place) {
    for (const survey::Stay& other : place.survey.stays)
        if (place.trade.are_pair(stay, other) || place.trade.are_pair(other, stay)) return &other;
    return nullptr;
}

Found tension_apart(const Place& place) {
    const survey::Stay* stay = place.stay();
    const survey::Stay* other = stay != nullptr && is_line(place) ? opposite(*stay, place) : nullptr;
    if (other == nullptr || !place.trade.role(stay->role)->pairs) return std::nullopt;
    const auto one = tension_of(*stay, place.survey, place.trade);
    const auto two = tension_of(*other, place.survey, place.trade);
    return one && two ? Found(apart(*one, *two).value) : std::nullopt;
}

Found stay_safety(const Place& place) {
    const survey::Stay* stay = place.stay();
    if (stay == nullptr || !is_line(place)) return std::nullopt;
    const auto load = load_of(*stay, place.survey, place.trade);
    const SourcedLoad strand = strength_of(*stay, place.trade);
    return load && strand.load ? Found(safety(*strand.load, *load).value) : std::nullopt;
}

Found link_ratio(const Place& place) {
    const survey::Stay* stay = place.stay();
    if (stay == nullptr) return std::nullopt;
    const SourcedLoad link = link_load(place.fitting, place.survey, place.trade);
    const SourcedLoad strand = strength_of(*stay, place.trade);
    return link.load && strand.load ? Found(*link.load / *strand.load) : std::nullopt;
}

/// A load that part of a fitting holds, over its strand.
template <class Held>
Found over_strand(const Place& place, const Held& held) {
    const survey::Stay* stay = place.stay();
    if (stay == nullptr) return std::nullopt;
    const std::optional<Kilonewtons> load = held(place.fitting, place.survey, place.trade);
    const SourcedLoad strand = strength_of(*stay, place.trade);
    return load && strand.load ? Found(*load / *strand.load) : std::nullopt;
}

Found wall_bearing(const Place& place) { return over_strand(place, wall_load); }
Found bolt_ratio(const Place& place) { return over_strand(place, bolts_load); }

Found shroud_angle(const Place& place) { return measured("mast-angle", place); }

Found tip_off(const Place& place) {
    const auto above = measured("angle-above", place), below = measured("angle-below", place);
    const auto rise = measured("spreader-rise", place);
    if (!above || !below || !rise) return std::nullopt;
    return std::abs(*rise - bisecting({{*above}, {*below}, {*rise}}).value);
}

Found legs(const Place& place) {
    const auto angle = legs_of(place.fitting, place.trade);
    return angle ? Found(angle->value) : std::nullopt;
}

Found split_pin_size(const Place& place) {
    const auto fitted = measured("split-pin-diameter", place);
    const survey::Fitting* clevis = pin_beside(place.fitting, place.survey, place.trade);
    if (!fitted || clevis == nullptr) return std::nullopt;
    const auto pin = measure_of<Millimetres>(*clevis, "pin-diameter", place.trade);
    const trade::SplitPinSize* wanted = pin ? split_pin_for(*pin, place.trade.tables) : nullptr;
    return wanted != nullptr ? Found(100 * *fitted / wanted->size.value) : std::nullopt;
}

Found wires_broken(const Place& place) { return measured("wires-broken", place); }
Found wires_corroded(const Place& place) { return measured("wires-corroded", place); }
Found dent_depth(const Place& place) { return measured("dent-depth", place); }
Found play(const Place& place) { return measured("play", place); }

/// Of the part that was measured, else of the whole stay.
Found growth(const Place& place) {
    const auto grown = measured("grown", place);
    auto whole = measured("gauge-length", place);
    if (const survey::Stay* stay = place.stay(); !whole && stay != nullptr && stay->length)
        whole = stay->length->quantity.value;
    return grown && whole && *whole > 0 ? Found(100 * *grown / *whole) : std::nullopt;
}

Found bow(const Place& place) { return share("bow", "panel", place); }

/// Only where it is known that nothing keeps the metals apart.
Found potential(const Place& place) {
    if (place.fitting.isolator != survey::Isolator::missing) return std::nullopt;
    const auto off = against_mast(place.fitting, place.survey, place.trade);
    return off ? Found(off->value) : std::nullopt;
}

struct Row {
    std::string_view id;
    Found (*find)(const Place&);
};

constexpr std::array rows{Row{"thread-turns", thread_turns},
                          Row{"pin-wear", pin_wear},
                          Row{"hole-clearance", hole_clearance},
                          Row{"plate-left", plate_left},
                          Row{"wall-left", wall_left},
                          Row{"rest-tension", rest_tension},
                          Row{"tension-apart", tension_apart},
                          Row{"stay-safety", stay_safety},
                          Row{"link-ratio", link_ratio},
                          Row{"wall-bearing", wall_bearing},
                          Row{"bolt-ratio", bolt_ratio},
                          Row{"shroud-angle", shroud_angle},
                          Row{"tip-off", tip_off},
                          Row{"leg-angle", legs},
                          Row{"split-pin-size", split_pin_size},
                          Row{"wires-broken", wires_broken},
                          Row{"wires-corroded", wires_corroded},
                          Row{"dent-depth", dent_depth},
                          Row{"play", play},
                          Row{"growth", growth},
                          Row{"bow", bow},
                          Row{"potential", potential}};

}  // namespace

std::optional<double> quantity_of(std::string_view id, const Place& place) {
    for (const Row& row : rows)
        if (row.id == id) {
            const Found found = row.find(place);
            return found && std::isfinite(*found) ? found : std::nullopt;
        }
    throw Error("no quantity " + in_quotes(id), "quantities.cpp", {}, ExitCode::bug);
}

}  // namespace rigdeed::assessment
