#include "pairing/solver.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <set>

namespace rigdeed::pairing {
namespace {

constexpr std::size_t views = 3;
constexpr double sure_from = 0.988;
constexpr double sure_if_complete = 0.955;
constexpr double sure_if_both = 0.85;
constexpr double sure_with_sign = 0.995;     // a wrong picture of a fault is the worst there can be
constexpr double sure_if_unsettled = 0.999;  // where most of a set is in doubt, the rest is as well

View view_of(std::size_t view) { return view == 0 ? View::far : view == 1 ? View::close : View::other; }

// What photos that look alike say of each other, by what the chain has made of them so far.
std::vector<std::vector<double>> bonus_of_likeness(const Facts& facts, const Chain& chain) {
    const std::size_t n = facts.fittings.size();
    std::vector<std::vector<double>> bonus(facts.photos.size(), std::vector<double>(chain.visits * views, 0));
    if (facts.alike.empty()) return {};
    const auto add = [&](std::size_t photo, std::size_t other, double score) {
        const double ratio = std::exp(std::clamp(score, -2.0, 6.0));
        for (std::size_t f = 0; f < n; ++f)
            for (std::size_t view = 0; view < 2; ++view) {
                double there = 0;  // that the other one shows this fitting so
                for (const Way pass : {Way::up, Way::down})
                    there += chain.posterior[other][visit_of(f, pass, n) * views + view];
                const double speaks = std::log(there * ratio + (1 - there));
                for (const Way pass : {Way::up, Way::down}) bonus[photo][visit_of(f, pass, n) * views + view] += speaks;
            }
    };
    for (const auto& [pair, score] : facts.alike) {
        add(pair.first, pair.second, score);
        add(pair.second, pair.first, score);
    }
    return bonus;
}

Chain settled(const Facts& facts, const Habits& habits) {
    Chain chain = run_chain(facts, habits, {});
    for (int round = 0; round < 2 && !facts.alike.empty(); ++round)
        chain = run_chain(facts, habits, bonus_of_likeness(facts, chain));
    return chain;
}

// By these habits, and by others that are not far from them: what all of them say is sure.
std::vector<Chain> chains(const Facts& facts, const Habits& best) {
    std::vector<Chain> all{settled(facts, best)};
    Habits other = best;
    const auto doubled = [](double share) { return std::min(2 * share, (1 + share) / 2); };
    for (double Habits::*habit :
         {&Habits::skip_up, &Habits::skip_down, &Habits::skip_place_up, &Habits::skip_place_down})
        other.*habit = doubled(best.*habit);
    other.skip_sign = best.skip_sign * 2;
    other.burst = best.burst * 2.5;
    other.stray = best.stray * 2;
    other.back = best.back * 3;
    all.push_back(settled(facts, other));
    other = best;
    other.skip_up = best.skip_up * 0.5;
    other.skip_down = best.skip_down * 0.5;
    other.jump = best.jump * 4;
    other.clock = best.clock * 1.8;
    all.push_back(settled(facts, other));
    return all;
}

class Solver {
 public:
    Solver(const Facts& facts, const Habits& habits)
        : facts_(facts), n_(facts.fittings.size()), chains_(chains(facts, habits)), proposals_(facts.photos.size()) {}

    // `settled`: most photos had one clear answer before anything was taken as said; asked of the first round.
    std::vector<Proposal> run(std::optional<bool>& settled) {
        for (std::size_t i = 0; i < proposals_.size(); ++i) proposals_[i] = likeliest(i);
        keep_one_close();
        share_far();
        const auto clear = std::count_if(proposals_.begin(), proposals_.end(),
                                         [](const Proposal& one) { return one.certainty >= 0.95; });
        if (!settled) settled = 2 * static_cast<std::size_t>(clear) > proposals_.size();
        settled_ = *settled;
        for (const bool far : {false, true})  // far ones are as sure as the close ones that they go with
            for (std::size_t i = 0; i < proposals_.size(); ++i)
                if ((proposals_[i].view == View::far) == far) judge(i);
        return std::move(proposals_);
    }

