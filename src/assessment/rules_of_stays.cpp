#include <cmath>

#include "assessment/rig.hpp"

namespace rigdeed::assessment {
namespace {

constexpr int a_year = 12;

/// Months from the first day of one to that of the other; nothing if one is not known.
std::optional<int> months_younger(const survey::Stay& than, const survey::Stay& one) {
    if (!than.fitted || !one.fitted) return std::nullopt;
    const Date a = than.fitted->earliest(), b = one.fitted->earliest();
    return (b.year - a.year) * 12 + b.month - a.month;
}

/// Of its age within a year, or older; an unknown age counts as that.
bool as_old(const survey::Stay& one, const survey::Stay& finished) {
    const auto younger = months_younger(finished, one);
    return !younger || *younger <= a_year;
}

bool alike(const survey::Stay& a, const survey::Stay& b) {
    constexpr Millimetres same_size{0.1};
    const auto apart = months_younger(a, b);
    return a.make == b.make && a.alloy == b.alloy && (!apart || std::abs(*apart) <= a_year) &&
           std::abs((a.diameter.quantity - b.diameter.quantity).value) <= same_size.value;
}

}  // namespace

void same_make_and_age(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        if (!finished_by_spreading(rig.fittings[i])) continue;
        const survey::Stay& finished = *rig.fittings[i].stay;
        for (const survey::Stay& other : rig.survey.stays) {
            const auto stands_for = representative(rig.fittings, &other);
            if (&other != &finished && stands_for && other.make == finished.make && as_old(other, finished))
                rig.speaks_of(*stands_for, i);
        }
    }
}

/// Shrouds are renewed in pairs.
void opposite_number(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        if (!finished_by_spreading(rig.fittings[i])) continue;
        const survey::Stay& finished = *rig.fittings[i].stay;
        for (const survey::Stay& other : rig.survey.stays)
            if (rig.trade.are_pair(finished, other) || rig.trade.are_pair(other, finished))
                if (const auto stands_for = representative(rig.fittings, &other)) rig.speaks_of(*stands_for, i);
    }
}

void sides_unlike(Rig& rig) {
    for (const survey::Stay& port : rig.survey.stays)
        for (const survey::Stay& starboard : rig.survey.stays) {
            if (!rig.trade.are_pair(port, starboard) || alike(port, starboard)) continue;
            const auto one = representative(rig.fittings, &port), other = representative(rig.fittings, &starboard);
            if (!one || !other) continue;
            rig.speaks_of(*one, other);
            rig.speaks_of(*other, one);
        }
}

void weaker_alloy(Rig& rig) {
    for (std::size_t i = 0; i < rig.fittings.size(); ++i) {
        if (!renews_stay(rig.fittings[i])) continue;
        const trade::Material* alloy = rig.trade.material(rig.fittings[i].stay->alloy);
        if (alloy != nullptr && !alloy->now.empty()) rig.speaks_of(i, std::nullopt);
    }
}

}  // namespace rigdeed::assessment
