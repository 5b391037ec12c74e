#include "pairing/chain.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace rigdeed::pairing {
namespace {

constexpr std::size_t views = 3, far_view = 0, close_view = 1, stray_view = 2;
constexpr int window = 20;           // visits that a step may go ahead
constexpr int window_back = 4;       // and back
constexpr double impossible = 1e-9;  // what is said outright may be wrong, but hardly ever

const Look& look(const Facts& facts, std::size_t visit) {
    const FittingFacts& fitting = facts.fittings[fitting_of(visit, facts.fittings.size())];
    return pass_of(visit, facts.fittings.size()) == Way::up ? fitting.up : fitting.down;
}

// When each visit must have been, by what was written down, and how far that may be off.
struct Expected {
    double at = 0;
    double slack = 0;  // 0: nothing known
};

std::vector<Expected> expected_times(const Facts& facts, const Habits& habits) {
    const std::size_t visits = 2 * facts.fittings.size();
    std::vector<Expected> expected(visits);
    std::vector<std::size_t> known;
    for (std::size_t v = 0; v < visits; ++v)
        if (look(facts, v).at) known.push_back(v);
    if (known.empty()) return expected;
    for (std::size_t v = 0; v < visits; ++v) {
        const auto after = std::lower_bound(known.begin(), known.end(), v);
        if (after != known.end() && *after == v) {
            expected[v] = {*look(facts, v).at, habits.clock};
        } else if (after != known.end() && after != known.begin()) {
            const std::size_t a = *(after - 1), b = *after;
            const double from = *look(facts, a).at, to = *look(facts, b).at;
            const double share = static_cast<double>(v - a) / static_cast<double>(b - a);
            expected[v] = {from + (to - from) * share, habits.clock + 0.3 * std::abs(to - from)};
        } else {
            const std::size_t near = after == known.end() ? known.back() : known.front();
            const double away = std::abs(static_cast<double>(v) - static_cast<double>(near));
            const double sign = v > near ? 1 : -1;
            expected[v] = {*look(facts, near).at + sign * away * 40, habits.clock + away * 60};
        }
    }
    return expected;
}

class Model {
 public:
    Model(const Facts& facts, const Habits& habits, const std::vector<std::vector<double>>& bonus)
        : facts_(facts),
          habits_(habits),
          bonus_(bonus),
          visits_(2 * facts.fittings.size()),
          expected_(expected_times(facts, habits)) {
        find_runs();
        find_skipped_places();
        code_share_ = code_share();
        for (std::size_t i = 0; i < facts.photos.size(); ++i) emissions_.push_back(emission(i));
    }

    Chain run() {
        const std::size_t photos = facts_.photos.size(), states = visits_ * views;
        Chain chain{visits_, std::vector<std::vector<double>>(photos, std::vector<double>(states)), 0};
        std::vector<std::vector<double>> forward(photos);
        for (std::size_t i = 0; i < photos; ++i) {
            forward[i] = i == 0 ? first() : step(forward[i - 1], i);
            double sum = 0;
            for (std::size_t s = 0; s < states; ++s) sum += forward[i][s] *= emissions_[i][s];
            for (double& one : forward[i]) one /= sum;
            chain.likelihood += std::log(sum);
        }
        std::vector<double> backward(states, 1);
        for (std::size_t i = photos; i-- > 0;) {
            const std::vector<double>* before = i > 0 ? &forward[i - 1] : nullptr;
            double sum = 0;
            for (std::size_t s = 0; s < states; ++s) sum += chain.posterior[i][s] = forward[i][s] * backward[s];
            for (double& one : chain.posterior[i]) one /= sum;
            if (before != nullptr) backward = step_back(backward, i, *before);
        }
        return chain;
    }

 private:
    // What speaks for each state of a photo, but for its neighbours.
    std::vector<double> emission(std::size_t photo) const {
        const PhotoFacts& facts = facts_.photos[photo];
        std::vector<double> result(visits_ * views, 0);
        const double close = 1 / (1 + std::exp(-facts.closeness));
        double most = -1e300;
        for (std::size_t v = 0; v < visits_; ++v) {
            double at = 0;
            if (facts.time && expected_[v].slack > 0)
                at = -std::min(std::abs(*facts.time - expected_[v].at) / expected_[v].slack, 12.0) -
                     std::log(expected_[v].slack / habits_.clock);
            for (std::size_t view = 0; view < views; ++view) {
                double sum = at;
                if (view == far_view) sum += std::log((1 - close) + impossible);
                if (view == close_view) sum += std::log(close + impossible);
                if (view == stray_view) sum += std::log(0.5);
                sum += said(photo, v, view);
                if (!bonus_.empty()) sum += bonus_[photo][v * views + view];
                result[v * views + view] = sum;
                most = std::max(most, sum);
            }
        }
        for (double& one : result) one = std::exp(one - most) + 1e-300;
        return result;
    }

