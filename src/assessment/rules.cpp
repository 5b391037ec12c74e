#include "assessment/rules.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "assessment/rig.hpp"

namespace rigdeed::assessment {
namespace {

struct RuleRow {
    std::string_view id;
    void (*find)(Rig&);
    bool of_age = false;  ///< says of a stay's parts what it says of the stay
};

// Those that look at verdicts of others come after those that make them worse.
constexpr std::array rule_rows{RuleRow{"weaker-alloy", weaker_alloy},
                               RuleRow{"eye-without-toggle", eye_without_toggle},
                               RuleRow{"toggle-at-both-ends", toggle_at_both_ends},
                               RuleRow{"cause-toggle", cause_toggle},
                               RuleRow{"lower-before-upper", lower_before_upper},
                               RuleRow{"halyard-wrap", halyard_wrap},
                               RuleRow{"tip-and-root", tip_and_root},
                               RuleRow{"creep-with-age", creep_with_age},
                               RuleRow{"rust-and-age", rust_and_age},
                               RuleRow{"same-make-and-age", same_make_and_age},
                               RuleRow{"opposite-number", opposite_number},
                               RuleRow{"sides-unlike", sides_unlike},
                               RuleRow{"unseen-and-age", unseen_and_age},
                               RuleRow{"unknown-age", unknown_age, true},
                               RuleRow{"far-past-custom", far_past_custom, true},
                               RuleRow{"past-custom", past_custom, true},
                               RuleRow{"miles-far-past", miles_far_past, true},
                               RuleRow{"miles-past", miles_past, true}};

bool is_of_age(const trade::CrossRule& rule) {
    return std::any_of(rule_rows.begin(), rule_rows.end(),
                       [&](const RuleRow& row) { return row.id == rule.id && row.of_age; });
}

/// What says no more than that the whole stay is old stands with the stay's own finding.
void gather_ages(std::vector<FittingVerdict>& fittings) {
    for (FittingVerdict& one : fittings) {
        if (!one.signs.empty() || !one.unseen_because.empty() || one.consequences.empty() || one.fitting->verdict)
            continue;
        const auto with = one.consequences.front().because_of;
        const bool only_age = std::all_of(one.consequences.begin(), one.consequences.end(), [&](const Consequence& by) {
            return is_of_age(*by.rule) && by.because_of == with;
        });
        if (only_age && with && !fittings[*with].with) one.with = with;
    }
}

}  // namespace

bool finished_by_spreading(const FittingVerdict& one) {
    if (one.stay == nullptr || one.verdict != Verdict::renew) return false;
    return std::any_of(one.signs.begin(), one.signs.end(),
                       [](const auto& sign) { return sign.rule->spreads && sign.rule->verdict == Verdict::renew; }) ||
           std::any_of(one.consequences.begin(), one.consequences.end(),
                       [](const Consequence& by) { return by.rule->id == "rust-and-age"; });
}

std::optional<std::size_t> representative(const std::vector<FittingVerdict>& fittings, const survey::Stay* stay) {
    std::optional<std::size_t> best;
    int best_rank = -1;
    for (std::size_t i = 0; i < fittings.size(); ++i) {
        if (fittings[i].stay != stay || fittings[i].absent) continue;
        const bool is_line = fittings[i].kind->is_a(trade::KindIs::line);
        const int rank =
            (fittings[i].unseen_because.empty() ? 4 : 0) + (is_line ? 2 : 0) + (ages_with_stay(fittings[i]) ? 1 : 0);
        if (rank > best_rank) {
            best = i;
            best_rank = rank;
        }
    }
    return best;
}

void apply_rules(std::vector<FittingVerdict>& fittings, const survey::Survey& survey, const trade::Trade& trade) {
    for (const RuleRow& row : rule_rows) {
        Rig rig(fittings, survey, trade, trade.rule(row.id));
        row.find(rig);
    }
    for (FittingVerdict& one : fittings)
        std::stable_sort(one.consequences.begin(), one.consequences.end(),
                         [](const Consequence& a, const Consequence& b) { return a.rule->verdict > b.rule->verdict; });
    gather_ages(fittings);
}

}  // namespace rigdeed::assessment