 private:
    Proposal likeliest(std::size_t photo) const {
        const std::vector<double>& posterior = chains_.front().posterior[photo];
        // Beside the point counts as one, wherever that was.
        double stray = 0;
        for (std::size_t v = 0; v < 2 * n_; ++v) stray += posterior[v * views + 2];
        std::size_t best = 0;
        for (std::size_t s = 0; s < posterior.size(); ++s)
            if (s % views != 2 && (best % views == 2 || posterior[s] > posterior[best])) best = s;
        Proposal proposal;
        if (facts_.photos[photo].other || facts_.photos[photo].code || stray > posterior[best]) {
            proposal.view = View::other;
            proposal.certainty = stray;
            return proposal;
        }
        proposal.view = view_of(best % views);
        proposal.pass = pass_of(best / views, n_);
        proposal.fittings = {fitting_of(best / views, n_)};
        proposal.certainty = 1;
        for (const Chain& chain : chains_)
            proposal.certainty = std::min(proposal.certainty, certainty(chain, photo, best));
        double second = 0;
        for (std::size_t s = 0; s < posterior.size(); ++s)
            if (s % views != 2 && fitting_of(s / views, n_) != proposal.fittings.front() && posterior[s] > second) {
                second = posterior[s];
                proposal.next_best = fitting_of(s / views, n_);
            }
        return proposal;
    }

    // Of a far photo: that it was taken at this place.
    double certainty(const Chain& chain, std::size_t photo, std::size_t state) const {
        if (state % views != 0) return chain.posterior[photo][state];
        const std::size_t visit = state / views;
        double sum = 0;
        for (std::size_t v = 0; v < 2 * n_; ++v)
            if (pass_of(v, n_) == pass_of(visit, n_) &&
                facts_.fittings[fitting_of(v, n_)].place == facts_.fittings[fitting_of(visit, n_)].place)
                sum += chain.posterior[photo][v * views];
        return sum;
    }

    // Of several close ones of one fitting on one pass the sharpest stays; the last where nothing is known of that.
    void keep_one_close() {
        std::map<std::pair<std::size_t, Way>, std::size_t> kept;
        for (std::size_t i = 0; i < proposals_.size(); ++i) {
            if (proposals_[i].view != View::close) continue;
            const auto key = std::pair(proposals_[i].fittings.front(), proposals_[i].pass);
            const auto [before, is_new] = kept.emplace(key, i);
            if (is_new) continue;
            std::size_t& old = before->second;
            const bool named = is_named(old);
            const bool takes_over = !named && facts_.photos[i].sharpness >= facts_.photos[old].sharpness;
            spare_.push_back(takes_over ? old : i);
            if (takes_over) old = i;
        }
        for (const std::size_t i : spare_) {
            proposals_[i].view = View::other;
            proposals_[i].fittings.clear();
        }
    }

    bool is_spare(std::size_t photo) const { return std::find(spare_.begin(), spare_.end(), photo) != spare_.end(); }

    bool is_named(std::size_t photo) const {
        for (const FittingFacts& fitting : facts_.fittings)
            for (const Look* look : {&fitting.up, &fitting.down})
                if (look->far == photo || look->close == photo) return true;
        return false;
    }

    // A far photo is for the fittings at its place whose close ones follow, up to the next far one.
    void share_far() {
        for (std::size_t i = 0; i < proposals_.size(); ++i) {
            Proposal& far = proposals_[i];
            if (far.view != View::far) continue;
            const std::size_t own = far.fittings.front(), place = facts_.fittings[own].place;
            std::vector<std::size_t> shown;
            std::size_t j = i + 1;
            for (; j < proposals_.size(); ++j) {
                const Proposal& next = proposals_[j];
                if (next.view == View::other && !facts_.photos[j].code && !is_spare(j)) break;
                if (next.view == View::other) continue;
                if (next.pass != far.pass || facts_.fittings[next.fittings.front()].place != place) break;
                if (next.view == View::far) break;
                shown.push_back(next.fittings.front());
            }
            // Two from far in a row: the close one before them may belong to the first, taken close first.
            const bool far_follows = j + 1 < proposals_.size() && looks_far(j) && !is_close_shot(j + 1);
            if (far_follows && shown.size() > 1) shown.pop_back();
            if (!shown.empty()) far.fittings = std::move(shown);
        }
    }