    // What the survey and the codes say outright.
    double said(std::size_t photo, std::size_t visit, std::size_t view) const {
        const PhotoFacts& facts = facts_.photos[photo];
        const double never = std::log(impossible);
        if (facts.code) {
            if (view != stray_view) return never;
            const bool here = facts_.fittings[fitting_of(visit, facts_.fittings.size())].place == facts.code->place &&
                              (!facts.code->pass || *facts.code->pass == pass_of(visit, facts_.fittings.size()));
            const bool begins = visit == 0 || !same_place(visit - 1, visit);
            return here && begins ? 0 : never;
        }
        if (facts.other) return view == stray_view ? 0 : never;
        const auto named = named_.find(photo);
        if (named != named_.end()) return named->second == visit * views + view ? 0 : never;
        const Look& there = look(facts_, visit);
        if (view == far_view && there.named_far) return never;  // it has one
        if (view == close_view && there.named_close) return never;
        return 0;
    }

    std::map<std::size_t, std::size_t> named_states() const {
        std::map<std::size_t, std::size_t> named;
        for (std::size_t v = 0; v < visits_; ++v) {
            if (const auto& far = look(facts_, v).far) named.emplace(*far, v * views + far_view);
            if (const auto& close = look(facts_, v).close) named.emplace(*close, v * views + close_view);
        }
        return named;
    }

    bool same_place(std::size_t a, std::size_t b) const {
        const std::size_t n = facts_.fittings.size();
        return facts_.fittings[fitting_of(a, n)].place == facts_.fittings[fitting_of(b, n)].place &&
               pass_of(a, n) == pass_of(b, n);
    }

    // That a visit has no photos of its own.
    double skip(std::size_t visit) const {
        const Look& there = look(facts_, visit);
        if (there.none) return 0.995;
        if (there.sign) return habits_.skip_sign;
        return pass_of(visit, facts_.fittings.size()) == Way::up ? habits_.skip_up : habits_.skip_down;
    }

    double skip_place(std::size_t visit) const {
        return pass_of(visit, facts_.fittings.size()) == Way::up ? habits_.skip_place_up : habits_.skip_place_down;
    }

    // That all between two visits was left out.
    double skipping(std::size_t from, std::size_t to) const {
        if (run_[to] == run_[from]) return to <= from ? 1 - skip(to) : skipped(from + 1, to) * (1 - skip(to));
        double places = 1;
        for (std::size_t run = run_[from] + 1; run < run_[to]; ++run) places *= place_skipped_[run];
        return skipped(from + 1, begin_[run_[from] + 1]) * places * (1 - skip_place(to)) *
               skipped(begin_[run_[to]], to) * (1 - skip(to));
    }

    // That the first fitting at the place of a code has no photos.
    double skip_of_first(const CodeSeen& code) const {
        double sum = 0, count = 0;
        for (const std::size_t v : begin_) {
            if (v >= visits_ || facts_.fittings[fitting_of(v, facts_.fittings.size())].place != code.place) continue;
            if (code.pass && *code.pass != pass_of(v, facts_.fittings.size())) continue;
            sum += skip(v), count += 1;
        }
        return count > 0 ? sum / count : 0.05;
    }

    double skipped(std::size_t begin, std::size_t end) const {
        double product = 1;
        for (std::size_t v = begin; v < end; ++v) product *= skip(v);
        return product;
    }

    // Nothing at a whole place: out of habit, never where a sign was seen; or one after the other.
    void find_skipped_places() {
        for (std::size_t run = 0; run + 1 < begin_.size(); ++run) {
            const double each = skipped(begin_[run], begin_[run + 1]);
            double whole = skip_place(begin_[run]);
            for (std::size_t v = begin_[run]; v < begin_[run + 1]; ++v)
                if (look(facts_, v).sign) whole *= habits_.skip_sign;
            place_skipped_.push_back(whole + (1 - whole) * each);
        }
    }

    // Which stop at one place each visit belongs to, and with which visit each stop begins.
    void find_runs() {
        for (std::size_t v = 0; v < visits_; ++v) {
            if (v == 0 || !same_place(v - 1, v)) begin_.push_back(v);
            run_.push_back(begin_.size() - 1);
        }
        begin_.push_back(visits_);
    }

