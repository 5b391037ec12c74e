#include "assessment/advice.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "assessment/rig.hpp"

namespace rigdeed::assessment {
namespace {

/// A rule that asks for less than renewal, and what it asks for beside one: keys of the wording, empty for nothing.
struct Beside {
    std::string_view rule;
    std::string_view part;  ///< the part alone is renewed
    std::string_view stay;  ///< its whole stay is
};

constexpr std::array beside_renewal{Beside{"same-make-and-age", "renewed.age", ""},
                                    Beside{"eye-without-toggle", "", ""},
                                    Beside{"toggle-at-both-ends", "renewed.toggle", "renewed.toggle"},
                                    Beside{"lower-before-upper", "", ""},
                                    Beside{"halyard-wrap", "renewed.halyard", "renewed.halyard"},
                                    Beside{"tip-and-root", "", ""},
                                    Beside{"creep-with-age", "", ""},
                                    Beside{"past-custom", "renewed.age", ""},
                                    Beside{"miles-past", "renewed.age", ""},
                                    Beside{"far-past-custom", "renewed.far", ""},
                                    Beside{"miles-far-past", "renewed.far", ""},
                                    Beside{"unknown-age", "renewed.unknown", ""},
                                    Beside{"unseen-and-age", "renewed.far", ""}};

}  // namespace

std::optional<int> goes_with(const FittingVerdict& one, const Assessment& assessment) {
    if (!ages_with_stay(one) || one.verdict == Verdict::renew) return std::nullopt;
    for (const std::size_t i : assessment.findings) {
        const FittingVerdict& other = assessment.fittings[i];
        if (other.stay == one.stay && renews_stay(other)) return other.number;
    }
    return std::nullopt;
}

bool asks(const trade::JudgedSign& sign, const FittingVerdict& one) {
    return sign.rule->verdict == Verdict::renew || !renews_stay(one) || !ages_with_stay(one);
}

std::string advice_of(const Consequence& consequence, const FittingVerdict& one, const Assessment& assessment,
                      const trade::Trade& trade) {
    const auto words = [&](const std::string& pattern) {
        return words_of(consequence, pattern, one, assessment, trade);
    };
    const auto* known = std::find_if(beside_renewal.begin(), beside_renewal.end(),
                                     [&](const Beside& row) { return row.rule == consequence.rule->id; });
    const std::optional<int> with = goes_with(one, assessment);
    if (known == beside_renewal.end() || (!with && one.verdict != Verdict::renew)) return words(consequence.rule->act);
    const std::string key(with || renews_stay(one) ? known->stay : known->part);
    if (!key.empty()) return words(trade.wording(key));
    return with ? trade.wording("renewed.with-stay", {{"n", std::to_string(*with)}}) : std::string();
}

}  // namespace rigdeed::assessment
