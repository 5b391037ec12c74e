#include "assessment/age.hpp"
#include "assessment/rig.hpp"

namespace rigdeed::assessment {
namespace {

Age age_of_stay(const FittingVerdict& one, const Rig& rig) {
    return age_of(*one.stay, rig.survey.attendance.on, rig.trade);
}

bool is_past(Age age) { return age == Age::past || age == Age::far_past; }

/// Says it of all that is as old as its stay, because of the part that stands for it.
template <class Where>
void of_stays(Rig& rig, const Where& where) {
    for (const survey::Stay& stay : rig.survey.stays) {
        const auto stands_for = representative(rig.fittings, &stay);
        if (!stands_for || !where(stay)) continue;
        rig.speaks_of(*stands_for, std::nullopt);
        for (std::size_t i = 0; i < rig.fittings.size(); ++i)
            if (rig.fittings[i].stay == &stay && i != *stands_for && ages_with_stay(rig.fittings[i]))
                rig.speaks_of(i, stands_for);
    }
}

}  // namespace

/// Five whole years from the fitting to the survey; an unknown age counts as old.
void creep_with_age(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        const FittingVerdict& one = rig.fittings[i];
        if (one.stay == nullptr || !has_sign(one, trade::SignIs::creep)) continue;
        if (!one.stay->fitted || months_later(one.stay->fitted->earliest(), 60) <= rig.survey.attendance.on)
            rig.speaks_of(i, std::nullopt);
    }
}

void past_custom(Rig& rig) {
    of_stays(rig,
             [&](const survey::Stay& stay) { return age_of(stay, rig.survey.attendance.on, rig.trade) == Age::past; });
}

void far_past_custom(Rig& rig) {
    of_stays(rig, [&](const survey::Stay& stay) {
        return age_of(stay, rig.survey.attendance.on, rig.trade) == Age::far_past;
    });
}

void miles_past(Rig& rig) {
    of_stays(rig, [&](const survey::Stay& stay) { return age_in_miles(stay, rig.trade) == Age::past; });
}

void miles_far_past(Rig& rig) {
    of_stays(rig, [&](const survey::Stay& stay) { return age_in_miles(stay, rig.trade) == Age::far_past; });
}

/// Where something else of the standing rigging is finished, what is of unknown age is taken for as old.
void unknown_age(Rig& rig) {
    const bool bad = std::any_of(rig.fittings.begin(), rig.fittings.end(), [](const FittingVerdict& one) {
        return one.stay != nullptr && (one.verdict == Verdict::renew || trade::worst(one.signs) == Verdict::renew);
    });
    if (!bad) return;
    of_stays(rig, [&](const survey::Stay& stay) {
        return age_of(stay, rig.survey.attendance.on, rig.trade) == Age::unknown &&
               rig.trade.tables.band(stay.make) != nullptr;
    });
}

void rust_and_age(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        const FittingVerdict& one = rig.fittings[i];
        if (ages_with_stay(one) && has_sign(one, trade::SignIs::rust) &&
            (is_past(age_of_stay(one, rig)) || is_past(age_in_miles(*one.stay, rig.trade))))
            rig.speaks_of(i, std::nullopt);
    }
}

void unseen_and_age(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        const FittingVerdict& one = rig.fittings[i];
        if (ages_with_stay(one) && !one.unseen_because.empty() &&
            (is_past(age_of_stay(one, rig)) || is_past(age_in_miles(*one.stay, rig.trade))))
            rig.speaks_of(i, std::nullopt);
    }
}

}  // namespace rigdeed::assessment
