#include "pairing/pairing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <set>

#include "pairing/chain.hpp"

namespace rigdeed::pairing {
namespace {

constexpr std::size_t views = 3;
constexpr double sure_from = 0.985;
constexpr double sure_if_complete = 0.85;
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

// The habits that explain the photos best, and others that are not far from them: what all of them say is sure.
std::vector<Chain> chains(const Facts& facts) {
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
    fit(&Habits::skip, {0.015, 0.2});
    fit(&Habits::skip_place, {0.04, 0.5});
    std::vector<Chain> all{settled(facts, best)};
    Habits other = best;
    other.skip = std::min(best.skip * 2, 0.5);
    other.skip_place = std::min(best.skip_place * 2, 0.7);
    other.burst = best.burst * 2.5;
    other.stray = best.stray * 2;
    all.push_back(settled(facts, other));
    other = best;
    other.skip = best.skip * 0.5;
    other.jump = best.jump * 4;
    other.clock = best.clock * 1.8;
    all.push_back(settled(facts, other));
    return all;
}

class Solver {
 public:
    explicit Solver(const Facts& facts)
        : facts_(facts), n_(facts.fittings.size()), chains_(chains(facts)), proposals_(facts.photos.size()) {}

    std::vector<Proposal> run() {
        for (std::size_t i = 0; i < proposals_.size(); ++i) proposals_[i] = likeliest(i);
        keep_one_close();
        share_far();
        const auto clear = std::count_if(proposals_.begin(), proposals_.end(),
                                         [](const Proposal& one) { return one.certainty >= 0.9; });
        settled_ = 2 * static_cast<std::size_t>(clear) > proposals_.size();
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
            for (std::size_t j = i + 1; j < proposals_.size(); ++j) {
                const Proposal& next = proposals_[j];
                if (next.view == View::other) continue;
                if (next.pass != far.pass || facts_.fittings[next.fittings.front()].place != place) break;
                if (next.view == View::far) break;
                shown.push_back(next.fittings.front());
            }
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
            if (proposals_[i].view == View::other) return false;
            if (proposals_[i].view != View::close) continue;
            ++close;
            shown.insert(proposals_[i].fittings.front());
        }
        const auto here =
            static_cast<std::size_t>(std::count_if(facts_.fittings.begin(), facts_.fittings.end(),
                                                   [&](const FittingFacts& one) { return one.place == place; }));
        return close == here && shown.size() == here;
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
        if (proposal.view == View::other) return;
        double bar = settled_ ? sure_from : sure_if_unsettled;
        for (const std::size_t fitting : proposal.fittings)
            if (facts_.fittings[fitting].has_sign) bar = std::max(bar, sure_with_sign);
        proposal.sure = proposal.certainty >= bar;
        if (proposal.view == View::close)
            proposal.sure = (proposal.sure && is_borne_out(photo)) ||
                            (bar == sure_from && proposal.certainty >= sure_if_complete && is_complete(photo));
        if (proposal.view == View::close || !proposal.sure) return;
        for (const std::size_t fitting : proposal.fittings)
            for (const Proposal& other : proposals_)
                if (other.view == View::close && other.pass == proposal.pass && other.fittings.front() == fitting &&
                    !other.sure)
                    proposal.sure = false;
    }

    const Facts& facts_;
    std::size_t n_;
    std::vector<Chain> chains_;
    std::vector<Proposal> proposals_;
    std::vector<std::size_t> spare_;
    bool settled_ = false;  ///< most photos have one clear answer
};

}  // namespace

std::vector<Proposal> pair_photos(const Facts& facts) {
    if (facts.photos.empty()) return {};
    if (facts.fittings.empty()) return std::vector<Proposal>(facts.photos.size());
    return Solver(facts).run();
}

}  // namespace rigdeed::pairing
