#include "drawing/mark_places.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <numeric>

namespace rigdeed::drawing {
namespace {

class Placer {
 public:
    Placer(const std::vector<ElevationSpot>& spots, const MarkField& field) : spots_(spots), field_(field) {}

    /// In the order given; where that leaves one badly placed, in other orders too, and the best of all.
    std::vector<Point> run() const {
        std::vector<std::size_t> order(spots_.size());
        std::iota(order.begin(), order.end(), 0);
        std::vector<Point> best = in_order(order);
        double least = cost_of_all(best);
        const auto height = [&](std::size_t i) { return spots_[i].at.y.value; };
        const auto across = [&](std::size_t i) { return spots_[i].at.x.value; };
        const std::vector<std::function<double(std::size_t)>> orders{height, [&](std::size_t i) { return -height(i); },
                                                                     across, [&](std::size_t i) { return -across(i); }};
        for (const auto& key : orders) {
            if (least < bad || spots_.size() > many) break;
            std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
            std::vector<Point> shapes = in_order(order);
            const double cost = cost_of_all(shapes);
            if (cost < least) least = cost, best = std::move(shapes);
        }
        return best;
    }

 private:
    static constexpr std::size_t many = 40;
    static constexpr double bad = 1000;  ///< what it costs at least where something is wrong, in all

    double cost_of_all(const std::vector<Point>& shapes) const {
        double cost = 0;
        for (std::size_t i = 0; i < spots_.size(); ++i) {
            std::vector<std::size_t> others(spots_.size());
            std::iota(others.begin(), others.end(), 0);
            std::erase(others, i);
            const double one = cost_of(i, shapes[i], shapes, others);
            cost += one < bad ? one * 1e-3 : one;  // crowded is not wrong
        }
        return cost;
    }

    std::vector<Point> in_order(const std::vector<std::size_t>& order) const {
        std::vector<Point> shapes(spots_.size());
        std::vector<std::size_t> placed;
        for (const std::size_t i : order) {
            shapes[i] = best_place(i, shapes, placed);
            placed.push_back(i);
        }
        // Each again, all others being known; then leaders that cross change places, which makes both shorter; what is
        // still in another's way looks for a place once more.
        const auto again = [&](std::size_t i) {
            std::vector<std::size_t> others = placed;
            std::erase(others, i);
            shapes[i] = best_place(i, shapes, others);
        };
        for (int round = 0; round < 2 && spots_.size() <= many; ++round)
            for (const std::size_t i : order) again(i);
        uncross(shapes);
        for (int round = 0; round < 12 && spots_.size() <= many; ++round) {
            bool moved = exchange(shapes);
            for (const std::size_t i : order)
                if (in_the_way(i, shapes)) again(i), moved = true;
            if (!moved) break;
        }
        uncross(shapes);
        return shapes;
    }

    /// On another mark or its leader, or its own leader over another.
    bool in_the_way(std::size_t i, const std::vector<Point>& shapes) const {
        const Segment2 leader{spots_[i].at, shapes[i]};
        for (std::size_t k = 0; k < shapes.size(); ++k) {
            if (k == i) continue;
            const Segment2 other{spots_[k].at, shapes[k]};
            if (cross(leader, other)) return true;
            const double apart = std::hypot((shapes[i].x - shapes[k].x).value, (shapes[i].y - shapes[k].y).value);
            if (apart < field_.size.value * 2.2 || distance(shapes[k], leader) < field_.size.value * 1.2 ||
                distance(shapes[i], other) < field_.size.value * 1.2)
                return true;
        }
        return on_words(shapes[i]) || wrong_side(i, shapes[i]) || outside_view(i, shapes[i]);
    }

    bool wrong_side(std::size_t i, Point here) const {
        return spots_[i].out != 0 && (here.x - spots_[i].at.x).value * spots_[i].out < 4;
    }

    bool outside_view(std::size_t i, Point here) const {
        return !field_.views.empty() && (here.x < field_.views[i].first || here.x > field_.views[i].second);
    }

    /// What a place costs a mark by itself, and among the others that are placed.
    double cost_of(std::size_t i, Point here, const std::vector<Point>& shapes, const std::vector<std::size_t>& placed,
                   double limit = 1e18) const {
        const Point at = spots_[i].at;
        const double alone = std::hypot((here.x - at.x).value, (here.y - at.y).value) * 1.2 +
                             (wrong_side(i, here) ? 2000 : 0) + (outside_view(i, here) ? 2000 : 0);
        return alone >= limit ? alone : alone + crowding(here, at, i, shapes, placed, limit - alone);
    }

    /// Two marks change places where both together are better off; true where any did.
    bool exchange(std::vector<Point>& shapes) const {
        std::vector<std::size_t> all(spots_.size());
        std::iota(all.begin(), all.end(), 0);
        bool any = false;
        for (std::size_t i = 0; i < spots_.size(); ++i)
            for (std::size_t k = i + 1; k < spots_.size(); ++k) {
                std::vector<std::size_t> but_i = all, but_k = all;
                std::erase(but_i, i), std::erase(but_k, k);
                const auto both = [&] {
                    return cost_of(i, shapes[i], shapes, but_i) + cost_of(k, shapes[k], shapes, but_k);
                };
                const double before = both();
                if (before < 1000) continue;  // nothing wrong with either
                std::swap(shapes[i], shapes[k]);
                if (both() < before - 1) any = true;
                else std::swap(shapes[i], shapes[k]);
            }
        return any;
    }

