#include "completeness/rig_demanded.hpp"

#include <algorithm>
#include <set>

#include "base/date.hpp"

namespace rigdeed::completeness {

using survey::Side;
using trade::Settings;

namespace {

/// Every mast that needs its foot, its wall and its head looked at (common practice).
constexpr const char* of_every_mast[] = {"mast-step", "mast-wall", "masthead"};
constexpr const char* of_every_spreader[] = {"spreader-root", "spreader-tip"};

std::vector<std::optional<Side>> sides(bool both) {
    if (both) return {Side::port, Side::starboard};
    return {std::nullopt};
}

Side other_side(Side side) { return side == Side::port ? Side::starboard : Side::port; }

bool same_place(const Wanted& a, const Wanted& b) {
    return a.stay == b.stay && a.id == b.id && a.side == b.side && a.mast == b.mast && a.station == b.station &&
           a.of_role == b.of_role;
}

int level_of(const std::string& station) {
    return station.starts_with("spreader-") ? read_digits(station.substr(9)).value_or(0) : 0;
}

}  // namespace

RigDemanded::RigDemanded(const survey::Survey& survey, const trade::Trade& trade) : survey_(survey), trade_(trade) {
    for (const survey::Stay& stay : survey.stays) stays_[stay.id] = &stay;
    const trade::Plan* plan = trade.plan(survey.yacht.rig);
    one_mast_ = plan != nullptr && plan->masts.size() == 1;
    if (plan != nullptr) by_plan(*plan);
    by_any_rig(plan == nullptr);
}

/// Of what is wanted twice, by plan and by what any rig has, the larger number counts.
void RigDemanded::want(Wanted wanted) {
    const auto known = std::find_if(wanted_.begin(), wanted_.end(), [&](const Wanted& one) {
        return one.stay == wanted.stay && one.id == wanted.id && same_mast(one.mast, wanted.mast) &&
               one.side == wanted.side && one.of_role == wanted.of_role &&
               (one.station == wanted.station || one.station.empty());
    });
    if (known == wanted_.end()) wanted_.push_back(std::move(wanted));
    else known->count = std::max(known->count, wanted.count);
}

std::vector<Wanted> RigDemanded::of_plan(const trade::Plan& plan, const Settings& settings) const {
    std::vector<Wanted> all;
    const auto add = [&](Wanted wanted) {
        wanted.of_plan = true;
        const auto known =
            std::find_if(all.begin(), all.end(), [&](const Wanted& one) { return same_place(one, wanted); });
        if (known == all.end()) all.push_back(std::move(wanted));
        else ++known->count;
    };
    const auto last = [&](const std::string& parameter) {
        const auto chosen = settings.find(parameter);
        return chosen == settings.end() ? 1 : read_digits(chosen->second).value_or(1);
    };
    for (const trade::PlanStay& stay : plan.stays) {
        if (!stay.when.holds(settings)) continue;
        const int all_of_them = stay.each.empty() ? 1 : last(stay.each);
        for (int n = stay.each.empty() ? 1 : stay.from; n <= all_of_them; ++n)
            for (const auto side : sides(stay.both_sides))
                add({true, stay.role, side.value_or(Side::centre), stay.mast, {}});
    }
    for (const trade::PlanFitting& fitting : plan.fittings) {
        if (!fitting.when.holds(settings)) continue;
        const bool at_spreader = fitting.station == "spreader";
        const auto stay = std::find_if(plan.stays.begin(), plan.stays.end(), [&](const trade::PlanStay& one) {
            return one.id == fitting.stay && one.mast == fitting.mast;
        });
        const std::string role = fitting.stay.empty() || stay == plan.stays.end() ? std::string() : stay->role;
        for (int n = 1; n <= (fitting.each.empty() ? 1 : last(fitting.each)); ++n)
            for (const auto side : sides(fitting.both_sides))
                add({false, fitting.kind, side, fitting.mast,
                     at_spreader ? "spreader-" + std::to_string(n) : std::string(), role});
    }
    return all;
}

std::size_t RigDemanded::listed(const Wanted& wanted) const {
    if (wanted.stay)
        return static_cast<std::size_t>(
            std::count_if(survey_.stays.begin(), survey_.stays.end(), [&](const survey::Stay& stay) {
                return stay.role == wanted.id && same_mast(stay.mast, wanted.mast) && stay.side == wanted.side;
            }));
    return static_cast<std::size_t>(
        std::count_if(survey_.fittings.begin(), survey_.fittings.end(), [&](const survey::Fitting& fitting) {
            if (fitting.kind != wanted.id || (!wanted.station.empty() && fitting.station != wanted.station))
                return false;
            const auto stay = stays_.find(fitting.stay);
            const bool of_stay = stay != stays_.end();
            if (!wanted.of_role.empty() && (!of_stay || stay->second->role != wanted.of_role)) return false;
            if (!same_mast(of_stay ? stay->second->mast : fitting.mast, wanted.mast)) return false;
            return !wanted.side || fitting.side == wanted.side || (of_stay && stay->second->side == *wanted.side);
        }));
}

/// How many stays and fittings are too few, and how many of those that another choice would have are there.
std::size_t RigDemanded::off(const std::vector<Wanted>& wanted, const std::vector<Wanted>& possible) const {
    std::size_t sum = 0;
    for (const Wanted& one : possible) {
        const auto asked =
            std::find_if(wanted.begin(), wanted.end(), [&](const Wanted& other) { return same_place(one, other); });
        const std::size_t count = asked == wanted.end() ? 0 : asked->count, there = listed(one);
        sum += count > there ? count - there : there - count;
    }
    return sum;
}

void RigDemanded::by_plan(const trade::Plan& plan) {
    Settings settings;
    for (const trade::Parameter& parameter : plan.parameters) settings[parameter.id] = parameter.standard;
    for (const auto& [id, value] : survey_.choices.value_or(Settings())) settings[id] = value;
    for (const trade::Parameter& parameter : plan.parameters) {
        if (!parameter.asked || (survey_.choices && survey_.choices->contains(parameter.id))) continue;
        std::vector<std::vector<Wanted>> of_value;
        std::vector<Wanted> possible;
        for (const std::string& value : parameter.values) {
            Settings tried = settings;
            tried[parameter.id] = value;
            of_value.push_back(of_plan(plan, tried));
            for (const Wanted& one : of_value.back())
                if (std::none_of(possible.begin(), possible.end(),
                                 [&](const Wanted& other) { return same_place(one, other); }))
                    possible.push_back(one);
        }
        std::size_t best = 0;
        for (std::size_t i = 1; i < of_value.size(); ++i)
            if (off(of_value[i], possible) < off(of_value[best], possible)) best = i;
        settings[parameter.id] = guessed_[parameter.id] = parameter.values[best];
    }
    for (Wanted& one : of_plan(plan, settings)) want(std::move(one));
}

/// Spreaders have root and tip on both sides, a shroud on one side has its fellow on the other; `all`: every mast has
/// foot, wall and head (common practice).
void RigDemanded::by_any_rig(bool all) {
    std::map<std::string, int> masts;  // the highest pair of spreaders
    for (const survey::Stay& stay : survey_.stays) masts.try_emplace(stay.mast, 0);
    for (const survey::Fitting& fitting : survey_.fittings) {
        const auto stay = stays_.find(fitting.stay);
        int& level = masts.try_emplace(stay != stays_.end() ? stay->second->mast : fitting.mast, 0).first->second;
        level = std::max(level, level_of(fitting.station));
    }
    for (const auto& [mast, levels] : masts) {
        if (all)
            for (const char* kind : of_every_mast) want({false, kind, std::nullopt, mast, {}});
        for (int n = 1; n <= levels; ++n)
            for (const char* kind : of_every_spreader)
                for (const auto side : sides(true)) want({false, kind, side, mast, "spreader-" + std::to_string(n)});
    }
    for (const survey::Stay& stay : survey_.stays) {
        if (stay.side == Side::centre) continue;
        Wanted own{true, stay.role, stay.side, stay.mast, {}};
        Wanted fellow = own;
        fellow.side = other_side(stay.side);
        fellow.count = listed(own);
        want(std::move(fellow));
    }
}

bool RigDemanded::fits(const survey::Absent& absent, const Wanted& wanted) const {
    if (!absent.stay.empty() || wanted.stay != absent.kind.empty()) return false;
    if ((wanted.stay ? absent.role : absent.kind) != wanted.id) return false;
    if (!wanted.stay && !absent.role.empty() && absent.role != wanted.of_role) return false;
    const auto said = [](const auto& text, const auto& other) { return text.empty() || text == other; };
    return (!absent.side || !wanted.side || absent.side == wanted.side) &&
           (absent.mast.empty() || same_mast(absent.mast, wanted.mast)) &&
           (wanted.station.empty() || said(absent.station, wanted.station));
}

bool RigDemanded::declared_absent(const Wanted& wanted) const {
    return std::any_of(survey_.absent.begin(), survey_.absent.end(),
                       [&](const survey::Absent& absent) { return fits(absent, wanted); });
}

}  // namespace rigdeed::completeness