    // How likely one state follows another, but for time and pictures.
    double base(std::size_t from, std::size_t from_view, std::size_t to, std::size_t to_view) const {
        const int d = static_cast<int>(to) - static_cast<int>(from);
        if (to_view == stray_view) return d == 0 ? habits_.stray : d > 0 ? habits_.stray * 0.2 * skipping(from, to) : 0;
        const double rest = 1 - habits_.stray;
        const bool together = same_place(from, to);
        if (d < 0) return rest * (together ? habits_.back : 0.003);
        const double skipped = skipping(from, to);
        if (from_view == far_view) {
            if (to_view == far_view) return rest * (d == 0 ? 0.03 : 0.04 * skipped);
            if (d == 0) return rest * 0.75;
            return rest * (together ? 0.25 : 0.02) * 0.05 * skipped;
        }
        const double on = from_view == close_view ? 1 - habits_.burst : 1;
        if (d == 0) {
            if (from_view == stray_view) return rest * (to_view == far_view ? 0.5 : 0.25);
            return rest * (to_view == close_view ? habits_.burst : 0.01);
        }
        const double shared = together ? habits_.shared_far : 0.05;
        return rest * on * skipped * (to_view == close_view ? shared : 1 - shared);
    }

    // How many of the places that were photographed had their code photographed.
    double code_share() const {
        std::size_t codes = 0;
        for (const PhotoFacts& photo : facts_.photos) codes += photo.code ? 1 : 0;
        const std::size_t places = std::max<std::size_t>(begin_.size() - 1, 1);
        return std::min(0.97, static_cast<double>(codes) / static_cast<double>(places));
    }

    // What the time between two photos, and what they show, says of a step. `step` is 0 to another place, 1 within one,
    // 2 at one fitting.
    double factor(std::size_t photo, std::size_t step, std::size_t from_view, std::size_t to_view) const {
        const bool together = step > 0;
        double result = 1;
        // Behind a code the fitting that it stands at is still to come.
        if (const auto& code = facts_.photos[photo - 1].code) {
            const double first = skip_of_first(*code);
            result *= step == 2 ? 1 - first : together ? first : 0.004;
        }
        // A code is photographed on coming to a place, hardly ever after the first fitting there.
        if (facts_.photos[photo].code) result *= together ? 0.01 / habits_.stray : code_share_ / (0.2 * habits_.stray);
        else if (!together) result *= 1 - code_share_;
        const auto like = facts_.alike.find({photo - 1, photo});
        if (like != facts_.alike.end() && from_view == close_view && to_view == close_view)
            result *= step == 2 ? std::exp(std::clamp(like->second, -5.0, 5.0)) : 1;
        const auto &before = facts_.photos[photo - 1].time, &now = facts_.photos[photo].time;
        if (before && now) {
            const double gap = std::max(*now - *before, 0.0);
            if (step == 2 && from_view == close_view && to_view == close_view) result *= 2 * std::exp(-gap / 8) + 0.03;
            result *= together ? std::exp(-gap / habits_.pace) + 0.02 : 1 - std::exp(-gap / 15) + 0.05;
        }
        if (together && from_view == far_view && to_view == close_view) {
            const auto score = facts_.inside.find({photo, photo - 1});
            if (score != facts_.inside.end()) result *= std::exp(std::clamp(score->second, -3.0, 5.0));
        }
        return result;
    }

    using Factors = std::array<double, 3 * views * views>;
    Factors factors(std::size_t photo) const {
        Factors result{};
        for (std::size_t step = 0; step < 3; ++step)
            for (std::size_t a = 0; a < views; ++a)
                for (std::size_t b = 0; b < views; ++b)
                    result[(step * views + a) * views + b] = factor(photo, step, a, b);
        return result;
    }

    // That the next photo is of any one state, whatever went before. Who has a code for each place may take the places
    // in another order than they are written in.
    double anywhere(std::size_t photo) const {
        constexpr double other_order = 0.1;
        if (facts_.photos[photo].code) return other_order / static_cast<double>(begin_.size());
        return habits_.jump / static_cast<double>(visits_ * views);
    }

    template <class Each>
    void for_steps(std::size_t from, const Each& each) const {
        const auto first = static_cast<std::size_t>(std::max<int>(0, static_cast<int>(from) - window_back));
        const std::size_t last = std::min(visits_, from + window + 1);
        for (std::size_t to = first; to < last; ++to) each(to);
    }

