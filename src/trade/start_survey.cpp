#include <algorithm>

#include "base/error.hpp"
#include "base/text.hpp"
#include "trade/trade.hpp"

namespace rigdeed::trade {
namespace {

using survey::Side;

constexpr Millimetres deck_height{1000};

// Above the deck, in the order in which they stand on each other.
constexpr Millimetres step{60};

Length length(Millimetres value) { return {value, fixed(value.value / 1000, 2) + " m"}; }

Settings with_standards(const Plan& plan, const Settings& chosen) {
    Settings all;
    for (const Parameter& parameter : plan.parameters) all[parameter.id] = parameter.standard;
    for (const auto& [id, value] : chosen) {
        const auto parameter = std::find_if(plan.parameters.begin(), plan.parameters.end(),
                                            [&wanted = id](const Parameter& one) { return one.id == wanted; });
        if (parameter == plan.parameters.end()) {
            std::vector<std::string> ids;
            for (const Parameter& one : plan.parameters) ids.push_back(one.id);
            throw Error("plan " + in_quotes(plan.id) + " has no parameter " + in_quotes(id), {},
                        ids.empty() ? "it has none" : "it has: " + join(ids, ", "));
        }
        if (std::find(parameter->values.begin(), parameter->values.end(), value) == parameter->values.end())
            throw Error(id + "=" + value + " is not possible in plan " + in_quotes(plan.id), {},
                        "write one of: " + join(parameter->values, ", "));
        all[id] = value;
    }
    return all;
}

class Starter {
 public:
    Starter(const Plan& plan, const Settings& settings, const Date& today, const Trade& trade)
        : plan_(plan), trade_(trade), today_(today), settings_(with_standards(plan, settings)) {}

    survey::Survey run() {
        head();
        for (const PlanStay& stay : plan_.stays)
            if (stay.when.holds(settings_)) add_stays(stay);
        for (const PlanFitting& fitting : plan_.fittings)
            if (fitting.when.holds(settings_)) add_fittings(fitting);
        std::stable_sort(survey_.fittings.begin(), survey_.fittings.end(),
                         [this](const survey::Fitting& a, const survey::Fitting& b) {
                             if (a.at_deck() != b.at_deck()) return a.at_deck();
                             if (a.at_deck()) return false;
                             const auto mast_a = mast_number(a), mast_b = mast_number(b);
                             return mast_a != mast_b ? mast_a < mast_b : a.height.quantity < b.height.quantity;
                         });
        return std::move(survey_);
    }

 private:
    /// What the surveyor fills in stands as "?".
    void head() {
        survey_.number = std::to_string(today_.year) + "-001";
        survey_.surveyor.name = "?";
        survey_.client.name = "?";
        survey_.yacht.name = "?";
        survey_.yacht.rig = plan_.id;
        survey_.yacht.mast = plan_.mast_material;
        survey_.yacht.loa = plan_.loa;
        survey_.attendance.on = today_;
        survey_.attendance.place = "?";
        survey_.photos.folder = "photos";
        survey_.choices = settings_;
        if (settings_.empty()) survey_.choices.reset();
        propose("rig-survey", "number", survey_.number);
        propose("rig-survey", "purpose", survey::name_of(survey_.purpose));
        propose("client", "role", survey::name_of(survey_.client.role));
        propose("yacht", "mast", survey_.yacht.mast);
        propose("yacht", "loa", survey_.yacht.loa.text);
        propose("attendance", "on", today_.iso());
        propose("attendance", "climbed", survey::name_of(survey_.attendance.climbed));
    }

    /// What a plan says is usual; the surveyor confirms or corrects it.
    void propose(const std::string& of, const std::string& attribute, const std::string& value) {
        survey_.open.push_back({0, of, attribute, value});
    }

    /// One mast is climbed after the other, in the plan's order.
    std::ptrdiff_t mast_number(const survey::Fitting& fitting) const {
        const survey::Stay* stay = survey_.stay(fitting.stay);
        const std::string& mast = stay != nullptr ? stay->mast : fitting.mast;
        return std::find_if(plan_.masts.begin(), plan_.masts.end(),
                            [&](const PlanMast& one) { return one.id == mast; }) -
               plan_.masts.begin();
    }

    int count(const std::string& parameter) const { return read_digits(settings_.at(parameter)).value_or(0); }

    Millimetres mast_height(const std::string& mast) const {
        for (const PlanMast& one : plan_.masts)
            if (one.id == mast) return one.height.quantity;
        throw Error("a mast that was not checked", plan_.id, {}, ExitCode::bug);
    }

    Millimetres spreader_height(const std::string& mast, int n, int all) const {
        const Millimetres above_deck = mast_height(mast) - deck_height;
        return deck_height + above_deck * (static_cast<double>(n) / (all + 1));
    }

    void add_stays(const PlanStay& plan) {
        const int all = plan.each.empty() ? 1 : count(plan.each);
        for (int n = plan.each.empty() ? 1 : plan.from; n <= all; ++n)
            for (const Side side :
                 plan.both_sides ? std::vector{Side::port, Side::starboard} : std::vector{Side::centre})
                add_stay(plan, side, n, all);
    }

