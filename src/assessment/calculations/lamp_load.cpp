#include "assessment/calculations/lamp_load.hpp"

#include "assessment/calculations/working.hpp"

namespace rigdeed::assessment {
namespace {

void one_lamp(const survey::Fitting& light, const Case& one, Calculations& all) {
    Working working(one, "lamp-load");
    working.about(light);
    const auto power = working.measured<Watts>("P", "lamp-power", &light, light.id, 1);
    const auto voltage = working.measured<Volts>("U", "lamp-voltage", &light, light.id, 1);
    const auto time = working.measured<Hours>("h", "lamp-hours", &light, light.id, 1);
    const auto least = working.constant<Amperes>("i1", "led-least", 1);
    const auto most = working.constant<Amperes>("i2", "led-most", 1);
    const auto current = power && voltage ? std::optional(lamp_current(*power, *voltage)) : std::nullopt;
    working.result<Amperes>("I = P / U", "lamp-current", current, 3);
    const auto by_time = [&](std::optional<Amperes> amperes) {
        return amperes && time ? std::optional(charge(*amperes, *time)) : std::nullopt;
    };
    working.result<AmpereHours>("I · h", "lamp-charge", by_time(current), 1);
    // What LED saves is less than nothing on a lamp that is LED already.
    if (current && *current <= most) working.remark("led-already");
    else {
        working.result<AmpereHours>("(I − i2) · h", "saved-least", current ? by_time(*current - most) : std::nullopt,
                                    1);
        working.result<AmpereHours>("(I − i1) · h", "saved-most", current ? by_time(*current - least) : std::nullopt,
                                    1);
    }
    all.push_back(working.done());
}

}  // namespace

Amperes lamp_current(Watts power, Volts voltage) { return {power.value / voltage.value}; }

AmpereHours charge(Amperes current, Hours time) { return {current.value * time.value}; }

void lamp_loads(const Case& one, Calculations& all) {
    for (const survey::Fitting& fitting : one.survey.fittings)
        if (one.trade.is_a(fitting, trade::KindIs::lamp)) one_lamp(fitting, one, all);
}

}  // namespace rigdeed::assessment
