#include "assessment/siblings.hpp"

#include <algorithm>
#include <set>

namespace rigdeed::assessment {
namespace {

bool of_one_age(const survey::Stay& a, const survey::Stay& b) {
    if (!a.fitted || !b.fitted) return true;
    if (a.fitted->month && b.fitted->month) return a.fitted->year == b.fitted->year && a.fitted->month == b.fitted->month;
    return a.fitted->year == b.fitted->year;
}

bool finished_by_spreading(const FittingVerdict& one) {
    return one.stay != nullptr && one.verdict == Verdict::renew &&
           std::any_of(one.signs.begin(), one.signs.end(), [](const auto& sign) { return sign.rule->spreads && sign.rule->verdict == Verdict::renew; });
}

/// The fitting that stands for its stay: the strand, rod or rope if it was seen, else any part that was, else any.
FittingVerdict* representative(std::vector<FittingVerdict>& fittings, const survey::Stay* stay) {
    FittingVerdict* best = nullptr;
    int best_rank = -1;
    for (FittingVerdict& one : fittings) {
        if (one.stay != stay) continue;
        const bool is_line = one.kind->id == "strand" || one.kind->id == "rod" || one.kind->id == "textile-stay";
        const int rank = (one.unseen_because.empty() ? 2 : 0) + (is_line ? 1 : 0);
        if (rank > best_rank) {
            best = &one;
            best_rank = rank;
        }
    }
    return best;
}

bool has_own_renewal(const std::vector<FittingVerdict>& fittings, const survey::Stay* stay) {
    return std::any_of(fittings.begin(), fittings.end(), [&](const FittingVerdict& one) { return one.stay == stay && finished_by_spreading(one); });
}

}  // namespace

void watch_siblings(std::vector<FittingVerdict>& fittings) {
    for (std::size_t i = 0; i < fittings.size(); ++i) {
        if (!finished_by_spreading(fittings[i])) continue;
        const survey::Stay& finished = *fittings[i].stay;
        std::set<const survey::Stay*> done{&finished};
        for (std::size_t j = 0; j < fittings.size(); ++j) {
            const survey::Stay* other = fittings[j].stay;
            if (other == nullptr || !done.insert(other).second) continue;
            if (other->make != finished.make || !of_one_age(*other, finished) || has_own_renewal(fittings, other)) continue;
            FittingVerdict* one = representative(fittings, other);
            if (one->watched_with) continue;
            one->watched_with = i;
            one->told = std::max(one->told, Verdict::watch);
            one->verdict = std::max(one->verdict, Verdict::watch);
        }
    }
}

}  // namespace rigdeed::assessment
