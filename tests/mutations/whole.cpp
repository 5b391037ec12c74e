#include "mutations/whole.hpp"

#include <algorithm>
#include <map>

#include "base/text.hpp"
#include "survey/whole_survey.hpp"
#include "survey/write_survey.hpp"

namespace rigdeed::mutations {
namespace {

Length metres(double millimetres) { return {Millimetres{millimetres}, fixed(millimetres / 1000, 2) + " m"}; }

/// What a survey may hold besides, each somewhere.
class Filler {
 public:
    Filler(survey::Survey& survey, const trade::Trade& trade) : survey_(survey), trade_(trade) {}

    void run() {
        of_yacht();
        for (survey::Stay& stay : survey_.stays) of_stay(stay);
        declare_absent();
        std::size_t number = 0;
        for (survey::Fitting& fitting : survey_.fittings) of_fitting(fitting, ++number);
        survey_.photos.others.push_back({0, "X1", "the yacht at her berth"});
        survey_.photos.camera_clock = -3600;
    }

 private:
    void of_yacht() {
        survey::Yacht& yacht = survey_.yacht;
        const double loa = yacht.loa.quantity.value;
        yacht.hin = "GB-ABC00042-A3-99";
        yacht.built = 2001;
        yacht.beam = metres(loa * 0.32);
        yacht.freeboard = metres(loa * 0.1);
        const double mass = 5 * loa * loa * loa / 1e9;
        yacht.displacement = Mass{Kilograms{mass}, fixed(mass, 0) + " kg"};
        yacht.gz30 = metres(loa * 0.05);
        survey_.attendance.afloat = true;
        survey_.attendance.weather = "dry";
        survey_.surveyor.firm = "Sorrel Rigging";
        survey_.surveyor.qualification = "rigger";
        survey_.surveyor.contact = "Inner Basin 4";
        survey_.surveyor.independence = "paid by the hour";
        survey_.client.contact = "on board";
    }

    void of_stay(survey::Stay& stay) {
        double low = 1e9, high = 0;
        for (const survey::Fitting& fitting : survey_.fittings)
            if (fitting.stay == stay.id) {
                low = std::min(low, fitting.height.quantity.value);
                high = std::max(high, fitting.height.quantity.value);
            }
        stay.fitted = PartDate{2019, 5, {}};
        stay.age_source = survey::AgeSource::invoice;
        if (high - low > 500) stay.length = metres((high - low) * 1.05);
        const double load = 0.75 * stay.diameter.quantity.value * stay.diameter.quantity.value;
        stay.breaking_load = Force{Kilonewtons{load}, fixed(load, 1) + " kN"};
        stay.sailed = Distance{NauticalMiles{30000}, "30000 nmi"};
    }

    /// One fitting of the plan is said to be absent, another was never seen, a third not on the way down.
    void declare_absent() {
        for (const char* kind : {"antenna", "wind-instrument", "light", "sheave-box"}) {
            const auto found = std::find_if(survey_.fittings.begin(), survey_.fittings.end(), [&](const auto& one) {
                return one.kind == kind && one.stay.empty() && !one.side;
            });
            if (found == survey_.fittings.end()) continue;
            survey::Absent absent;
            absent.kind = kind;
            absent.mast = found->mast;
            absent.because = "she has none";
            survey_.absent.push_back(absent);
            survey_.fittings.erase(found);
            return;
        }
    }

    void of_fitting(survey::Fitting& fitting, std::size_t number) {
        const trade::Kind* kind = trade_.kind(fitting.kind);
        if (number == 4) {
            fitting.seen.clear();
            fitting.not_seen = "under a cover that is bonded down";
            return;
        }
        if (number == 6) {
            fitting.seen.pop_back();
            fitting.not_seen_in.push_back({0, survey::Way::down, "it rained"});
        }
        if (number % 3 == 0 && !kind->metals.empty()) fitting.metal = kind->metals.front();
        if (number % 5 == 0) add_sign(fitting, *kind);
        if (number % 7 == 0) add_measure(fitting);
        const bool has_sign =
            std::any_of(fitting.seen.begin(), fitting.seen.end(), [](const auto& one) { return !one.signs.empty(); });
        if (number % 6 == 1 && !has_sign && fitting.measured.empty())
            fitting.verdict = survey::GivenVerdict{0, survey::Verdict::watch, "an old knock, unchanged for years"};
    }

    void add_sign(survey::Fitting& fitting, const trade::Kind& kind) {
        const auto found = std::find_if(kind.signs.begin(), kind.signs.end(), [&](const trade::SignRule& rule) {
            return rule.bars == trade::Bars::never &&
                   std::none_of(trade_.contradictions.begin(), trade_.contradictions.end(),
                                [&](const auto& row) { return row.sign == rule.code || row.other == rule.code; });
        });
        if (found == kind.signs.end()) return;
        survey::Sign sign;
        sign.code = found->code;
        sign.where = "foot";
        sign.count = 2;
        sign.length = Length{Millimetres{6}, "6 mm"};
        sign.mark = survey::Mark{0.42, 0.55, 0.08};
        sign.words = "As large as a thumbnail.";
        fitting.seen.front().signs.push_back(sign);
    }

    void add_measure(survey::Fitting& fitting) {
        for (const trade::MeasureName& row : trade_.tables.measures) {
            const bool fits =
                std::find(row.kinds.begin(), row.kinds.end(), fitting.kind) != row.kinds.end() || row.kinds.empty();
            const bool told = std::any_of(trade_.contradictions.begin(), trade_.contradictions.end(),
                                          [&](const auto& one) { return one.measured == row.id; });
            if (!fits || told || (row.measure != Measure::length && row.measure != Measure::force)) continue;
            const double middle = row.least + (row.most - row.least) * 0.2;
            const char* unit = row.measure == Measure::length ? " mm" : " kN";
            fitting.measured.push_back({0, row.id, fixed(middle, 1) + unit});
            return;
        }
    }

    survey::Survey& survey_;
    const trade::Trade& trade_;
};

}  // namespace

Whole whole_survey(const trade::Plan& plan, const trade::Settings& settings, const trade::Trade& trade) {
    Whole whole;
    survey::Survey survey = trade::start_survey(plan, settings, {2026, 10, 3}, trade);
    sample::fill_in(survey);
    Filler(survey, trade).run();
    whole.text = survey::write_survey(survey);
    whole.photos = sample::photos_of(survey);
    for (evidence::Photo& photo : whole.photos.photos)
        photo.facts.taken = local_from_seconds(seconds_since_epoch(*photo.facts.taken) + 3600);
    return whole;
}

evidence::Evidence photos_for(const survey::Survey& survey, const evidence::Evidence& folder) {
    evidence::Evidence evidence;
    std::map<std::string, bool> named;
    for (const std::string& name : evidence::photo_names(survey)) {
        named[name] = true;
        if (const evidence::Photo* photo = folder.find(name)) {
            evidence.add(*photo);
            continue;
        }
        evidence::Photo missing;
        missing.name = name;
        evidence.add(std::move(missing));
    }
    for (const evidence::Photo& photo : folder.photos)
        if (!named.contains(photo.name)) evidence.unused.push_back(photo.file);
    return evidence;
}

}  // namespace rigdeed::mutations
