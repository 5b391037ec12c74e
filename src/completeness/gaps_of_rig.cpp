#include <algorithm>
#include <map>
#include <set>

#include "base/text.hpp"
#include "completeness/gaps.hpp"
#include "completeness/remarks.hpp"
#include "completeness/rig_demanded.hpp"
#include "trade/judge.hpp"

namespace rigdeed::completeness {

using survey::Fitting;

namespace {

/// "port cap shroud", "port spreader tip at spreader-1"
std::string name_of(const Wanted& wanted, const trade::Trade& trade) {
    if (wanted.stay) {
        survey::Stay stay;
        stay.role = wanted.id;
        stay.side = wanted.side.value_or(survey::Side::centre);
        stay.mast = wanted.mast;
        return trade::stay_name(stay, trade);
    }
    survey::Survey alone;
    Fitting fitting;
    fitting.kind = wanted.id;
    fitting.side = wanted.side;
    fitting.mast = wanted.mast;
    std::string name = trade::own_name(fitting, alone, trade);
    if (!wanted.of_role.empty())
        name = trade.wording("name.of-stay", {{"stay", trade.role_name(wanted.of_role)}, {"fitting", name}});
    return wanted.station.empty() ? name : trade.wording("gap.rig.at", {{"what", name}, {"station", wanted.station}});
}

std::string as_absent(const Wanted& wanted) {
    std::string text = wanted.stay ? "<absent role=\"" : "<absent kind=\"";
    text += wanted.id + "\"";
    if (!wanted.of_role.empty()) text += " role=\"" + wanted.of_role + "\"";
    if (wanted.side) text += " side=\"" + survey::name_of(*wanted.side) + "\"";
    if (!wanted.mast.empty()) text += " mast=\"" + wanted.mast + "\"";
    if (!wanted.station.empty()) text += " station=\"" + wanted.station + "\"";
    return text + " because=\"…\"/>";
}

}  // namespace

namespace {

/// Every stay, or every fitting, of the plan or of any such rig is listed or said to be absent.
void rig_not_whole(bool stays, const Inspection& in, Notes& notes) {
    const trade::Wording& words = in.trade.wording;
    const RigDemanded rig(in.survey, in.trade);
    const trade::Plan* plan = in.trade.plan(in.survey.yacht.rig);
    for (const Wanted& wanted : rig.wanted()) {
        const std::size_t there = rig.listed(wanted);
        if (wanted.stay != stays || there >= wanted.count || rig.declared_absent(wanted)) continue;
        const std::vector<Filling> fillings{{"plan", wanted.of_plan && plan != nullptr ? plan->name : std::string()},
                                            {"what", name_of(wanted, in.trade)},
                                            {"n", std::to_string(there)},
                                            {"all", std::to_string(wanted.count)}};
        const std::string key = std::string(wanted.stay ? "gap.stay-missing" : "gap.fitting-missing") +
                                (wanted.of_plan ? "" : ".any") + (there > 0 ? ".some" : "");
        notes.push_back({wanted.stay ? "stay-missing" : "fitting-missing",
                         {},
                         in.survey.rig_line,
                         words(key, fillings),
                         std::string("list it") + (wanted.stay ? " in <rig>, and its fittings" : " in <fittings>") +
                             "; if this rig has none, write in <rig>: " + as_absent(wanted)});
    }
}

}  // namespace

void stay_missing(const Inspection& in, Notes& notes) { rig_not_whole(true, in, notes); }
void fitting_missing(const Inspection& in, Notes& notes) { rig_not_whole(false, in, notes); }

/// What is said to be absent, and is there.
void absent_though_there(const Inspection& in, Notes& notes) {
    const RigDemanded rig(in.survey, in.trade);
    for (const survey::Absent& absent : in.survey.absent) {
        bool there = false;
        if (!absent.stay.empty()) {
            there = std::any_of(in.survey.fittings.begin(), in.survey.fittings.end(),
                                [&](const Fitting& one) { return one.stay == absent.stay && one.kind == absent.kind; });
        } else {
            Wanted named{absent.kind.empty(), absent.kind.empty() ? absent.role : absent.kind, absent.side, absent.mast,
                         absent.station};
            bool asked = false, lacking = false;
            for (const Wanted& wanted : rig.wanted()) {
                if (!rig.fits(absent, wanted)) continue;
                asked = true;
                lacking = lacking || rig.listed(wanted) < wanted.count;
            }
            if (named.stay && !named.side) named.side = survey::Side::centre;
            there = asked ? !lacking : rig.listed(named) > 0;
        }
        if (there)
            notes.push_back(
                {"absent-though-there",
                 {},
                 absent.line,
                 in.trade.wording("gap.absent-though-there",
                                  {{"what", absent.kind.empty() ? absent.role : absent.kind}}),
                 "which of the two is so? side, mast, station or stay of <absent> say where there is none"});
    }
}

/// What nobody can check, because the survey does not say what was chosen of its plan.
void choices_not_said(const Inspection& in, Notes& notes) {
    const trade::Plan* plan = in.trade.plan(in.survey.yacht.rig);
    const trade::Wording& words = in.trade.wording;
    if (plan == nullptr) {
        notes.push_back({"choices-not-said", {}, in.survey.yacht.line, words("remark.choices-not-said.no-plan"), {}});
        return;
    }
    const trade::Settings guessed = RigDemanded(in.survey, in.trade).guessed();
    if (guessed.empty()) return;
    std::vector<std::string> says, written;
    for (const trade::Parameter& parameter : plan->parameters) {
        const auto chosen = guessed.find(parameter.id);
        if (chosen == guessed.end()) continue;
        says.push_back(parameter.says);
        written.push_back(chosen->first + "=" + chosen->second);
    }
    notes.push_back({"choices-not-said",
                     {},
                     in.survey.rig_line,
                     words("remark.choices-not-said", {{"plan", plan->name}, {"choices", words.listed(says)}}),
                     "if it is so, write in <rig>: choices=\"" + join(written, " ") + "\""});
}

/// An id that names a side or a kind, on a stay or fitting of another.
void id_says_otherwise(const Inspection& in, Notes& notes) {
    const auto tell = [&](const std::string& id, int line, const std::string& said, const std::string& is) {
        notes.push_back({"id-says-otherwise", id, line,
                         in.trade.wording("remark.id-says-otherwise", {{"said", said}, {"is", is}}),
                         "which of the two is so?"});
    };
    const auto says = [](const std::string& id, std::string_view word) {
        return ("-" + id + "-").find("-" + std::string(word) + "-") != std::string::npos;
    };
    const auto check_side = [&](const std::string& id, int line, std::optional<survey::Side> side) {
        for (const survey::Side other : {survey::Side::port, survey::Side::starboard})
            if (side && *side != survey::Side::centre && *side != other && says(id, survey::name_of(other)))
                tell(id, line, survey::name_of(other), survey::name_of(*side));
    };
    const auto check_mast = [&](const std::string& id, int line, const std::string& mast) {
        for (const char* other : {"main", "mizzen"})
            if (!mast.empty() && mast != other && id.starts_with(std::string(other) + "-")) tell(id, line, other, mast);
    };
    std::map<std::string, const survey::Stay*> stays;
    std::set<std::string> kinds;
    for (const trade::Kind& kind : in.trade.kinds) kinds.insert(kind.id);
    for (const survey::Stay& stay : in.survey.stays) {
        stays[stay.id] = &stay;
        check_side(stay.id, stay.line, stay.side);
        check_mast(stay.id, stay.line, stay.mast);
        for (const trade::Role& role : in.trade.roles)
            if (role.id != stay.role && says(stay.id, role.id) && !says(stay.role, role.id) &&
                !says(stay.id, stay.role))
                tell(stay.id, stay.line, role.id, stay.role);
    }
    std::map<std::string, const Fitting*> fittings;
    for (const Fitting& fitting : in.survey.fittings) fittings[fitting.id] = &fitting;
    for (const Fitting& fitting : in.survey.fittings) {
        const auto upper = ("-" + fitting.id).find("-upper-");
        const auto its_stay = stays.find(fitting.stay);
        const trade::Role* role = its_stay != stays.end() ? in.trade.role(its_stay->second->role) : nullptr;
        if (upper != std::string::npos && role != nullptr && role->runs == trade::Runs::deck_to_mast) {
            const auto other = fittings.find(std::string(fitting.id).replace(upper, 5, "lower"));
            if (other != fittings.end() && other->second->kind == fitting.kind &&
                other->second->height.quantity > fitting.height.quantity)
                tell(fitting.id, fitting.line, "upper", "lower");
        }
        const auto stay = stays.find(fitting.stay);
        const bool of_stay = stay != stays.end();
        check_side(fitting.id, fitting.line, of_stay ? std::optional(stay->second->side) : fitting.side);
        check_mast(fitting.id, fitting.line, of_stay ? stay->second->mast : fitting.mast);
        const std::string* said = nullptr;  // the longest kind that the id names, if not its own
        if (!says(fitting.id, fitting.kind))
            for (const std::string& kind : kinds)
                if (says(fitting.id, kind) && (said == nullptr || kind.size() > said->size())) said = &kind;
        if (said != nullptr) tell(fitting.id, fitting.line, *said, fitting.kind);
        if (of_stay && fitting.id.find('-') != std::string::npos) {
            const std::string* named = nullptr;  // the longest stay that the id begins with
            for (const auto& [id, one] : stays)
                if (fitting.id.starts_with(id + "-") && (named == nullptr || id.size() > named->size())) named = &id;
            if (named != nullptr && *named != fitting.stay) tell(fitting.id, fitting.line, *named, fitting.stay);
        }
    }
}

namespace {

/// Only what the trade has a sign "missing" for can be said to be missing.
std::string how_to_say_none(const survey::Stay& stay, const trade::Demand& demand, const trade::Trade& trade) {
    for (const std::string& id : demand.kinds)
        if (const trade::Kind* kind = trade.kind(id); kind != nullptr && trade.sign(*kind, trade::missing) != nullptr)
            return "; if it should have one and has none, write in it <without fitting=\"" + id + "\" because=\"…\"/>";
    return "; if it is built without, write in <rig> <absent stay=\"" + stay.id + "\" kind=\"" + demand.kinds.front() +
           "\" because=\"…\"/>";
}

}  // namespace

void demand_not_met(const Inspection& in, Notes& notes) {
    std::multimap<std::string, const Fitting*> fittings;
    for (const Fitting& fitting : in.survey.fittings) fittings.emplace(fitting.stay, &fitting);
    for (const survey::Stay& stay : in.survey.stays) {
        const trade::Make* make = in.trade.make(stay.make);
        if (make == nullptr) continue;
        for (const trade::Demand& demand : in.trade.demands_of(stay)) {
            const auto of_demand = [&](const std::string& kind) {
                return std::find(demand.kinds.begin(), demand.kinds.end(), kind) != demand.kinds.end();
            };
            const bool absent =
                std::any_of(in.survey.absent.begin(), in.survey.absent.end(),
                            [&](const survey::Absent& one) { return one.stay == stay.id && of_demand(one.kind); });
            if (absent) continue;
            const auto [from, to] = fittings.equal_range(stay.id);
            const auto count = static_cast<std::size_t>(
                std::count_if(from, to, [&](const auto& one) { return of_demand(one.second->kind); }) +
                std::count_if(stay.without.begin(), stay.without.end(),
                              [&](const survey::Without& without) { return of_demand(without.fitting); }));
            if (count >= demand.least) continue;
            notes.push_back({"demand-not-met", stay.id, stay.line,
                             in.trade.wording(demand.least > 1 ? "gap.demand-not-met.some" : "gap.demand-not-met",
                                              {{"make", make->name},
                                               {"fitting", demand.name},
                                               {"n", std::to_string(count)},
                                               {"all", std::to_string(demand.least)}}),
                             "list the fitting with stay=\"" + stay.id + "\", kind: " + join(demand.kinds, " or ") +
                                 how_to_say_none(stay, demand, in.trade)});
        }
    }
}

}  // namespace rigdeed::completeness