    bool on_words(Point here) const {
        const Points reach = field_.size * 1.3;
        return std::any_of(field_.words.begin(), field_.words.end(), [&](const Box& box) {
            return here.x + reach > box.left() && here.x - reach < box.right() && here.y + reach > box.top() &&
                   here.y - reach < box.bottom();
        });
    }

    void uncross(std::vector<Point>& shapes) const {
        for (bool changed = true; changed;) {
            changed = false;
            for (std::size_t i = 0; i < shapes.size(); ++i)
                for (std::size_t k = i + 1; k < shapes.size(); ++k)
                    if (cross({spots_[i].at, shapes[i]}, {spots_[k].at, shapes[k]})) {
                        std::swap(shapes[i], shapes[k]);
                        changed = true;
                    }
        }
    }

    /// Tries rings round the spot; the least crowded place that is nearest wins.
    Point best_place(std::size_t i, const std::vector<Point>& shapes, const std::vector<std::size_t>& placed) const {
        const Point at = spots_[i].at;
        Point best = at;
        double least = 1e18;
        for (double reach = 17; reach < 220; reach += 5)
            for (int step = 0; step < 24; ++step) {
                if (reach * 1.2 > least) return best;  // no farther one is better
                const double angle = (step + (std::fmod(reach, 10) < 5 ? 0.5 : 0)) * std::numbers::pi / 12;
                const Point here{at.x + Points{reach * std::cos(angle)}, at.y + Points{reach * std::sin(angle)}};
                if (here.x < field_.frame.left() || here.x > field_.frame.right() || here.y < field_.frame.top() ||
                    here.y > field_.frame.bottom() || on_words(here))
                    continue;
                const double cost = cost_of(i, here, shapes, placed, least);
                if (cost < least) least = cost, best = here;
            }
        return best;
    }

    double crowding(Point here, Point at, std::size_t i, const std::vector<Point>& shapes,
                    const std::vector<std::size_t>& placed, double limit) const {
        double cost = 0;
        const double clear = field_.size.value * 1.35;
        const Segment2 leader{at, here};
        for (const std::size_t other : placed) {
            const double d = std::hypot((here.x - shapes[other].x).value, (here.y - shapes[other].y).value);
            if (d < clear * 2.05) cost += d < field_.size.value * 2.1 ? 9000 : 400 + (clear * 2.05 - d) * 20;
            const Segment2 theirs{spots_[other].at, shapes[other]};
            if (cross(leader, theirs)) cost += 6000;
            for (const double near : {distance(shapes[other], leader), distance(here, theirs)})
                if (near < clear) cost += near < field_.size.value * 1.2 ? 4000 : 200;
        }
        for (std::size_t k = 0; k < spots_.size(); ++k) {
            const Point spot = spots_[k].at;
            if (k != i && std::hypot((here.x - spot.x).value, (here.y - spot.y).value) < clear + 2) cost += 60;
        }
        if (cost >= limit) return cost;  // a dearer one is not looked at more closely
        for (const Segment2& one : field_.lines) {
            const double d = distance(here, one);
            if (d < clear) cost += 40 + (clear - d) * 6;
        }
        if (here.y > field_.frame.bottom() - field_.size) cost += 50;
        return cost;
    }

    const std::vector<ElevationSpot>& spots_;
    const MarkField& field_;
};

}  // namespace

std::vector<Point> places_of_marks(const std::vector<ElevationSpot>& spots, const MarkField& field) {
    return Placer(spots, field).run();
}

std::vector<Segment2> partings(const Segment2& leader, const std::vector<Segment2>& lines) {
    std::vector<Segment2> found;
    const Point from = leader.from;
    const double dx = (leader.to.x - from.x).value, dy = (leader.to.y - from.y).value, length = std::hypot(dx, dy);
    if (length < 1) return found;
    const auto at = [&](double share) { return Point{from.x + Points{dx * share}, from.y + Points{dy * share}}; };
    for (const Segment2& one : lines) {
        const double ex = (one.to.x - one.from.x).value, ey = (one.to.y - one.from.y).value;
        const double turn = dx * ey - dy * ex, sine = turn / (length * std::max(1e-9, std::hypot(ex, ey)));
        if (std::abs(sine) < 0.4) continue;
        const double ax = (one.from.x - from.x).value, ay = (one.from.y - from.y).value;
        const double t = (ax * ey - ay * ex) / turn, along = (ax * dy - ay * dx) / turn;
        if (along < 0 || along > 1 || t * length < 4 || t > 1) continue;
        const double half = 2.5 / length;
        const Segment2 parting{at(t - half), at(std::min(1.0, t + half))};
        const bool along_another = std::any_of(lines.begin(), lines.end(), [&](const Segment2& other) {
            return distance(parting.from, other) < 1.7 && distance(parting.to, other) < 1.7;
        });
        if (!along_another) found.push_back(parting);
    }
    return found;
}

}  // namespace rigdeed::drawing
