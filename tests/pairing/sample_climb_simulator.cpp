#include <algorithm>
#include <cmath>

#include "pairing/climb_simulator.hpp"

namespace rigdeed::sample {
namespace {

using pairing::View;

class Person {
 public:
    Person(const std::vector<int>& places, const Noise& noise, double anchors, double codes, unsigned seed)
        : noise_(noise), anchors_(anchors), codes_(codes), random_(seed) {
        std::size_t place = 0;
        for (const int count : places) {
            places_.emplace_back();
            for (int i = 0; i < count; ++i) {
                places_.back().push_back(climb_.facts.fittings.size());
                climb_.facts.fittings.push_back({place, {}, {}, false});
            }
            ++place;
        }
    }

    Climb go() {
        clock_ = 9 * 3600;
        std::vector<std::size_t> order(places_.size());
        for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
        if (noise_.place_out_of_turn && order.size() > 6)
            std::swap(order[order.size() / 3], order[order.size() / 3 + 2]);
        for (pairing::FittingFacts& fitting : climb_.facts.fittings)
            if (noise_.signs > 0 && chance(noise_.signs)) fitting.up.sign = fitting.down.sign = fitting.has_sign = true;
        shares_far_ = chance(0.5) ? noise_.shares_far + 0.25 : noise_.shares_far - 0.25;
        for (const std::size_t place : order) visit(place, Way::up);
        clock_ += 1200;
        std::reverse(order.begin(), order.end());
        for (const std::size_t place : order) visit(place, Way::down);
        look_alike();
        return std::move(climb_);
    }

 private:
    bool chance(double share) { return std::uniform_real_distribution<double>(0, 1)(random_) < share; }
    double normal(double mean, double spread) { return std::normal_distribution<double>(mean, spread)(random_); }
    void wait(double least, double mean) { clock_ += least + std::exponential_distribution<double>(1 / mean)(random_); }

    void visit(std::size_t place, Way pass) {
        wait(15, 35);
        const bool only_looked = pass == Way::down && chance(noise_.only_looked);
        std::vector<std::size_t> here = places_[place];
        if (pass == Way::down) std::reverse(here.begin(), here.end());
        for (std::size_t i = 0; i + 1 < here.size(); ++i)
            if (chance(noise_.swapped * (codes_ > 0 ? 0.2 : 1))) std::swap(here[i], here[i + 1]);
        if (!only_looked && chance(codes_)) {
            take({{}, here.front(), place, pass, View::other}, 0);
            climb_.facts.photos.back().code =
                pairing::CodeSeen{place, chance(0.8) ? std::optional(pass) : std::nullopt};
            wait(4, 5);
        }
        const bool shared = chance(shares_far_);
        bool far_taken = false;
        for (const std::size_t fitting : here) {
            wait(2, 12);
            pairing::Look& look =
                pass == Way::up ? climb_.facts.fittings[fitting].up : climb_.facts.fittings[fitting].down;
            if (chance(anchors_)) look.at = std::round((clock_ + normal(0, 15)) / 60) * 60;
            if (look.sign ? chance(0.01) : only_looked || chance(noise_.skips)) continue;
            const Truth far{shared ? here : std::vector{fitting}, fitting, place, pass, View::far};
            const Truth close{{fitting}, fitting, place, pass, View::close};
            const bool needs_far = !shared || !far_taken;
            if (needs_far && chance(noise_.close_first)) {
                take(close, 2);
                wait(3, 6);
                take(far, -2);
            } else {
                if (needs_far) {
                    take(far, -2);
                    wait(3, 6);
                }
                take(close, 2);
            }
            far_taken = true;
            while (chance(noise_.burst)) {
                wait(1, 3);
                take(close, 2);
            }
            if (chance(noise_.stray)) {
                wait(3, 10);
                take({{}, fitting, place, pass, View::other}, 0);
            }
        }
    }

    void take(const Truth& truth, double closeness) {
        pairing::PhotoFacts photo;
        if (!chance(noise_.no_time)) photo.time = clock_;
        photo.camera = chance(noise_.second_camera) ? 1 : 0;
        photo.closeness = closeness == 0 ? 0 : normal(closeness * 1.5, noise_.blurred_view);
        photo.sharpness = normal(1, 0.2);
        climb_.facts.photos.push_back(photo);
        climb_.truth.push_back(truth);
    }

    // What a measure says, that is spread round one value for what is true and round another for what is not.
    static double says(double measure, double if_true, double if_not, double spread) {
        const double a = (measure - if_true) / spread, b = (measure - if_not) / spread;
        return std::clamp((b * b - a * a) / 2, -6.0, 6.0);
    }

    double inside(bool is_true) { return says(normal(is_true ? 2 : -1, 1), 2, -1, 1); }
    double shot_twice(bool is_true) { return says(normal(is_true ? 2.5 : -2.5, 1.2), 2.5, -2.5, 1.2); }
    // Found in six of ten that show the same, and in one of a hundred others.
    double alike(bool is_true) {
        return std::min(says(normal(is_true ? 2.5 : 1.2, 0.8), 2.5, 1.2, 0.8) + std::log(60), 6.0);
    }

    // Pictures of one fitting on both passes look alike, more or less; some of others do too.
    void look_alike() {
        for (std::size_t i = 0; i < climb_.truth.size(); ++i)
            for (std::size_t j = i + 1; j < climb_.truth.size(); ++j) {
                const Truth &a = climb_.truth[i], &b = climb_.truth[j];
                if (a.view == View::other || b.view == View::other || a.pass == b.pass || a.view != b.view) continue;
                const bool same = a.fitting == b.fitting;
                if (same && chance(0.6)) climb_.facts.alike[{i, j}] = alike(true);
                else if (!same && chance(0.01)) climb_.facts.alike[{i, j}] = alike(false);
            }
        for (std::size_t i = 0; i + 1 < climb_.truth.size(); ++i) {
            const Truth &far = climb_.truth[i], &close = climb_.truth[i + 1];
            if (far.view == View::close && close.view == View::close)
                climb_.facts.alike[{i, i + 1}] = shot_twice(far.fitting == close.fitting);
            if (far.view != View::far || close.view != View::close) continue;
            const bool is_inside =
                std::find(far.fittings.begin(), far.fittings.end(), close.fitting) != far.fittings.end();
            climb_.facts.inside[{i + 1, i}] = inside(is_inside);
        }
    }

    Noise noise_;
    double anchors_, codes_, shares_far_ = 0.5, clock_ = 0;
    std::mt19937 random_;
    std::vector<std::vector<std::size_t>> places_;
    Climb climb_;
};

}  // namespace

Noise mild() {
    Noise noise;
    noise.skips = 0.01, noise.only_looked = 0.15, noise.close_first = 0, noise.burst = 0.03, noise.stray = 0.01;
    noise.swapped = 0, noise.blurred_view = 1;
    return noise;
}

Noise usual() { return {}; }

Noise rough() {
    Noise noise;
    noise.skips = 0.15, noise.only_looked = 0.4, noise.close_first = 0.1, noise.burst = 0.15, noise.stray = 0.06;
    noise.swapped = 0.08, noise.no_time = 0.15, noise.second_camera = 0.2, noise.blurred_view = 2;
    noise.place_out_of_turn = true;
    return noise;
}

Climb climb(const std::vector<int>& places, const Noise& noise, double anchors, double codes, unsigned seed) {
    return Person(places, noise, anchors, codes, seed).go();
}

}  // namespace rigdeed::sample