    // Order alone cannot tell neighbours at one place from each other: two of them may have been taken the other way
    // round. A photo of the other pass that looks alike, and is thought to be of the same fitting, can; nor is there
    // anything to mix up where it stands alone.
    bool is_borne_out(std::size_t photo) const {
        const std::size_t fitting = proposals_[photo].fittings.front();
        const std::size_t place = facts_.fittings[fitting].place;
        const auto here = std::count_if(facts_.fittings.begin(), facts_.fittings.end(),
                                        [&](const FittingFacts& one) { return one.place == place; });
        if (here == 1 || look(fitting, proposals_[photo].pass).at) return true;
        double most = 0;
        for (const auto& [pair, score] : facts_.alike) {
            if (pair.first != photo && pair.second != photo) continue;
            const Proposal& other = proposals_[pair.first == photo ? pair.second : pair.first];
            if (other.view != View::close || other.pass == proposals_[photo].pass) continue;
            most = std::max(most, other.fittings.front() == fitting ? score : -score);
        }
        return most > 1;
    }

    // At a place whose code was photographed, each fitting with one close photo, and nothing left over: then none was
    // left out, and who photographs the row before him keeps to its order.
    bool is_complete(std::size_t photo) const {
        const std::size_t place = facts_.fittings[proposals_[photo].fittings.front()].place;
        std::size_t begin = photo, end = photo + 1;
        while (begin > 0 && is_at(begin - 1, place, photo)) --begin;
        while (end < proposals_.size() && is_at(end, place, photo)) ++end;
        if (begin == 0 || !facts_.photos[begin - 1].code || facts_.photos[begin - 1].code->place != place) return false;
        if (end < proposals_.size() && !facts_.photos[end].code) return false;
        std::set<std::size_t> shown;
        std::size_t close = 0;
        for (std::size_t i = begin; i < end; ++i) {
            const bool spare = is_spare(i);
            if (proposals_[i].view == View::other && !spare) return false;
            if (i > begin && is_close_shot(i - 1) && is_close_shot(i)) {
                // One shot after the other: of the same or not, as long as the pictures leave no doubt.
                const bool told_same = spare || is_spare(i - 1);
                if (told_same ? !is_same(i - 1, i) : may_be_same(i - 1, i)) return false;
            } else if (spare) {
                return false;
            }
            if (proposals_[i].view != View::close) continue;
            ++close;
            shown.insert(proposals_[i].fittings.front());
        }
        const auto here =
            static_cast<std::size_t>(std::count_if(facts_.fittings.begin(), facts_.fittings.end(),
                                                   [&](const FittingFacts& one) { return one.place == place; }));
        return close == here && shown.size() == here;
    }

    // Something but order says where it was taken: a code, or a time written down at its place.
    bool is_grounded(std::size_t photo) const {
        const Proposal& one = proposals_[photo];
        const std::size_t place = facts_.fittings[one.fittings.front()].place;
        for (std::size_t f = 0; f < n_; ++f)
            if (facts_.fittings[f].place == place && look(f, one.pass).at) return true;
        for (const PhotoFacts& other : facts_.photos)
            if (other.code && other.code->place == place && other.code->pass.value_or(one.pass) == one.pass)
                return true;
        return false;
    }

    // Each fitting of its place has a close photo on this pass: none was left out that it could be mixed up with.
    bool is_counted(std::size_t photo) const {
        const Proposal& one = proposals_[photo];
        std::set<std::size_t> shown;
        for (const Proposal& other : proposals_)
            if (other.view == View::close && other.pass == one.pass) shown.insert(other.fittings.front());
        for (std::size_t f = 0; f < n_; ++f)
            if (facts_.fittings[f].place == facts_.fittings[one.fittings.front()].place && !shown.contains(f))
                return false;
        return true;
    }

    bool looks_far(std::size_t photo) const {
        const PhotoFacts& facts = facts_.photos[photo];
        return !facts.code && (proposals_[photo].view == View::far || facts.closeness < -1);
    }

    bool is_close_shot(std::size_t photo) const { return proposals_[photo].view == View::close || is_spare(photo); }

    bool is_same(std::size_t one, std::size_t next) const {
        const auto alike = facts_.alike.find({one, next});
        return alike != facts_.alike.end() && alike->second > 2;
    }

