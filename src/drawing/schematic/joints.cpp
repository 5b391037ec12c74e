#include <algorithm>
#include <cmath>
#include <numbers>

#include "drawing/schematic/parts.hpp"

namespace rigdeed::drawing {
namespace {

/// Unit: the wire's diameter.
void toggle(Pen& p) {
    p.margins(-6.6, 7);
    p.axis(-3.2, -1, 16);
    p.edge(Outline()
               .move(-3.95, 0)
               .line(-2.45, 0)
               .line(-2.45, 5.4)
               .line(-1, 6.6)
               .line(-1, 13.6)
               .line(-2.2, 13.6)
               .line(-2.2, 9.2)
               .arc(-3.2, 9.2, 1, 0, -180)
               .line(-4.2, 13.6)
               .line(-5.4, 13.6)
               .line(-5.4, 6.6)
               .line(-3.95, 5.4)
               .close());
    p.hidden(Outline().move(-3.95, 1.6).line(-2.45, 1.6));
    p.hidden(Outline().move(-3.95, 3.6).line(-2.45, 3.6));
    p.box(-6, 10.9, -5.4, 12.9);
    p.hidden(Outline().move(-5.4, 11.2).line(-1, 11.2));
    p.hidden(Outline().move(-5.4, 12.6).line(-1, 12.6));
    p.box(-1, 11.2, -0.1, 12.6);
    p.inner_ring(-0.5, 10.7, 0.35);
    p.inner(Outline().move(-0.5, 12.6).line(-0.9, 13.6));
    p.inner(Outline().move(-0.5, 12.6).line(-0.1, 13.6));
    p.axis(4, -1, 16);
    p.edge(Outline()
               .arc(4, 2.6, 2.2, 150, 390)
               .line(5.2, 4.6)
               .line(5.2, 8)
               .arc(4, 11.9, 2.2, -50, 230)
               .line(2.8, 8)
               .line(2.8, 4.6)
               .close());
    p.ring(4, 2.6, 1);
    p.ring(4, 11.9, 1);
    p.inner_ring(4, 11.9, 0.72);
    p.label("eye", {-3.95, 2.6}, Side::left);
    p.label("jaw", {-5.4, 8.4}, Side::left);
    p.label("pin-head", {-5.8, 12}, Side::left, 14.4);
    p.label("pin-hole", {4.9, 2.6}, Side::right);
    p.label("corner", {5.2, 8}, Side::right, 7.6);
    p.label("pin", {4.6, 11.9}, Side::right);
    p.view("front", {-3.2, 17.4});
    p.view("side", {4, 17.4});
}

/// Unit: the bolt's radius.
void tang(Pen& p) {
    p.margins(-7.2, 7.8);
    p.mast(-5.6, 1, 0, 18);
    p.axis(-2.3, -1, 19);
    p.edge(Outline().arc(-2.3, 3.6, 1.8, 180, 360).line(-0.5, 14.4).arc(-2.3, 14.4, 1.8, 0, 180).close());
    p.ring(-2.3, 4, 1.05);
    p.inner_ring(-2.3, 4, 0.7);
    p.inner_ring(-2.3, 7.4, 0.4);
    p.inner_ring(-2.3, 9.6, 0.4);
    p.ring(-2.3, 14.2, 0.95);
    p.cut_box(4, 0, 4.8, 18);
    p.solid(Outline().move(4.8, 1.8).line(5, 1.8).line(5, 11.4).line(4.8, 11.4).close(), {0x4D, 0x4D, 0x4D});
    p.edge(Outline().move(5, 1.8).line(5.5, 1.8).line(5.5, 11.4).line(6.9, 16.2).line(6.4, 16.4).line(5, 11.4).close());
    p.box(5.5, 3.1, 6.4, 5);
    p.box(6.4, 3.4, 6.9, 4.7);
    p.label("bolt", {-3, 4}, Side::left);
    p.label("rivet", {-2.7, 7.4}, Side::left, 8.6);
    p.label("pin-hole", {-3.2, 14.2}, Side::left);
    p.label("nut", {6.9, 4}, Side::right);
    p.label("isolator", {4.9, 8}, Side::right, 7.6);
    p.label("bend", {5.5, 11.4}, Side::right);
    p.label("mast-wall", {4.6, 16.6}, Side::right, 17.2);
    p.view("front", {-2.3, 20});
    p.view("side", {5.2, 20});
}

/// Unit: the bolt's diameter.
void through_bolt(Pen& p) {
    p.margins(-8.4, 8.4);
    const auto wall = [&](double inset) {
        return Outline()
            .move(-5.4 + inset, 7.6)
            .curve({-5.4 + inset, 2.6}, {-3.4, inset}, {0, inset})
            .curve({3.4, inset}, {5.4 - inset, 2.6}, {5.4 - inset, 7.6})
            .curve({5.4 - inset, 12.6}, {3.4, 15.2 - inset}, {0, 15.2 - inset})
            .curve({-3.4, 15.2 - inset}, {-5.4 + inset, 12.6}, {-5.4 + inset, 7.6})
            .close();
    };
    p.shade(wall(0));
    p.edge(wall(0.7));
    p.axis(0, -1, 16.2);
    p.box(-4.7, 6.55, 4.7, 8.65);
    p.box(-6.6, 7.1, 6.6, 8.1);
    p.box(-6, 5, -5.4, 10.2);
    p.box(5.4, 5, 6, 10.2);
    p.box(-7, 6.6, -6, 8.6);
    p.box(6, 6.5, 7, 8.7);
    p.label("bolt", {-6.8, 7.6}, Side::left, 8.4);
    p.label("tang", {-5.7, 5.4}, Side::left, 4.4);
    p.label("tube", {-2, 8.5}, Side::left, 12);
    p.label("mast-wall", {4.2, 3}, Side::right, 2.4);
    p.label("nut", {6.6, 7}, Side::right, 6);
    p.label("isolator", {5.4, 9.8}, Side::right, 11);
    p.view("tube-bears", {0, 18});
}

/// Unit: the pin's diameter is 2.
void clevis_pin(Pen& p) {
    p.margins(-6, 6.4);
    p.axis(0, -1, 18.5);
    p.cut_box(-5, 2.4, 5, 4.6);
    p.cut_box(-5, 5, 4.2, 10.6);
    p.cut_box(-5, 11, 5, 13.2);
    p.box(-1, 2.2, 1, 17);
    p.box(-1.7, 1.5, 1.7, 2.3);
    p.box(-1.9, 13.2, 1.9, 13.7);
    p.inner_ring(-2, 15.2, 0.55);
    p.hidden(Outline().move(-1.4, 15.2).line(1, 15.2));
    p.inner(Outline().move(1, 15.1).line(3.2, 14.4));
    p.inner(Outline().move(1, 15.4).line(3.2, 16.1));
    if (p.facts().upside_down) {  // is turned over with all else, and so points up again
        p.open(Outline().move(-4, 17.2).line(-4, 19.6));
        p.solid(Outline().move(-4.4, 19.2).line(-4, 20.6).line(-3.6, 19.2).close(), {0, 0, 0});
        p.view("up", {-4.7, 18.8}, Anchor::right);
    } else {
        p.open(Outline().move(-4, 1).line(-4, -1.4));
        p.solid(Outline().move(-4.4, -1).line(-4, -2.4).line(-3.6, -1).close(), {0, 0, 0});
        p.view("up", {-4.7, -0.6}, Anchor::right);
    }
    p.label("pin-head", {1.5, 1.9}, Side::right, 1);
    p.label("ear", {4.6, 3.6}, Side::right);
    p.label("lug", {4, 7.8}, Side::right);
    p.label("shank", {-0.9, 8.8}, Side::left, 9.8);
    p.label("washer", {1.8, 13.4}, Side::right, 12.6);
    p.label("split-pin-hole", {-1, 15.2}, Side::left, 16.6);
    p.label("split-pin", {2.6, 15.9}, Side::right, 16.6);
}

/// Both legs from the pin's far side, half the angle to either side; one a little longer.
void measured_legs(Pen& p, double degrees) {
    const double half = std::min(degrees, 340.0) / 2;
    const auto leg = [&](double side, double length) {
        const double c = std::cos(radians(half)), s = side * std::sin(radians(half));
        const auto at = [&](double along, double across) {
            return Spot{along * s + across * c, 11.8 + along * c - across * s};
        };
        const Spot inner = at(0, 0), outer = at(0, side * 0.5), far = at(length, 0),
                   far_outer = at(length - 0.2, side * 0.8);
        p.edge(Outline()
                   .move(outer.x, outer.y)
                   .line(inner.x, inner.y)
                   .line(far.x, far.y)
                   .line(far_outer.x, far_outer.y)
                   .close());
    };
    leg(-1, 6.4);
    leg(1, 5.7);
    p.fine(Outline().arc(0, 11.8, 4.2, 90 - half, 90 + half));
}

/// Unit: the split pin's diameter is 1.
void split_pin(Pen& p) {
    p.margins(-6.2, 6.2);
    p.axis(0, -1, 19);
    p.ring(0, 1.4, 1.25);
    p.inner_ring(0, 1.4, 0.75);
    p.box(-0.5, 2.5, 0.5, 3.6);
    p.fine(Outline().move(0, 2.5).line(0, 3.6));
    p.ring(0, 7.6, 4.2);
    p.hidden(Outline().move(-0.5, 3.4).line(-0.5, 11.8));
    p.hidden(Outline().move(0.5, 3.4).line(0.5, 11.8));
    if (p.facts().leg_angle) measured_legs(p, *p.facts().leg_angle);
    else {
        p.edge(Outline().move(-0.5, 11.7).line(0, 11.8).line(-1.55, 18.5).line(-2.35, 18.3).close());
        p.edge(Outline().move(0.5, 11.7).line(0, 11.8).line(1.35, 17.8).line(2.15, 17.6).close());
        p.fine(Outline().arc(0, 11.8, 4.2, 75, 105));
    }
    if (p.facts().upside_down) {
        p.label("split-eye-below", {1.1, 1.4}, Side::right);
        p.spot("split-eye", {1.1, 1.4});
    } else {
        p.label("split-eye", {1.1, 1.4}, Side::right);
    }
    p.label("end-view", {3.6, 5.6}, Side::right, 5);
    p.label("leg-root", {-0.4, 11.8}, Side::left, 12.6);
    const double half = radians(p.facts().leg_angle.value_or(30) / 2);
    const auto on = [&](double side, double far) {
        return Spot{side * far * std::sin(half), 11.8 + far * std::cos(half)};
    };
    p.label("long-leg", p.facts().leg_angle ? on(-1, 5.4) : Spot{-1.9, 17.4}, Side::left);
    p.label("short-leg", p.facts().leg_angle ? on(1, 4.6) : Spot{1.6, 16.4}, Side::right);
    p.spot("legs", {0, 15.5});
}

/// Unit: the shackle's thickness is 1.4.
void shackle(Pen& p) {
    p.margins(-5.6, 5.6);
    p.axis(0, -1, 17);
    p.edge(Outline()
               .move(-2.6, 13)
               .line(-2.6, 6)
               .curve({-3.8, 5.2}, {-3.9, 0.6}, {0, 0.6})
               .curve({3.9, 0.6}, {3.8, 5.2}, {2.6, 6})
               .line(2.6, 13)
               .line(1.2, 13)
               .line(1.2, 6)
               .curve({2.2, 4.6}, {2, 2}, {0, 2})
               .curve({-2, 2}, {-2.2, 4.6}, {-1.2, 6})
               .line(-1.2, 13)
               .close());
    p.ring(-1.9, 13.2, 1.5);
    p.ring(1.9, 13.2, 1.5);
    p.box(-4, 12.5, 4, 13.9);
    p.ring(4.8, 13.2, 0.9);
    p.inner_ring(4.8, 13.2, 0.35);
    p.inner(Outline().move(4.8, 12.6).curve({5, 10}, {3.4, 9.6}, {2.6, 9.6}));
    p.label("crown", {-1.8, 1.6}, Side::left);
    p.label("bow", {2.5, 4}, Side::right);
    p.label("mousing", {3.8, 9.9}, Side::right, 8.8);
    p.label("ear", {-2.9, 12.6}, Side::left, 11);
    p.label("pin", {0, 13.8}, Side::left, 16);
    p.label("thread", {-3.8, 13.4}, Side::left, 13.9);
}

/// Unit: the rope's diameter is 1.4.
void soft_shackle(Pen& p) {
    p.margins(-5.6, 5.6);
    p.axis(0, -1, 17);
    p.edge(Outline()
               .move(-1.2, 12.6)
               .curve({-4.6, 9}, {-4.4, 0.6}, {0, 0.6})
               .curve({4.4, 0.6}, {4.6, 9}, {1.2, 12.6})
               .line(0.2, 11.6)
               .curve({3, 8.4}, {2.6, 2}, {0, 2})
               .curve({-2.6, 2}, {-3, 8.4}, {-0.2, 11.6})
               .close());
    p.ring(0, 14.2, 2);
    p.fine(Outline().move(-1.4, 13).curve({-0.4, 14.6}, {0.4, 14.6}, {1.4, 15.4}));
    p.fine(Outline().move(1.4, 13).curve({0.4, 14.6}, {-0.4, 14.6}, {-1.4, 15.4}));
    p.label("loop", {2.9, 5.6}, Side::right);
    p.label("eye", {-0.7, 12.1}, Side::left, 11);
    p.label("knot", {1.8, 14.8}, Side::right);
}

}  // namespace

const std::vector<SchematicRow>& joint_schematics() {
    static const std::vector<SchematicRow> rows{
        {"toggle", 5_pt, 70_pt, 18.2, toggle},
        {"tang", 5_pt, 70_pt, 20.6, tang},
        {"through-bolt", 4.4_pt, 70_pt, 18.8, through_bolt},
        {"clevis-pin", 5.6_pt, 70_pt, 18.2, clevis_pin},
        {"split-pin", 5.8_pt, 70_pt, 19.4, split_pin},
        {"shackle", 6_pt, 70_pt, 17.2, shackle},
        {"soft-shackle", 6_pt, 70_pt, 17.2, soft_shackle},
    };
    return rows;
}

}  // namespace rigdeed::drawing
