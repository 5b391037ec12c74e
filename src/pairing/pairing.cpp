#include "pairing/pairing.hpp"

#include <cmath>
#include <map>
#include <set>

#include "pairing/solver.hpp"

namespace rigdeed::pairing {
namespace {

// What is sure is an anchor for the rest.
class Rounds {
 public:
    explicit Rounds(const Facts& facts) : facts_(facts), habits_(fitted(facts)) {}

    std::vector<Proposal> run() {
        std::optional<bool> settled;
        std::vector<Proposal> proposals = solve(facts_, habits_, settled);
        for (std::size_t i = 0; i < proposals.size(); ++i)
            if (proposals[i].named || facts_.photos[i].code) given_.insert(i);
        const int most = *settled ? 1 : 0;  // each adds some, of which a larger share is wrong
        for (int round = 0; round < most && accept(proposals); ++round) proposals = solve(facts_, habits_, settled);
        for (std::size_t i = 0; i < proposals.size(); ++i) {
            const auto accepted = accepted_.find(i);
            if (accepted != accepted_.end()) proposals[i] = accepted->second;
            else proposals[i].sure &= given_.contains(i);
        }
        return proposals;
    }

 private:
    // Whether anything became sure that was not before.
    bool accept(const std::vector<Proposal>& proposals) {
        bool more = false;
        for (std::size_t i = 0; i < proposals.size(); ++i) {
            const Proposal& one = proposals[i];
            if (!one.sure || given_.contains(i) || accepted_.contains(i)) continue;
            bool fits = true;
            for (const std::size_t fitting : one.fittings) fits &= has_room(fitting, one);
            if (!fits) continue;
            for (const std::size_t fitting : one.fittings) put(fitting, one, i);
            if (one.view == View::other) facts_.photos[i].other = true;
            accepted_.emplace(i, one);
            more = true;
        }
        return more;
    }

    Look& look(std::size_t fitting, Way pass) {
        return pass == Way::up ? facts_.fittings[fitting].up : facts_.fittings[fitting].down;
    }

    bool has_room(std::size_t fitting, const Proposal& one) {
        const Look& there = look(fitting, one.pass);
        return one.view == View::far ? !there.named_far : !there.named_close;
    }

    void put(std::size_t fitting, const Proposal& one, std::size_t photo) {
        Look& there = look(fitting, one.pass);
        (one.view == View::far ? there.far : there.close) = photo;
        (one.view == View::far ? there.named_far : there.named_close) = true;
        if (one.view == View::close && !there.at && facts_.photos[photo].time)
            there.at = std::floor(*facts_.photos[photo].time / 60) * 60;
    }

    Facts facts_;
    Habits habits_;
    std::set<std::size_t> given_;
    std::map<std::size_t, Proposal> accepted_;
};

}  // namespace

std::vector<Proposal> pair_photos(const Facts& facts) {
    if (facts.photos.empty()) return {};
    if (facts.fittings.empty()) return std::vector<Proposal>(facts.photos.size());
    return Rounds(facts).run();
}

}  // namespace rigdeed::pairing
