#include <tuple>
#include <utility>

#include "drawing/palette.hpp"
#include "drawing/paths.hpp"
#include "drawing/schematic.hpp"

namespace rigdeed::drawing {
namespace {

using trade::Shows;

/// Draws into the ring round `at`: x to the right, y down, in points from its middle.
class Glyph {
 public:
    Glyph(Drawing& drawing, Point at) : drawing_(drawing), at_(at) {}

    using Points2 = std::vector<std::pair<double, double>>;

    Path path(const Points2& points) const {
        Path path;
        for (const auto& [x, y] : points) {
            const Point p{at_.x + Points{x}, at_.y + Points{y}};
            if (path.empty()) path.push_back(MoveTo{p});
            else path.push_back(LineTo{p});
        }
        return path;
    }

    /// White beneath, so that it stands out from the fitting.
    void strokes(const std::vector<Points2>& lines, double width = 1.4, std::vector<Points> dash = {}) {
        for (const Points2& one : lines) add(path(one), width + 1.4, white, {});
        for (const Points2& one : lines) add(path(one), width, vermilion, dash);
    }
    void dot(double x, double y, double radius) {
        fill(circle({at_.x + Points{x}, at_.y + Points{y}}, Points{radius + 0.7}), white);
        fill(circle({at_.x + Points{x}, at_.y + Points{y}}, Points{radius}), vermilion);
    }
    void ring(double x, double y, double radius, std::vector<Points> dash = {}) {
        const Path round = circle({at_.x + Points{x}, at_.y + Points{y}}, Points{radius});
        fill(round, white);
        add(round, 1.1, vermilion, std::move(dash));
    }

 private:
    void fill(Path path, Colour colour) { drawing_.items.push_back(Shape{std::move(path), {}, colour, 1}); }
    void add(Path path, double width, Colour colour, std::vector<Points> dash) {
        drawing_.items.push_back(Shape{std::move(path), Stroke{Points{width}, colour, std::move(dash), true}, {}, 1});
    }
    Drawing& drawing_;
    Point at_;
};

}  // namespace

void add_sign_glyph(Drawing& drawing, Point at, Shows shows) {
    Glyph g(drawing, at);
    switch (shows) {
        case Shows::nothing: return;
        case Shows::crack: return g.strokes({{{-3.6, -3.6}, {-0.4, -2}, {-1.2, 0.6}, {3.6, 3.8}}});
        case Shows::crack_along: return g.strokes({{{-0.8, -5}, {1.2, -1.6}, {-1, 1.4}, {0.8, 5}}});
        case Shows::crack_across: return g.strokes({{{-5, 0.8}, {-1.6, -1.2}, {1.4, 1}, {5, -0.8}}});
        case Shows::broken:
            return g.strokes({{{-5.5, -2.6}, {-1.4, -1.4}, {-2.4, 0}, {-1.2, 1.4}},
                              {{5.5, 2.6}, {1.6, 1.4}, {2.4, 0}, {1.4, -1.4}}});
        case Shows::rust:
            for (const auto& [x, y, r] : {std::tuple(-2.4, -3.0, 1.5), {1.6, -2.2, 1.9}, {-0.6, 0.2, 1.2}})
                g.dot(x, y, r);
            return g.strokes({{{-2.4, -3}, {-2.4, 3.2}}, {{1.6, -2}, {1.6, 5.2}}}, 0.9);
        case Shows::corroded:
            for (const auto& [x, y, r] : {std::tuple(-3.2, -1.8, 1.3),
                                          {0.2, -3.4, 1.0},
                                          {3.0, -1.2, 1.4},
                                          {-1.4, 1.6, 1.6},
                                          {2.2, 2.8, 1.0},
                                          {-3.6, 3.6, 0.9}})
                g.dot(x, y, r);
            return;
        case Shows::pits:
            for (const auto& [x, y] :
                 {std::pair(-3.0, -2.4), {1.0, -3.4}, {3.2, 0.6}, {-0.8, 0.8}, {-3.4, 3.0}, {1.4, 4}})
                g.dot(x, y, 0.8);
            return;
        case Shows::blisters:
            for (const auto& [x, y, r] : {std::tuple(-2.8, -2.4, 2.0), {2.2, -1.6, 2.4}, {-0.6, 3.0, 1.8}})
                g.ring(x, y, r);
            return;
        case Shows::gone: return g.ring(0, 0, 5, {1.6_pt, 1.8_pt});
        case Shows::bent: return g.strokes({{{-0.5, -6}, {-0.5, -1}, {1.6, 2}, {4.6, 4.6}}}, 1.8);
        case Shows::dent: return g.strokes({{{-6, -2}, {-3, -2}, {-1.4, 1.8}, {1.4, 1.8}, {3, -2}, {6, -2}}});
        case Shows::worn:
            g.strokes({{{-5.5, -2}, {-3.4, -1.6}, {-1.6, 1.4}, {1.6, 1.4}, {3.4, -1.6}, {5.5, -2}}});
            return g.strokes({{{-2.4, 4}, {2.4, 4}}}, 0.9);
        case Shows::chafed:
            return g.strokes({{{-5, 3.4}, {-2.2, -3.4}}, {{-1.8, 3.4}, {1, -3.4}}, {{1.4, 3.4}, {4.2, -3.4}}}, 1.1);
        case Shows::loose:
            return g.strokes(
                {{{-6, 0}, {6, 0}}, {{-3.6, -2.4}, {-6, 0}, {-3.6, 2.4}}, {{3.6, -2.4}, {6, 0}, {3.6, 2.4}}}, 1.2);
        case Shows::dead: return g.strokes({{{-4, -4}, {4, 4}}, {{-4, 4}, {4, -4}}}, 1.6);
        case Shows::reversed:
            return g.strokes({{{-2.6, 4.6}, {-2.6, -4.6}},
                              {{-4.6, -2.4}, {-2.6, -4.8}, {-0.6, -2.4}},
                              {{2.6, -4.6}, {2.6, 4.6}},
                              {{0.6, 2.4}, {2.6, 4.8}, {4.6, 2.4}}},
                             1.1);
        case Shows::slipped:
            return g.strokes({{{-4, -5}, {4, -5}}, {{0, -3.4}, {0, 5}}, {{-2.4, 2.4}, {0, 5}, {2.4, 2.4}}}, 1.2);
        case Shows::foreign:
            return g.strokes(
                {{{-5, 1}, {4.6, -2.6}}, {{-4.4, -2}, {5, 2}}, {{-3.6, 3.6}, {3, -4}}, {{-1.6, -4.4}, {2.4, 4.2}}},
                1.0);
        case Shows::leak:
            return g.strokes({{{0, -5}, {-2.8, 0.4}, {-2, 3.4}, {0, 4.4}, {2, 3.4}, {2.8, 0.4}, {0, -5}}}, 1.2);
        case Shows::hidden: return g.strokes({{{-5, 1}, {1, -5}}, {{-4.4, 4.4}, {4.4, -4.4}}, {{-1, 5}, {5, -1}}}, 0.8);
    }
}

}  // namespace rigdeed::drawing