    // Two shots of one fitting, instead of one each of two.
    bool may_be_same(std::size_t one, std::size_t next) const {
        const auto alike = facts_.alike.find({one, next});
        if (alike != facts_.alike.end()) return alike->second > -0.5;
        const auto &a = facts_.photos[one].time, &b = facts_.photos[next].time;
        constexpr double at_once = 5;  // s: less than it takes to move on and aim
        return !a || !b || *b - *a < at_once;
    }

    bool is_at(std::size_t photo, std::size_t place, std::size_t like) const {
        if (facts_.photos[photo].code) return false;
        const Proposal& one = proposals_[photo];
        if (one.view == View::other) return true;
        return one.pass == proposals_[like].pass && facts_.fittings[one.fittings.front()].place == place;
    }

    [[nodiscard]] const Look& look(std::size_t fitting, Way pass) const {
        const FittingFacts& facts = facts_.fittings[fitting];
        return pass == Way::up ? facts.up : facts.down;
    }

    void judge(std::size_t photo) {
        Proposal& proposal = proposals_[photo];
        proposal.named = is_named(photo) || facts_.photos[photo].other;
        if (proposal.named || facts_.photos[photo].code) {
            proposal.sure = true;
            return;
        }
        if (proposal.view == View::other) {
            constexpr double undecided = 1.5;  // neither far nor close: beside the point
            proposal.sure = settled_ && proposal.certainty >= sure_from &&
                            (is_spare(photo) || std::abs(facts_.photos[photo].closeness) < undecided);
            return;
        }
        if (!is_grounded(photo)) return;
        double bar = settled_ ? sure_from : sure_if_unsettled;
        for (const std::size_t fitting : proposal.fittings)
            if (facts_.fittings[fitting].has_sign) bar = std::max(bar, sure_with_sign);
        if (proposal.view == View::close) {
            const bool borne_out = is_borne_out(photo), complete = is_complete(photo);
            if (!settled_) {
                proposal.sure = proposal.certainty >= bar && borne_out && complete;
                return;
            }
            if (facts_.fittings[proposal.fittings.front()].has_sign) {
                proposal.sure = proposal.certainty >= bar && borne_out && complete;
                return;
            }
            if (bar == sure_from && complete) bar = borne_out ? sure_if_both : sure_if_complete;
            proposal.sure = proposal.certainty >= bar && (borne_out || complete || is_counted(photo));
            return;
        }
        proposal.sure = proposal.certainty >= bar;
        if (!proposal.sure) return;
        // Of what it may show, that whose close photo is sure.
        std::vector<std::size_t> shown;
        for (const std::size_t fitting : proposal.fittings)
            for (const Proposal& other : proposals_)
                if (other.view == View::close && other.pass == proposal.pass && other.fittings.front() == fitting &&
                    other.sure)
                    shown.push_back(fitting);
        proposal.sure = !shown.empty();
        if (proposal.sure) proposal.fittings = std::move(shown);
    }

    const Facts& facts_;
    std::size_t n_;
    std::vector<Chain> chains_;
    std::vector<Proposal> proposals_;
    std::vector<std::size_t> spare_;
    bool settled_ = false;  ///< most photos have one clear answer
};

}  // namespace

Habits fitted(const Facts& facts) {
    Habits best;
    double most = run_chain(facts, best, {}).likelihood;
    const auto fit = [&](double Habits::*habit, std::initializer_list<double> values) {
        for (const double value : values) {
            Habits habits = best;
            habits.*habit = value;
            const double likelihood = run_chain(facts, habits, {}).likelihood;
            if (likelihood > most) most = likelihood, best = habits;
        }
    };
    fit(&Habits::shared_far, {0.1, 0.85});
    fit(&Habits::pace, {40, 200});
    fit(&Habits::burst, {0.015});
    fit(&Habits::skip_up, {0.015, 0.2});
    fit(&Habits::skip_down, {0.015, 0.2, 0.6, 0.9});
    fit(&Habits::skip_place_up, {0.04, 0.5});
    fit(&Habits::skip_place_down, {0.04, 0.5, 0.8});
    fit(&Habits::back, {0.01, 0.003});
    return best;
}

std::vector<Proposal> solve(const Facts& facts, const Habits& habits, std::optional<bool>& settled) {
    return Solver(facts, habits).run(settled);
}

}  // namespace rigdeed::pairing
