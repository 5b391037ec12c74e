#include "drawing/mark_places.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rigdeed::drawing {
namespace {

class Placer {
 public:
    Placer(const std::vector<ElevationSpot>& spots, const MarkField& field) : spots_(spots), field_(field) {}

    std::vector<Point> run() const {
        std::vector<Point> shapes(spots_.size());
        std::vector<std::size_t> placed;
        for (std::size_t i = 0; i < spots_.size(); ++i) {
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
        constexpr std::size_t many = 40;
        for (int round = 0; round < 2 && spots_.size() <= many; ++round)
            for (std::size_t i = 0; i < spots_.size(); ++i) again(i);
        uncross(shapes);
        for (int round = 0; round < 12 && spots_.size() <= many; ++round) {
            bool moved = false;
            for (std::size_t i = 0; i < spots_.size(); ++i)
                if (in_the_way(i, shapes)) again(i), moved = true;
            if (!moved) break;
        }
        uncross(shapes);
        return shapes;
    }

 private:
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
        return on_words(shapes[i]);
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
                double cost = reach * 1.2 + crowding(here, at, i, shapes, placed);
                if (spots_[i].out != 0 && (here.x - at.x).value * spots_[i].out < 4) cost += 120;
                if (cost < least) least = cost, best = here;
            }
        return best;
    }

    double crowding(Point here, Point at, std::size_t i, const std::vector<Point>& shapes,
                    const std::vector<std::size_t>& placed) const {
        double cost = 0;
        const double clear = field_.size.value * 1.35;
        for (const Segment2& one : field_.lines) {
            const double d = distance(here, one);
            if (d < clear) cost += 40 + (clear - d) * 6;
        }
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

}  // namespace rigdeed::drawing
