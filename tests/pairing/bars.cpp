// How well photos of simulated climbs find their fittings. The seeds here are none that anything was tuned to.
//
// Prints what was reached, then "N passed, N failed".
#include "pairing/pairing.hpp"

#include <algorithm>
#include <iostream>

#include "pairing/climb_simulator.hpp"

using namespace rigdeed;
using namespace rigdeed::pairing;
using sample::Climb;
using sample::Truth;

namespace {

struct Score {
    int photos = 0, right = 0, placed = 0, sure = 0, wrong = 0;
    int wrong_with_sign = 0;  ///< surely wrong, and said to show a fitting with a sign

    void add(const Score& other) {
        photos += other.photos, right += other.right, placed += other.placed, sure += other.sure, wrong += other.wrong;
        wrong_with_sign += other.wrong_with_sign;
    }
    [[nodiscard]] double share(int count) const { return 100.0 * count / std::max(photos, 1); }
    [[nodiscard]] double wrong_among_sure() const { return 100.0 * wrong / std::max(sure, 1); }
};

// Photos of codes are not counted: they say themselves what they are.
Score score(const Climb& climb, const std::vector<Proposal>& proposals) {
    Score result;
    for (std::size_t i = 0; i < proposals.size(); ++i) {
        const Truth& truth = climb.truth[i];
        const Proposal& told = proposals[i];
        if (climb.facts.photos[i].code || told.named) continue;
        ++result.photos;
        bool right = told.view == truth.view, placed = false;
        if (told.view == View::other) {
            // A close one of several of one fitting may be left over.
            right = truth.view == View::other || truth.view == View::close;
            placed = right;
        } else {
            placed = told.pass == truth.pass && !told.fittings.empty() &&
                     climb.facts.fittings[told.fittings.front()].place == truth.place;
            right = right && told.pass == truth.pass &&
                    std::all_of(told.fittings.begin(), told.fittings.end(), [&](std::size_t fitting) {
                        return std::find(truth.fittings.begin(), truth.fittings.end(), fitting) != truth.fittings.end();
                    });
        }
        result.right += right ? 1 : 0;
        result.placed += placed ? 1 : 0;
        result.sure += told.sure ? 1 : 0;
        result.wrong += told.sure && !right ? 1 : 0;
        for (const std::size_t fitting : told.fittings)
            result.wrong_with_sign += told.sure && !right && climb.facts.fittings[fitting].has_sign ? 1 : 0;
    }
    return result;
}

// A cutter of 24 places and a ketch of 40, as their plans have them.
std::vector<int> cutter() { return {6, 6, 6, 5, 5, 5, 6, 3, 2, 1, 3, 2, 4, 2, 2, 3, 2, 2, 1, 2, 3, 2, 4, 6}; }
std::vector<int> ketch() {
    std::vector<int> places = cutter();
    for (const int count : {5, 5, 4, 5, 5, 2, 3, 2, 3, 2, 2, 3, 2, 3, 4, 3}) places.push_back(count);
    return places;
}

Score run(const sample::Noise& noise, double anchors, double codes, const char* name) {
    Score sum;
    double worst_right = 100, worst_wrong = 0;
    for (unsigned seed = 500; seed < 510; ++seed)
        for (const auto& places : {cutter(), ketch()}) {
            const Climb climb = sample::climb(places, noise, anchors, codes, seed);
            const Score one = score(climb, pair_photos(climb.facts));
            sum.add(one);
            worst_right = std::min(worst_right, one.share(one.right));
            worst_wrong = std::max(worst_wrong, one.wrong_among_sure());
        }
    std::cout << name << ": right " << sum.share(sum.right) << " % (worst " << worst_right << "), place and pass "
              << sum.share(sum.placed) << " %, sure " << sum.share(sum.sure) << " %, wrong among the sure "
              << sum.wrong_among_sure() << " % (worst " << worst_wrong << "), photos " << sum.photos << "\n";
    return sum;
}

}  // namespace

namespace {

int passed = 0, failed = 0;

void expect(bool truth, const char* what) {
    if (truth) ++passed;
    else ++failed, std::cout << "FAILED: " << what << "\n";
}

}  // namespace

int main() {
    const Score half = run(sample::usual(), 0.5, 0, "usual, time at half the stations");
    expect(half.share(half.right) >= 82, "right, with times");
    expect(half.share(half.placed) >= 90, "place and pass, with times");
    expect(half.share(half.sure) >= 35, "sure, with times");
    expect(half.wrong_among_sure() <= 3, "wrong among the sure, with times");
    const Score codes = run(sample::usual(), 0, 0.9, "usual, codes at nine of ten places");
    expect(codes.share(codes.right) >= 93, "right, with codes");
    expect(codes.share(codes.placed) >= 98, "place and pass, with codes");
    expect(codes.share(codes.sure) >= 60, "sure, with codes");
    expect(codes.wrong_among_sure() <= 0.5, "wrong among the sure, with codes");
    sample::Noise with_signs = sample::usual();
    with_signs.signs = 0.1;
    with_signs.only_looked = 0.8;
    const Score signs =
        run(with_signs, 0, 0.9, "usual, codes, a sign at one in ten, few photos going down but of those");
    expect(signs.wrong_with_sign == 0, "no photo is surely one of a fitting with a sign that it does not show");
    expect(signs.wrong_among_sure() <= 1.5, "wrong among the sure, with signs");
    const Score mild = run(sample::mild(), 0, 0.9, "mild, codes at nine of ten places");
    expect(mild.share(mild.right) >= 95, "right, mild, with codes");
    expect(mild.wrong_among_sure() <= 0.3, "wrong among the sure, mild, with codes");
    const Score rough = run(sample::rough(), 0.5, 0, "rough, time at half the stations");
    expect(300.0 * rough.wrong / rough.photos <= 2, "two surely wrong in 300, rough, with times");
    const Score blind = run(sample::usual(), 0, 0, "usual, nothing to go by");
    expect(300.0 * blind.wrong / blind.photos <= 2, "two surely wrong in 300, with nothing to go by");
    std::cout << passed << " passed, " << failed << " failed\n";
    return failed == 0 ? 0 : 1;
}
