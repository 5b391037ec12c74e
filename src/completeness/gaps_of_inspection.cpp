#include <algorithm>

#include "base/text.hpp"
#include "completeness/gaps.hpp"
#include "trade/judge.hpp"

namespace rigdeed::completeness {

using survey::Climbed;
using survey::Fitting;
using survey::Seen;
using survey::Way;

Note about(const Fitting& fitting, std::string_view code, std::string what, std::string hint) {
    return {std::string(code), fitting.id, fitting.line, std::move(what), std::move(hint)};
}

namespace {

void not_seen_in(Way pass, std::string_view code, const Inspection& in, Notes& notes) {
    const std::string way = survey::name_of(pass);
    const std::string what = in.trade.wording("gap." + std::string(code));
    for (const Fitting& fitting : in.survey.fittings)
        if (must_be_seen(fitting, pass, in.survey) && fitting.in(pass) == nullptr)
            notes.push_back(
                about(fitting, code, what,
                      "add <seen pass=\"" + way + "\" …>, or <not-seen reason=\"…\"/> if it could not be inspected"));
}

/// The last moment of the deck level's first look; nothing if no deck fitting was seen.
std::optional<TimeOfDay> deck_finished(const survey::Survey& survey) {
    std::optional<TimeOfDay> last;
    for (const Fitting& fitting : survey.fittings)
        if (const Seen* up = fitting.at_deck() ? fitting.in(Way::up) : nullptr)
            last = last ? std::max(*last, up->at) : up->at;
    return last;
}

}  // namespace

void not_seen_up(const Inspection& in, Notes& notes) { not_seen_in(Way::up, "not-seen-up", in, notes); }
void not_seen_down(const Inspection& in, Notes& notes) { not_seen_in(Way::down, "not-seen-down", in, notes); }

void down_before_up(const Inspection& in, Notes& notes) {
    for (const Fitting& fitting : in.survey.fittings) {
        const Seen* up = fitting.in(Way::up);
        const Seen* down = fitting.in(Way::down);
        if (up != nullptr && down != nullptr && down->at <= up->at)
            notes.push_back(
                about(fitting, "down-before-up",
                      in.trade.wording("gap.down-before-up", {{"down", down->at.hh_mm()}, {"up", up->at.hh_mm()}}),
                      "correct the times; the second look comes after the first"));
    }
}

void aloft_before_deck(const Inspection& in, Notes& notes) {
    if (in.survey.attendance.climbed != Climbed::yes) return;
    const auto finished = deck_finished(in.survey);
    if (!finished) return;
    for (const Fitting& fitting : in.survey.fittings)
        for (const Seen& seen : fitting.seen)
            if (!fitting.at_deck() && seen.at < *finished)
                notes.push_back(about(fitting, "aloft-before-deck",
                                      in.trade.wording("gap.aloft-before-deck",
                                                       {{"time", seen.at.hh_mm()}, {"finished", finished->hh_mm()}}),
                                      "the deck level comes first: correct the times, or survey in that order"));
}

void climbed_despite_bar(const Inspection& in, Notes& notes) {
    if (in.survey.attendance.climbed != Climbed::yes) return;
    for (const Fitting& barred : in.survey.fittings)
        for (const trade::JudgedSign& sign : trade::judge(barred, in.trade)) {
            if (!sign.bars || sign.seen->pass != Way::up) continue;
            const auto climbed_on =
                std::find_if(in.survey.fittings.begin(), in.survey.fittings.end(), [&](const Fitting& other) {
                    return !other.at_deck() && std::any_of(other.seen.begin(), other.seen.end(), [&](const Seen& seen) {
                        return seen.pass == Way::up && seen.at > sign.seen->at;
                    });
                });
            if (climbed_on == in.survey.fittings.end()) continue;
            notes.push_back(about(
                barred, "climbed-despite-bar",
                in.trade.wording("gap.climbed-despite-bar", {{"sign", sign.rule->name}, {"other", climbed_on->id}}),
                "correct the pass or the time of the sign, or write climbed=\"stopped\" and what was seen up to then"));
        }
}

void seen_aloft_though_stopped(const Inspection& in, Notes& notes) {
    if (in.survey.attendance.climbed != Climbed::stopped) return;
    for (const Fitting& fitting : in.survey.fittings)
        if (!fitting.at_deck() && !fitting.seen.empty())
            notes.push_back(about(fitting, "aloft-though-stopped", in.trade.wording("gap.aloft-though-stopped"),
                                  "write climbed=\"yes\" if somebody climbed, or delete the <seen>"));
}

void milder_without_reason(const Inspection& in, Notes& notes) {
    const trade::Wording& words = in.trade.wording;
    for (const Fitting& fitting : in.survey.fittings) {
        if (!fitting.verdict || !fitting.verdict->because.empty()) continue;
        const auto told = fitting.not_seen ? survey::Verdict::unseen : trade::worst(trade::judge(fitting, in.trade));
        if (fitting.verdict->is >= told) continue;
        Note note = about(
            fitting, "milder-without-reason",
            words("gap.milder-without-reason", {{"verdict", words("verdict." + survey::name_of(fitting.verdict->is))},
                                                {"told", words("verdict." + survey::name_of(told))}}),
            "add because=\"…\": it is printed in the report");
        note.line = fitting.verdict->line;
        notes.push_back(std::move(note));
    }
}

void sound_though_unseen(const Inspection& in, Notes& notes) {
    for (const Fitting& fitting : in.survey.fittings)
        if (fitting.not_seen && fitting.verdict && fitting.verdict->is == survey::Verdict::sound)
            notes.push_back(about(fitting, "sound-though-unseen", in.trade.wording("gap.sound-though-unseen"),
                                  "delete the verdict: what nobody saw is \"unseen\""));
}

void signs_contradict(const Inspection& in, Notes& notes) {
    for (const Fitting& fitting : in.survey.fittings)
        for (const Seen& seen : fitting.seen)
            for (const trade::Contradiction& row : in.trade.contradictions) {
                const auto says = [&](const std::string& code) {
                    return std::any_of(seen.signs.begin(), seen.signs.end(),
                                       [&](const survey::Sign& sign) { return sign.code == code; });
                };
                if (row.kind != fitting.kind || !says(row.sign)) continue;
                if (!row.other.empty() && !says(row.other)) continue;
                if (!row.measured.empty() && fitting.measure(row.measured) == nullptr) continue;
                notes.push_back(about(fitting, "signs-contradict",
                                      in.trade.wording("gap.signs-contradict", {{"sign", row.sign},
                                                                                {"other", row.other + row.measured},
                                                                                {"because", row.because}}),
                                      "keep the one that is true"));
            }
}

namespace {

bool survey_has(const survey::Survey& survey, const trade::PlanStay& wanted, survey::Side side) {
    return std::any_of(survey.stays.begin(), survey.stays.end(), [&](const survey::Stay& stay) {
        return stay.role == wanted.role && stay.mast == wanted.mast && stay.side == side;
    });
}

std::vector<survey::Side> sides_of(const trade::PlanStay& wanted) {
    if (wanted.both_sides) return {survey::Side::port, survey::Side::starboard};
    return {survey::Side::centre};
}

std::string name_of_stay(const trade::PlanStay& wanted, survey::Side side, const trade::Trade& trade) {
    survey::Stay stay;
    stay.role = wanted.role;
    stay.side = side;
    stay.mast = wanted.mast;
    return trade::stay_name(stay, trade);
}

/// A choice of the plan that every value fills with stays: lower shrouds single or double. One of them must be there.
bool some_choice_is_there(const trade::Parameter& parameter, const trade::Plan& plan, const survey::Survey& survey) {
    for (const std::string& value : parameter.values) {
        std::size_t wanted = 0;
        std::size_t there = 0;
        for (const trade::PlanStay& stay : plan.stays) {
            if (stay.when.parameter != parameter.id || stay.when.value != value) continue;
            for (const survey::Side side : sides_of(stay)) {
                ++wanted;
                there += survey_has(survey, stay, side) ? 1U : 0U;
            }
        }
        if (wanted == there) return true;  // also a value without stays: the rig can do without
    }
    return false;
}

}  // namespace

/// The stays without which this rig does not stand; what a plan leaves to choice is not asked for.
void stay_missing(const Inspection& in, Notes& notes) {
    const trade::Plan* plan = in.trade.plan(in.survey.yacht.rig);
    if (plan == nullptr) return;
    const trade::Wording& words = in.trade.wording;
    const std::string hint = "list it in <rig> with its fittings, or correct rig=\"" + plan->id + "\"";
    const auto miss = [&](const std::string& what) {
        notes.push_back({"stay-missing",
                         {},
                         in.survey.yacht.line,
                         words("gap.stay-missing", {{"plan", plan->name}, {"what", what}}),
                         hint});
    };
    for (const trade::PlanStay& wanted : plan->stays)
        for (const survey::Side side : sides_of(wanted))
            if (wanted.required() && !survey_has(in.survey, wanted, side))
                miss(words("gap.stay-missing.one", {{"stay", name_of_stay(wanted, side, in.trade)}}));
    for (const trade::Parameter& parameter : plan->parameters)
        if (!some_choice_is_there(parameter, *plan, in.survey))
            miss(words("gap.stay-missing.choice",
                       {{"parameter", parameter.says}, {"values", words.either(parameter.values)}}));
}

/// Only what the trade has a sign "missing" for can be said to be missing.
std::string how_to_say_none(const trade::Demand& demand, const trade::Trade& trade) {
    for (const std::string& id : demand.kinds)
        if (const trade::Kind* kind = trade.kind(id); kind != nullptr && trade.sign(*kind, trade::missing) != nullptr)
            return "; if the stay has none, write <without fitting=\"" + id + "\" because=\"…\"/>";
    return {};
}

void demand_not_met(const Inspection& in, Notes& notes) {
    for (const survey::Stay& stay : in.survey.stays) {
        const trade::Make* make = in.trade.make(stay.make);
        if (make == nullptr) continue;
        for (const trade::Demand& demand : in.trade.demands_of(stay)) {
            const auto count = static_cast<std::size_t>(
                std::count_if(in.survey.fittings.begin(), in.survey.fittings.end(),
                              [&](const Fitting& fitting) {
                                  return fitting.stay == stay.id && std::find(demand.kinds.begin(), demand.kinds.end(),
                                                                              fitting.kind) != demand.kinds.end();
                              }) +
                std::count_if(stay.without.begin(), stay.without.end(), [&](const survey::Without& without) {
                    return std::find(demand.kinds.begin(), demand.kinds.end(), without.fitting) != demand.kinds.end();
                }));
            if (count >= demand.least) continue;
            notes.push_back({"demand-not-met", stay.id, stay.line,
                             in.trade.wording(demand.least > 1 ? "gap.demand-not-met.some" : "gap.demand-not-met",
                                              {{"make", make->name},
                                               {"fitting", demand.name},
                                               {"n", std::to_string(count)},
                                               {"all", std::to_string(demand.least)}}),
                             "list the fitting with stay=\"" + stay.id + "\", kind: " + join(demand.kinds, " or ") +
                                 how_to_say_none(demand, in.trade)});
        }
    }
}

}  // namespace rigdeed::completeness
