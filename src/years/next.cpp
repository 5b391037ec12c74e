#include "years/next.hpp"

#include <algorithm>
#include <set>

#include "completeness/rig_demanded.hpp"

namespace rigdeed::years {
namespace {

using survey::Fitting;
using survey::Side;
using survey::Survey;

class Maker {
 public:
    Maker(const Survey& before, const assessment::Assessment& assessment, const Date& today, const trade::Trade& trade)
        : before_(before), assessment_(assessment), today_(today), trade_(trade), next_{before, 0} {}

    Next run(const std::string& sha256) {
        head(sha256);
        for (survey::Stay& stay : next_.survey.stays) stay.sailed.reset();
        for (std::size_t i = 0; i < next_.survey.fittings.size(); ++i) begin(next_.survey.fittings[i], i);
        add_planned();
        return std::move(next_);
    }

 private:
    /// What may have changed since; the surveyor confirms or corrects it.
    void propose(const std::string& of, const std::string& attribute, const std::string& value) {
        if (!value.empty()) next_.survey.open.push_back({0, of, attribute, value});
    }

    void head(const std::string& sha256) {
        Survey& survey = next_.survey;
        survey.open.clear();
        survey.replaces.clear();
        survey.number = std::to_string(today_.year) + "-001";
        if (survey.number == before_.number) survey.number = std::to_string(today_.year) + "-002";
        propose("rig-survey", "number", survey.number);
        propose("rig-survey", "purpose", survey::name_of(survey.purpose));
        survey.client = {};
        survey.client.name = "?";
        propose("client", "role", survey::name_of(survey.client.role));
        survey.yacht.heel_mass.reset();
        survey.yacht.heel_arm.reset();
        survey.yacht.heel_angle.reset();
        survey.attendance = {};
        survey.attendance.on = today_;
        survey.attendance.place = "?";
        propose("attendance", "on", today_.iso());
        propose("attendance", "climbed", survey::name_of(survey.attendance.climbed));
        survey.photos = {};
        survey.photos.folder = "photos";
        survey.gauge.clear();
        survey.history.line = 1;
        survey.history.statement.clear();
        survey::PastSurvey past;
        past.on = {before_.attendance.on.year, before_.attendance.on.month, before_.attendance.on.day};
        past.by = before_.surveyor.name;
        past.number = before_.number;
        past.sha256 = sha256;
        survey.history.surveys.push_back(past);
    }

    void begin(Fitting& fitting, std::size_t i) const {
        survey::Before said;
        said.survey = before_.number;
        said.verdict = assessment_.fittings[i].verdict;
        std::set<std::string> codes;
        for (const survey::Seen& seen : before_.fittings[i].seen)
            for (survey::Sign sign : seen.signs) {
                if (!codes.insert(sign.code).second) continue;
                sign.mark.reset();
                said.signs.push_back(std::move(sign));
            }
        fitting.before = std::move(said);
        fitting.gone.clear();
        fitting.isolator.reset();
        fitting.seen.clear();
        fitting.not_seen.reset();
        fitting.not_seen_in.clear();
        fitting.climbed_despite.clear();
        fitting.measured.clear();
        fitting.verdict.reset();
    }

    /// Whether a fitting of the plan is one of those that are wanted.
    static bool is_it(const completeness::Wanted& wanted, const Fitting& fitting, const survey::Stay* stay) {
        const Side side = stay != nullptr ? stay->side : fitting.side.value_or(Side::centre);
        const std::string& mast = stay != nullptr ? stay->mast : fitting.mast;
        const auto fits = [](const std::string& said, const std::string& is) { return said.empty() || said == is; };
        return !wanted.stay && wanted.id == fitting.kind && (!wanted.side || *wanted.side == side) &&
               fits(wanted.mast, mast) && fits(wanted.station, fitting.station) &&
               fits(wanted.of_role, stay != nullptr ? stay->role : std::string());
    }

    /// What the rig lacks by its plan as it is now. A stay that it lacks is for `check` to tell.
    void add_planned() {
        const trade::Plan* plan = trade_.plan(before_.yacht.rig);
        if (plan == nullptr || !before_.choices) return;
        const Survey planned = trade::start_survey(*plan, *before_.choices, today_, trade_);
        const completeness::RigDemanded demanded(before_, trade_);
        for (const completeness::Wanted& wanted : demanded.wanted()) {
            if (demanded.declared_absent(wanted)) continue;
            std::size_t lacking = wanted.count - std::min(wanted.count, demanded.listed(wanted));
            for (const Fitting& fitting : planned.fittings)
                if (lacking > 0 && is_it(wanted, fitting, planned.stay(fitting.stay)) && add(fitting, planned))
                    --lacking;
        }
    }

    bool add(Fitting fitting, const Survey& planned) {
        if (is_taken(fitting.id)) return false;
        if (!fitting.stay.empty()) {
            const survey::Stay& wanted = *planned.stay(fitting.stay);
            const auto& stays = next_.survey.stays;
            const auto stay = std::find_if(stays.begin(), stays.end(), [&](const survey::Stay& one) {
                return one.role == wanted.role && one.side == wanted.side && one.mast == wanted.mast;
            });
            if (stay == stays.end()) return false;
            fitting.stay = stay->id;
        }
        propose(fitting.id, "height", fitting.height.text);
        auto& all = next_.survey.fittings;
        const auto behind = std::find_if(all.begin(), all.end(), [&](const Fitting& one) {
            return one.at_deck() == fitting.at_deck() && one.height.quantity > fitting.height.quantity;
        });
        all.insert(behind, std::move(fitting));
        ++next_.added;
        return true;
    }

    bool is_taken(const std::string& id) const {
        const auto is_it = [&](const auto& one) { return one.id == id; };
        return std::any_of(next_.survey.fittings.begin(), next_.survey.fittings.end(), is_it) ||
               std::any_of(next_.survey.stays.begin(), next_.survey.stays.end(), is_it);
    }

    const Survey& before_;
    const assessment::Assessment& assessment_;
    Date today_;
    const trade::Trade& trade_;
    Next next_;
};

}  // namespace

Next next_survey(const Survey& before, const assessment::Assessment& assessment, const std::string& sha256,
                 const Date& today, const trade::Trade& trade) {
    return Maker(before, assessment, today, trade).run(sha256);
}

}  // namespace rigdeed::years