    double stored(std::size_t from, std::size_t a, std::size_t to, std::size_t b) {
        const auto d = static_cast<std::size_t>(static_cast<int>(to) - static_cast<int>(from) + window_back);
        constexpr std::size_t width = window + window_back + 1;
        if (table_.empty()) {
            table_.assign(visits_ * views * width * views, 0);
            for (std::size_t v = 0; v < visits_; ++v)
                for_steps(v, [&](std::size_t w) {
                    for (std::size_t x = 0; x < views; ++x)
                        for (std::size_t y = 0; y < views; ++y)
                            table_[((v * views + x) * width +
                                    static_cast<std::size_t>(static_cast<int>(w) - static_cast<int>(v) + window_back)) *
                                       views +
                                   y] = base(v, x, w, y);
                });
        }
        return table_[((from * views + a) * width + d) * views + b];
    }

    std::vector<double> first() {
        std::vector<double> result(visits_ * views, 1e-4);
        for (std::size_t v = 0; v < std::min<std::size_t>(visits_, 3 * window); ++v) {
            const double near = std::pow(0.525, static_cast<double>(v));
            result[v * views + far_view] += near;
            result[v * views + close_view] += 0.3 * near;
            result[v * views + stray_view] += v == 0 ? 0.5 : 0.02;
        }
        return result;
    }

    std::vector<double> step(const std::vector<double>& before, std::size_t photo) {
        const Factors by = factors(photo);
        std::vector<double> result(visits_ * views, anywhere(photo));
        for (std::size_t from = 0; from < visits_; ++from)
            for (std::size_t a = 0; a < views; ++a) {
                const double mass = before[from * views + a];
                if (mass < 1e-14) continue;
                for_steps(from, [&](std::size_t to) {
                    const auto step = static_cast<std::size_t>(same_[from * visits_ + to]);
                    for (std::size_t b = 0; b < views; ++b)
                        result[to * views + b] += mass * stored(from, a, to, b) * by[(step * views + a) * views + b];
                });
            }
        return result;
    }

    // States that are out of the question anyway are left alone.
    std::vector<double> step_back(const std::vector<double>& after, std::size_t photo,
                                  const std::vector<double>& before) {
        const Factors by = factors(photo);
        std::vector<double> weighed(visits_ * views);
        double all = 0;
        for (std::size_t s = 0; s < weighed.size(); ++s) all += weighed[s] = after[s] * emissions_[photo][s];
        std::vector<double> result(visits_ * views, anywhere(photo) * all);
        double most = 0;
        for (std::size_t from = 0; from < visits_; ++from)
            for (std::size_t a = 0; a < views; ++a) {
                double& sum = result[from * views + a];
                if (before[from * views + a] < 1e-12) continue;
                for_steps(from, [&](std::size_t to) {
                    const auto step = static_cast<std::size_t>(same_[from * visits_ + to]);
                    for (std::size_t b = 0; b < views; ++b)
                        sum += weighed[to * views + b] * stored(from, a, to, b) * by[(step * views + a) * views + b];
                });
                most = std::max(most, sum);
            }
        for (double& one : result) one /= most;
        return result;
    }

    std::vector<char> same_places() const {
        std::vector<char> same(visits_ * visits_);
        for (std::size_t a = 0; a < visits_; ++a)
            for (std::size_t b = 0; b < visits_; ++b)
                same[a * visits_ + b] = static_cast<char>(a == b ? 2 : same_place(a, b) ? 1 : 0);
        return same;
    }

    const Facts& facts_;
    const Habits& habits_;
    const std::vector<std::vector<double>>& bonus_;
    std::size_t visits_;
    std::vector<Expected> expected_;
    std::map<std::size_t, std::size_t> named_ = named_states();
    std::vector<char> same_ = same_places();
    double code_share_ = 0;
    std::vector<std::size_t> run_, begin_;
    std::vector<double> place_skipped_;
    std::vector<double> table_;
    std::vector<std::vector<double>> emissions_;
};

}  // namespace

std::size_t visit_of(std::size_t fitting, Way pass, std::size_t fittings) {
    return pass == Way::up ? fitting : 2 * fittings - 1 - fitting;
}

std::size_t fitting_of(std::size_t visit, std::size_t fittings) {
    return visit < fittings ? visit : 2 * fittings - 1 - visit;
}

Way pass_of(std::size_t visit, std::size_t fittings) { return visit < fittings ? Way::up : Way::down; }

Chain run_chain(const Facts& facts, const Habits& habits, const std::vector<std::vector<double>>& bonus) {
    if (facts.photos.empty() || facts.fittings.empty()) return {};
    return Model(facts, habits, bonus).run();
}

}  // namespace rigdeed::pairing
