#pragma once

#include <algorithm>
#include <string_view>

#include "assessment/assessment.hpp"

/// For the files of rules over several fittings.
namespace rigdeed::assessment {

/// Everything a rule may look at, and the one thing it may do.
class Rig {
 public:
    Rig(std::vector<FittingVerdict>& all, const survey::Survey& of, const trade::Trade& with,
        const trade::CrossRule& by)
        : fittings(all), survey(of), trade(with), rule_(by) {}

    /// Once a fitting; `because_of` is the index of the one that brought it up.
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

[[nodiscard]] inline bool has_sign(const FittingVerdict& one, std::string_view code) {
    return std::any_of(one.signs.begin(), one.signs.end(), [&](const auto& sign) { return sign.rule->code == code; });
}

[[nodiscard]] inline bool has_sign(const FittingVerdict& one, trade::SignIs what) {
    return std::any_of(one.signs.begin(), one.signs.end(), [&](const auto& sign) { return sign.rule->is == what; });
}

[[nodiscard]] inline bool is_terminal(const FittingVerdict& one) { return one.kind->is_a(trade::KindIs::terminal); }

/// What is as old as its stay: strand, rod or rope and what ends it.
[[nodiscard]] inline bool ages_with_stay(const FittingVerdict& one) {
    using trade::KindIs;
    return one.stay != nullptr && !one.absent &&
           (one.kind->is_a(KindIs::line) || one.kind->is_a(KindIs::aged) || one.kind->is_a(KindIs::eye) ||
            is_terminal(one));
}

/// Finished by corrosion or fatigue, which its like will suffer next.
[[nodiscard]] bool finished_by_spreading(const FittingVerdict& one);

/// The fitting that stands for its stay: the strand, rod or rope if it was seen, else any part that was, else any;
/// nothing for a stay without fittings.
[[nodiscard]] std::optional<std::size_t> representative(const std::vector<FittingVerdict>& fittings,
                                                        const survey::Stay* stay);

/// One function a rule.
void same_make_and_age(Rig& rig);
void opposite_number(Rig& rig);
void sides_unlike(Rig& rig);
void weaker_alloy(Rig& rig);
void eye_without_toggle(Rig& rig);
void toggle_at_both_ends(Rig& rig);
void cause_toggle(Rig& rig);
void lower_before_upper(Rig& rig);
void halyard_wrap(Rig& rig);
void tip_and_root(Rig& rig);
void creep_with_age(Rig& rig);
void past_custom(Rig& rig);
void far_past_custom(Rig& rig);
void miles_past(Rig& rig);
void miles_far_past(Rig& rig);
void unknown_age(Rig& rig);
void rust_and_age(Rig& rig);
void unseen_and_age(Rig& rig);

}  // namespace rigdeed::assessment