    void add_stay(const PlanStay& plan, Side side, int n, int all) {
        survey::Stay stay;
        stay.id = (plan.mast.empty() ? "" : plan.mast + "-") + plan.id +
                  (plan.each.empty() ? "" : "-" + std::to_string(n)) +
                  (side == Side::centre ? "" : "-" + survey::name_of(side));
        stay.role = plan.role;
        stay.side = side;
        stay.mast = plan.mast;
        stay.make = plan.make;
        stay.alloy = plan.alloy;
        stay.diameter = plan.diameter;
        propose(stay.id, "make", stay.make);
        propose(stay.id, "alloy", stay.alloy);
        propose(stay.id, "diameter", stay.diameter.text);
        const Millimetres top = plan.top ? mast_height(plan.mast) * *plan.top : spreader_height(plan.mast, n, all);
        const std::string station = plan.top == 1.0 ? "masthead" : plan.top ? "mast" : "spreader-" + std::to_string(n);
        add_demands(stay, top, station);
        survey_.stays.push_back(std::move(stay));
    }

    void add_demands(const survey::Stay& stay, Millimetres top, const std::string& station) {
        if (trade_.make(stay.make) == nullptr)
            throw Error("plan " + in_quotes(plan_.id) + " names an unknown make " + in_quotes(stay.make), {},
                        "correct the plan");
        const Role* role = trade_.role(stay.role);
        if (role == nullptr)
            throw Error("plan " + in_quotes(plan_.id) + " names an unknown role " + in_quotes(stay.role), {},
                        "correct the plan");
        if (role->runs == Runs::at_deck) top = std::max(top, deck_height + 10.0 * step);  // above what is at its foot
        const std::string low = role->runs == Runs::aloft ? station : "deck";
        const std::string high = role->runs == Runs::at_deck ? "deck" : station;
        const std::string between = role->runs == Runs::deck_to_mast ? "mast" : low;
        Millimetres foot = role->runs != Runs::aloft           ? deck_height
                           : role->foot.at == Foot::At::beside ? deck_height + (top - deck_height) * 0.45
                                                               : top - 10.0 * step;
        for (const Demand& demand : trade_.demands_of(stay)) {
            const std::string& kind = demand.kinds.front();
            switch (demand.at) {
                case Place::deck:
                    add(stay, kind, role->runs == Runs::aloft ? "foot-" : "", low, foot);
                    foot += step;
                    break;
                case Place::ends:
                    add(stay, kind, "lower-", low, foot);
                    add(stay, kind, "upper-", high, top - step);
                    foot += step;
                    break;
                case Place::along: add(stay, kind, "", between, (foot + top) * 0.5); break;
                case Place::top: add(stay, kind, "", high, top); break;
            }
        }
    }

    void add(const survey::Stay& stay, const std::string& kind, const std::string& place, const std::string& station,
             Millimetres height) {
        survey::Fitting fitting;
        fitting.id = stay.id + "-" + place + kind;
        fitting.kind = kind;
        fitting.stay = stay.id;
        fitting.station = station;
        fitting.height = length(height);
        propose(fitting.id, "height", fitting.height.text);
        survey_.fittings.push_back(std::move(fitting));
    }

    void add_fittings(const PlanFitting& plan) {
        const int all = plan.each.empty() ? 1 : count(plan.each);
        for (int n = 1; n <= all; ++n)
            for (const Side side :
                 plan.both_sides ? std::vector{Side::port, Side::starboard} : std::vector{Side::centre}) {
                survey::Fitting fitting;
                fitting.id = (plan.mast.empty() ? "" : plan.mast + "-") + plan.id +
                             (plan.each.empty() ? "" : "-" + std::to_string(n)) +
                             (side == Side::centre ? "" : "-" + survey::name_of(side));
                fitting.kind = plan.kind;
                if (!plan.stay.empty()) fitting.stay = (plan.mast.empty() ? "" : plan.mast + "-") + plan.stay;
                if (plan.both_sides) fitting.side = side;
                if (plan.stay.empty()) fitting.mast = plan.mast;
                fitting.station = plan.station == "spreader" ? "spreader-" + std::to_string(n) : plan.station;
                fitting.height = length(plan.height                  ? mast_height(plan.mast) * *plan.height
                                        : plan.station == "spreader" ? spreader_height(plan.mast, n, all)
                                        : plan.station == "masthead" ? mast_height(plan.mast)
                                                                     : deck_height);
                propose(fitting.id, "height", fitting.height.text);
                survey_.fittings.push_back(std::move(fitting));
            }
    }

    const Plan& plan_;
    const Trade& trade_;
    Date today_;
    Settings settings_;
    survey::Survey survey_;
};

}  // namespace

const Parameter* Plan::parameter(std::string_view parameter_id) const {
    for (const Parameter& one : parameters)
        if (one.id == parameter_id) return &one;
    return nullptr;
}

bool Condition::holds(const Settings& settings) const {
    if (parameter.empty()) return true;
    const auto found = settings.find(parameter);
    return found != settings.end() && found->second == value;
}

survey::Survey start_survey(const Plan& plan, const Settings& settings, const Date& today, const Trade& trade) {
    return Starter(plan, settings, today, trade).run();
}

}  // namespace rigdeed::trade
