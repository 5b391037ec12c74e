#include "assessment/rules.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <string_view>

namespace rigdeed::assessment {
namespace {

/// Everything a rule may look at, and the one thing it may do.
class Rig {
 public:
    Rig(std::vector<FittingVerdict>& all, const survey::Survey& of, const trade::Trade& with,
        const trade::CrossRule& by)
        : fittings(all), survey(of), trade(with), rule_(by) {}

    void speaks_of(std::size_t i, std::optional<std::size_t> because_of) {
        FittingVerdict& one = fittings[i];
        if (std::any_of(one.consequences.begin(), one.consequences.end(),
                        [&](const Consequence& known) { return known.rule == &rule_; }))
            return;
        one.consequences.push_back({&rule_, because_of});
        if (!rule_.verdict) return;
        one.told = std::max(one.told, *rule_.verdict);
        one.verdict = std::max(one.verdict, *rule_.verdict);
    }

    std::vector<FittingVerdict>& fittings;
    const survey::Survey& survey;
    const trade::Trade& trade;

 private:
    const trade::CrossRule& rule_;
};

bool has_sign(const FittingVerdict& one, std::string_view code) {
    return std::any_of(one.signs.begin(), one.signs.end(), [&](const auto& sign) { return sign.rule->code == code; });
}

bool has_sign(const FittingVerdict& one, trade::SignIs what) {
    return std::any_of(one.signs.begin(), one.signs.end(), [&](const auto& sign) { return sign.rule->is == what; });
}

bool finished_by_spreading(const FittingVerdict& one) {
    return one.stay != nullptr && one.verdict == Verdict::renew &&
           std::any_of(one.signs.begin(), one.signs.end(),
                       [](const auto& sign) { return sign.rule->spreads && sign.rule->verdict == Verdict::renew; });
}

/// An unknown age counts as the same age.
bool of_one_age(const survey::Stay& a, const survey::Stay& b) {
    if (!a.fitted || !b.fitted) return true;
    if (a.fitted->month && b.fitted->month)
        return a.fitted->year == b.fitted->year && a.fitted->month == b.fitted->month;
    return a.fitted->year == b.fitted->year;
}

/// The fitting that stands for its stay: the strand, rod or rope if it was seen, else any part that was, else any.
std::size_t representative(const std::vector<FittingVerdict>& fittings, const survey::Stay* stay) {
    std::size_t best = 0;
    int best_rank = -1;
    for (std::size_t i = 0; i < fittings.size(); ++i) {
        if (fittings[i].stay != stay) continue;
        const bool is_line = fittings[i].kind->is_a(trade::KindIs::line);
        const int rank = (fittings[i].unseen_because.empty() ? 2 : 0) + (is_line ? 1 : 0);
        if (rank > best_rank) {
            best = i;
            best_rank = rank;
        }
    }
    return best;
}

/// A stay finished by corrosion or fatigue makes every stay of the same make and age suspect.
void same_make_and_age(Rig& rig) {
    const auto finished_too = [&](const survey::Stay* stay) {
        return std::any_of(rig.fittings.begin(), rig.fittings.end(),
                           [&](const auto& one) { return one.stay == stay && finished_by_spreading(one); });
    };
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        if (!finished_by_spreading(rig.fittings[i])) continue;
        const survey::Stay& finished = *rig.fittings[i].stay;
        for (const survey::Stay& other : rig.survey.stays) {
            const bool has_fittings = std::any_of(rig.fittings.begin(), rig.fittings.end(),
                                                  [&](const auto& one) { return one.stay == &other; });
            if (has_fittings && other.make == finished.make && of_one_age(other, finished) && !finished_too(&other))
                rig.speaks_of(representative(rig.fittings, &other), i);
        }
    }
}

void weaker_alloy(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        if (!renews_stay(rig.fittings[i])) continue;
        const trade::Material* alloy = rig.trade.material(rig.fittings[i].stay->alloy);
        if (alloy != nullptr && !alloy->now.empty()) rig.speaks_of(i, std::nullopt);
    }
}

