#include <algorithm>
#include <cmath>
#include <numbers>

#include "drawing/schematic/parts.hpp"

namespace rigdeed::drawing {
namespace {

/// How much farther up a point `x` outboard lies if the spreader rises as measured, not as `drawn` (a slope).
double lift(const Pen& p, double x, double drawn) {
    if (!p.facts().spreader_rise) return 0;
    const double rise = std::clamp(*p.facts().spreader_rise, -40.0, 40.0) * std::numbers::pi / 180;
    return x * (std::tan(rise) - drawn);
}

/// Unit: the spreader's thickness is 2.5.
void spreader_root(Pen& p) {
    const auto y = [&](double x, double at) { return at - lift(p, x + 0.1, 0.111); };
    p.margins(-5.6, 7);
    p.mast(-4.8, -0.8, 0, 18);
    p.axis(-2.8, -1, 19);
    p.solid(Outline().move(-0.8, 5).line(-0.55, 5).line(-0.55, 14.2).line(-0.8, 14.2).close(), {0x4D, 0x4D, 0x4D});
    p.edge(Outline()
               .move(-0.55, 5)
               .line(-0.1, 5)
               .line(-0.1, 7)
               .line(1.4, y(1.4, 7.2))
               .line(4.4, y(4.4, 6.7))
               .line(4.4, y(4.4, 10.6))
               .line(1.4, y(1.4, 11.2))
               .line(-0.1, 12)
               .line(-0.1, 14.2)
               .line(-0.55, 14.2)
               .close());
    p.hidden(Outline().move(-2, 5.8).line(-0.55, 5.8));
    p.hidden(Outline().move(-2, 13.4).line(-0.55, 13.4));
    p.edge(Outline().arc(-0.1, 5.8, 0.5, -90, 90).close());
    p.edge(Outline().arc(-0.1, 13.4, 0.5, -90, 90).close());
    p.edge(Outline().move(4.4, y(4.4, 7.5)).line(8, y(8, 7.1)).line(8, y(8, 9.5)).line(4.4, y(4.4, 9.9)).close());
    p.hidden(Outline().move(4.4, y(4.4, 7.5)).line(2.2, y(2.2, 7.8)).line(2.2, y(2.2, 10.2)).line(4.4, y(4.4, 9.9)));
    p.ring(3.2, y(3.2, 8.9), 0.62);
    p.inner_ring(3.2, y(3.2, 8.9), 0.3);
    p.label("mast", {-4.8, 3}, Side::left);
    p.label("bolt", {-1.4, 5.8}, Side::left, 6.6);
    p.label("isolator", {-0.7, 12.6}, Side::left, 14);
    p.label("bracket", {1.2, 7.2}, Side::right, 3);
    p.label("spreader", {6, y(6, 7.3)}, Side::right, 5.6);
    p.label("pin", {3.3, y(3.3, 9.2)}, Side::right, 12);
}

void spreader_tip(Pen& p) {
    p.margins(-5.4, 4.6);
    const auto leaning = [&](double x0, double y0, double x1, double y1) {
        p.edge(Outline().move(x0 - 0.5, y0).line(x0 + 0.5, y0).line(x1 + 0.5, y1).line(x1 - 0.5, y1).close());
        const double n = (y1 - y0) / 0.6;
        for (int i = 1; i < n; ++i) {
            const double t = i / n, u = (i - 0.7) / n;
            p.fine(Outline()
                       .move(x0 + (x1 - x0) * t - 0.5, y0 + (y1 - y0) * t)
                       .line(x0 + (x1 - x0) * u + 0.5, y0 + (y1 - y0) * u));
        }
    };
    leaning(0.2, 0, 2, 9.4);
    leaning(2, 9.4, 2.3, 18);
    const double low = lift(p, 7, 0.143);  // the tip stands where it stands; the root's side moves
    p.edge(Outline().move(-7, 9.4 + low).line(0, 8.4).line(0, 10.8).line(-7, 12 + low).close());
    p.inner(Outline().move(-7, 9.4 + low).curve({-6.6, 10.2 + low}, {-7.4, 11 + low}, {-7, 12 + low}));
    p.edge(Outline().move(0, 7.9).line(1.5, 7.8).line(1.6, 11.2).line(0, 11.3).close());
    for (int i = 0; i < 8; ++i) {
        p.inner(Outline().move(0.9 + i * 0.05, 5.6 + i * 0.27).line(2.3 + i * 0.05, 5.4 + i * 0.27));
        p.inner(Outline().move(1.4, 11.5 + i * 0.27).line(2.9, 11.3 + i * 0.27));
    }
    p.inner(Outline().move(1.2, 7.6).line(2.7, 11.4));
    p.inner(Outline().move(2.6, 7.6).line(1.4, 11.4));
    p.axis_line({2, 9.4}, {2, -0.6});
    p.view("a1", {2.9, 0.2});
    p.label("cap", {0.6, 7.9}, Side::left, 5.6);
    p.label("seizing", {2.5, 6.6}, Side::right);
    p.label("groove", {1.8, 9.5}, Side::right);
    p.label("spreader", {-3, 11.2 + low * 0.43}, Side::left, 14);
    p.label("shroud", {2.7, 15.6}, Side::right);
}

void spreader(Pen& p) {
    p.margins(-6.4, 6.4);
    const auto y = [&](double x, double at) { return at - lift(p, x, 0.184); };
    p.edge(Outline()
               .move(-7.6, y(-7.6, 9.2))
               .line(7.6, y(7.6, 6.4))
               .line(7.6, y(7.6, 8))
               .line(-7.6, y(-7.6, 11.8))
               .close());
    p.edge(Outline().move(-9, y(-9, 9)).line(-6.8, y(-6.8, 8.8)).line(-6.8, y(-6.8, 12)).line(-9, y(-9, 12.2)).close());
    p.edge(Outline().move(7.4, y(7.4, 5.8)).line(9, y(9, 5.6)).line(9, y(9, 8.4)).line(7.4, y(7.4, 8.6)).close());
    p.hidden_ring(-7.9, y(-7.9, 10.6), 0.5);
    p.fine(Outline().move(-6.4, y(-6.4, 10.4)).line(7.2, y(7.2, 7.2)));
    p.shade(Outline()
                .move(-2.4, 18)
                .curve({-2.4, 16.8}, {-1, 16.4}, {0, 16.4})
                .curve({1.4, 16.4}, {2.6, 17.2}, {2.6, 18})
                .curve({2.6, 18.8}, {1.4, 19.6}, {0, 19.6})
                .curve({-1, 19.6}, {-2.4, 19.2}, {-2.4, 18})
                .close());
    p.edge(Outline()
               .move(-1.9, 18)
               .curve({-1.9, 17.2}, {-0.8, 16.9}, {0, 16.9})
               .curve({1.2, 16.9}, {2.1, 17.5}, {2.1, 18})
               .curve({2.1, 18.5}, {1.2, 19.1}, {0, 19.1})
               .curve({-0.8, 19.1}, {-1.9, 18.8}, {-1.9, 18})
               .close());
    p.spot("root-end", {-7.8, y(-7.8, 9)});
    p.label("upper-face", {0, 7.8}, Side::right, 4.4);
    p.label("spreader-tube", {-1, 10.2}, Side::left, 13.6);
    p.spot("tip-end", {8.2, y(8.2, 8.5)});
    p.label("section", {2.3, 17.6}, Side::right);
}

/// Unit: half a sheave.
void masthead(Pen& p) {
    p.margins(-7.4, 7.4);
    p.axis(0, -2, 17);
    p.box(-0.6, -2.6, 0.6, -0.4);
    p.mast(-2.6, 2.6, 5, 16, false, true);
    p.box(-2.9, 4.2, 2.9, 5.2);
    p.edge(Outline().move(-5, 0).line(5, 0).line(5, 3).line(3, 4.2).line(-3, 4.2).line(-5, 3).close());
    for (const double x : {-2.8, 2.8}) {
        p.ring(x, 1.8, 1.6);
        p.ring(x, 1.8, 0.9);
        p.inner_ring(x, 1.8, 0.42);
    }
    p.edge(Outline().arc(-5.6, 1.2, 1, 60, 300).close());
    p.inner_ring(-5.7, 1.2, 0.42);
    p.edge(Outline().arc(5.6, 1.2, 1, -120, 120).close());
    p.inner_ring(5.7, 1.2, 0.42);
    p.open(Outline().move(-5.9, 1.6).line(-7.2, 7));
    p.open(Outline().move(5.9, 1.6).line(7.2, 7));
    p.open(Outline().move(-4.4, 2).line(-4.4, 11));
    p.open(Outline().move(4.4, 2).line(4.4, 11));
    p.hidden(Outline().move(-1.2, 2).line(-1.2, 14));
    p.hidden(Outline().move(1.2, 2).line(1.2, 14));
    p.label("light", {0.6, -1.6}, Side::right, -2);
    p.label("box", {-3, 0}, Side::left, -1.6);
    p.label("tang", {6, 0.6}, Side::right, 0.2);
    p.label("sheave", {-2.8, 3}, Side::left, 8.4);
    p.label("halyard", {4.4, 9}, Side::right);
    p.label("mast", {2.6, 13}, Side::right);
}

void sheave_box(Pen& p) {
    p.margins(-5, 5.6);
    p.mast(-4, 0.6, 0, 18);
    p.hidden(Outline().move(-2.6, 0.6).line(-2.6, 9));
    p.hidden(Outline().move(-2.1, 0.6).line(-2.1, 9));
    p.cut_box(0.2, 2.6, 1, 5.4);
    p.cut_box(0.2, 12.6, 1, 15.4);
    p.edge(
        Outline().move(-2.8, 5.4).line(1, 5.4).line(3.4, 7.2).line(3.4, 10.8).line(1, 12.6).line(-2.8, 12.6).close());
    p.ring(0.4, 9, 2.5);
    p.inner_ring(0.4, 9, 2);
    p.ring(0.4, 9, 0.62);
    p.box(-0.7, 8.8, 1.5, 9.2);
    p.edge(Outline().move(1.6, 11.2).line(2.4, 10.6).line(6.6, 15).line(5.8, 15.6).close());
    p.label("halyard", {-2.4, 2.6}, Side::left, 2);
    p.label("mast-wall", {0.8, 3.6}, Side::right, 3);
    p.label("box", {2.6, 6.6}, Side::right, 5.4);
    p.label("groove", {2.5, 8}, Side::right, 7.6);
    p.label("keeper", {1.3, 9}, Side::right, 10);
    p.label("sheave", {-1.4, 9.6}, Side::left, 11);
    p.label("pin", {0.4, 9.4}, Side::left, 14.4);
}

void halyard_exit(Pen& p) {
    p.margins(-4.8, 4.8);
    p.axis(0, -1, 19);
    p.mast(-3.4, 3.4, 0, 18);
    p.edge(Outline().arc(0, 6, 1.5, 180, 360).arc(0, 12, 1.5, 0, 180).close());
    p.shade(Outline().arc(0, 6.2, 0.85, 180, 360).arc(0, 11.8, 0.85, 0, 180).close());
    for (const double y : {5, 13}) p.inner_ring(0, y, 0.3);
    p.edge(Outline()
               .move(-0.5, 8)
               .curve({-0.5, 12}, {-1.6, 15}, {-1.8, 18})
               .line(-0.9, 18)
               .curve({-0.7, 15}, {0.4, 12}, {0.4, 8})
               .close());
    p.label("mast-wall", {3.4, 2.4}, Side::right);
    p.label("corner", {0.7, 5.9}, Side::right, 5);
    p.label("exit-plate", {1.5, 9}, Side::right);
    p.label("lower-edge", {-0.6, 12.5}, Side::left, 11.4);
    p.label("halyard", {-1.3, 15.6}, Side::left);
}

/// A length of the tube with an opening, what is fastened to it, and its section beneath.
void mast_wall(Pen& p) {
    p.margins(-4.8, 4.8);
    p.axis(0, -1, 13);
    p.mast(-3.4, 3.4, 0, 12);
    p.shade(Outline().arc(0, 3.4, 0.8, 180, 360).arc(0, 5.4, 0.8, 0, 180).close());
    p.edge(Outline().move(-1.1, 8.2).line(1.1, 8.2).line(1.1, 10.4).line(-1.1, 10.4).close());
    for (const double x : {-0.6, 0.6})
        for (const double y : {8.8, 9.8}) p.inner_ring(x, y, 0.25);
    p.shade(Outline().arc(0, 15.9, 2.5, 0, 360).close());
    p.edge(Outline().arc(0, 15.9, 2.1, 0, 360).close());
    p.label("mast-wall", {3.4, 1.6}, Side::right);
    p.label("corner", {0.7, 3}, Side::right, 4.2);
    p.label("fastenings", {0.6, 9.8}, Side::right);
    p.label("section", {2.3, 15.9}, Side::right);
}

void gooseneck(Pen& p) {
    p.margins(-5.6, 6.4);
    p.mast(-4.8, -1, 0, 18);
    p.axis(-2.9, -1, 19);
    p.edge(Outline().move(-1, 4.6).line(-0.4, 4.6).line(-0.4, 13.4).line(-1, 13.4).close());
    p.edge(Outline().move(-0.4, 6.4).line(2, 6.4).line(2, 7.6).line(-0.4, 7.6).close());
    p.edge(Outline().move(-0.4, 10.4).line(2, 10.4).line(2, 11.6).line(-0.4, 11.6).close());
    p.box(0.8, 7.6, 2.4, 10.4);
    p.box(1.2, 5.4, 1.9, 12.6);
    p.box(0.9, 4.9, 2.2, 5.4);
    p.inner(Outline().move(1.5, 12.6).line(1.1, 13.5));
    p.inner(Outline().move(1.5, 12.6).line(2, 13.5));
    p.ring(3.2, 9, 1.1);
    p.ring(3.2, 9, 0.42);
    p.edge(Outline()
               .move(3.6, 7)
               .line(8.4, 6.8)
               .line(8.4, 11.4)
               .line(3.6, 11.2)
               .line(3.6, 10)
               .arc(3.2, 9, 1.1, 60, -60)
               .close());
    for (const double y : {5.2, 12.8}) p.edge(Outline().arc(-0.4, y, 0.4, -90, 90).close());
    p.label("mast", {-4.8, 2.4}, Side::left);
    p.label("fastenings", {-0.2, 5.2}, Side::left, 6.6);
    p.label("bracket", {-0.7, 12}, Side::left, 14);
    p.label("pin", {1.6, 5.6}, Side::right, 3.4);
    p.label("boom-toggle", {3.2, 9}, Side::right, 13);
    p.label("boom", {6, 6.9}, Side::right, 5);
    p.label("split-pin", {1.8, 13.2}, Side::right, 15);
}

}  // namespace

const std::vector<SchematicRow>& mast_schematics() {
    static const std::vector<SchematicRow> rows{
        {"spreader-root", 5_pt, 66_pt, 18.6, spreader_root}, {"spreader-tip", 5.8_pt, 74_pt, 18.4, spreader_tip},
        {"spreader", 4.6_pt, 70_pt, 20, spreader},           {"masthead", 5_pt, 70_pt, 16.6, masthead},
        {"sheave-box", 5.6_pt, 64_pt, 18.6, sheave_box},     {"halyard-exit", 6.4_pt, 70_pt, 18.6, halyard_exit},
        {"mast-wall", 6.4_pt, 70_pt, 18.6, mast_wall},       {"gooseneck", 5_pt, 64_pt, 18.6, gooseneck},
    };
    return rows;
}

}  // namespace rigdeed::drawing
