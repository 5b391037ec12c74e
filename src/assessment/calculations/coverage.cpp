#include <algorithm>

#include "assessment/calculations/working.hpp"

namespace rigdeed::assessment {
namespace {

struct Counts {
    int all = 0, up = 0, down = 0, both = 0, unseen = 0, absent = 0, differ = 0, pairs = 0;
};

Counts count(const Assessment& assessment) {
    Counts counts;
    for (const FittingVerdict& one : assessment.fittings) {
        if (one.absent) {
            ++counts.absent;
            continue;
        }
        ++counts.all;
        const bool up = one.fitting->in(survey::Way::up) != nullptr;
        const bool down = one.fitting->in(survey::Way::down) != nullptr;
        counts.up += up;
        counts.down += down;
        counts.both += up && down && one.verdict != Verdict::unseen;
        counts.unseen += one.verdict == Verdict::unseen || (!one.unseen_because.empty() && one.signs.empty());
        counts.differ += one.passes_differ;
        for (const survey::Seen& seen : one.fitting->seen) counts.pairs += seen.has_pair();
    }
    return counts;
}

}  // namespace

void coverage(const Case& one, Calculations& all) {
    Working working(one, "coverage");
    working.about(one.trade.wording("calc.coverage.rig"), {});
    const Counts counts = count(one.assessment);
    const auto number = [](auto value) { return std::optional(Ratio{static_cast<double>(value)}); };
    const auto share = [&](int part) {
        return counts.all > 0 ? std::optional(Percent{100.0 * part / counts.all}) : std::nullopt;
    };
    working.input<Ratio>("n", "fittings", number(counts.all), 0, one.trade.wording("calc.source.survey"));
    working.result<Ratio>("up", "seen-up", number(counts.up), 0);
    working.result<Ratio>("down", "seen-down", number(counts.down), 0);
    working.result<Ratio>("b", "seen-both", number(counts.both), 0);
    working.result<Percent>("b / n", "seen-both", share(counts.both), 1);
    working.result<Ratio>("u", "unseen", number(counts.unseen), 0);
    working.result<Ratio>("a", "absent", number(counts.absent), 0);
    working.result<Ratio>("x", "passes-differ", number(counts.differ), 0);
    const auto agree =
        counts.both > 0 ? std::optional(Percent{100.0 * (counts.both - counts.differ) / counts.both}) : std::nullopt;
    working.result<Percent>("(b − x) / b", "passes-agree", agree, 1);
    working.result<Ratio>("f", "photos", number(one.evidence.photos.size()), 0);
    working.result<Ratio>("q", "pairs", number(counts.pairs), 0);
    working.result<Ratio>("o", "orphans", number(one.evidence.unused.size()), 0);
    all.push_back(working.done());
}

}  // namespace rigdeed::assessment