bool is_terminal(const FittingVerdict& one) { return one.kind->is_a(trade::KindIs::terminal); }

/// The eye above a missing toggle: the terminal eye if it is listed, else the nearest terminal above it.
void eye_without_toggle(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        const FittingVerdict& toggle = rig.fittings[i];
        if (toggle.stay == nullptr || !toggle.kind->is_a(trade::KindIs::toggle) || !has_sign(toggle, trade::missing))
            continue;
        std::optional<std::size_t> nearest;
        const auto distance = [&](std::size_t k) {
            return std::abs((rig.fittings[k].fitting->height.quantity - toggle.fitting->height.quantity).value);
        };
        for (std::size_t k = 0; k < rig.fittings.size(); ++k) {
            const FittingVerdict& one = rig.fittings[k];
            const bool candidate = one.stay == toggle.stay && (one.kind->is_a(trade::KindIs::eye) || is_terminal(one));
            if (candidate && (!nearest || distance(k) < distance(*nearest))) nearest = k;
        }
        if (nearest && rig.fittings[*nearest].signs.empty()) rig.speaks_of(*nearest, i);
    }
}

void lower_before_upper(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        const FittingVerdict& upper = rig.fittings[i];
        const bool cracked = has_sign(upper, trade::SignIs::crack);
        if (upper.stay == nullptr || !is_terminal(upper) || !cracked) continue;
        for (std::size_t k = 0; k < rig.fittings.size(); ++k) {
            const FittingVerdict& lower = rig.fittings[k];
            if (lower.stay == upper.stay && is_terminal(lower) &&
                lower.fitting->height.quantity < upper.fitting->height.quantity && lower.signs.empty())
                rig.speaks_of(k, i);
        }
    }
}

/// Five whole years from the fitting to the survey; an unknown age counts as old.
void creep_with_age(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        const FittingVerdict& one = rig.fittings[i];
        if (one.stay == nullptr || !has_sign(one, trade::SignIs::creep)) continue;
        if (!one.stay->fitted || months_later(one.stay->fitted->earliest(), 60) <= rig.survey.attendance.on)
            rig.speaks_of(i, std::nullopt);
    }
}

std::optional<double> angle(const survey::Fitting& fitting, std::string_view what) {
    const survey::Measured* measured = fitting.measure(what);
    if (measured == nullptr) return std::nullopt;
    const auto reading = read_measure(measured->value, Measure::angle);
    return reading.value ? std::optional(reading.value->value) : std::nullopt;
}

/// Angles of the shroud from the vertical above and below the tip, and the spreader's rise; statics: (a1 - a2)/2.
void spreader_angle(Rig& rig) {
    static constexpr double tolerance = 3;
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        const survey::Fitting& tip = *rig.fittings[i].fitting;
        if (!rig.fittings[i].kind->is_a(trade::KindIs::tip)) continue;
        const auto above = angle(tip, "angle-above");
        const auto below = angle(tip, "angle-below");
        const auto rise = angle(tip, "spreader-rise");
        if (above && below && rise && std::abs(*rise - (*above - *below) / 2) > tolerance &&
            !has_sign(rig.fittings[i], "not-bisecting"))
            rig.speaks_of(i, std::nullopt);
    }
}

struct RuleRow {
    std::string_view id;
    void (*find)(Rig&);
};

constexpr std::array rule_rows{
    RuleRow{"same-make-and-age", same_make_and_age},   RuleRow{"weaker-alloy", weaker_alloy},
    RuleRow{"eye-without-toggle", eye_without_toggle}, RuleRow{"lower-before-upper", lower_before_upper},
    RuleRow{"creep-with-age", creep_with_age},         RuleRow{"spreader-angle", spreader_angle}};

}  // namespace

void apply_rules(std::vector<FittingVerdict>& fittings, const survey::Survey& survey, const trade::Trade& trade) {
    for (const RuleRow& row : rule_rows) {
        Rig rig(fittings, survey, trade, trade.rule(row.id));
        row.find(rig);
    }
}

}  // namespace rigdeed::assessment
