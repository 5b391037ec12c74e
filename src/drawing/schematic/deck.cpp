#include "drawing/schematic/parts.hpp"

namespace rigdeed::drawing {
namespace {

/// Unit: the pin hole's radius.
void chainplate(Pen& p) {
    p.margins(-7.2, 8.2);
    p.axis(-3, -1.5, 17);
    p.edge(Outline().move(-5.3, 8).line(-5.3, 2.3).arc(-3, 2.3, 2.3, 180, 360).line(-0.7, 8).close());
    p.ring(-3, 2.3, 1);
    p.axis(5, -1.5, 17);
    p.box(4.5, 0, 5.5, 8);
    p.hidden(Outline().move(4.5, 1.3).line(5.5, 1.3));
    p.hidden(Outline().move(4.5, 3.3).line(5.5, 3.3));
    p.box(-6.8, 8, 0.8, 8.7);
    p.box(3.3, 8, 6.7, 8.7);
    p.cut_box(-8, 8.7, 7.6, 10);
    p.hidden_box(-5.3, 10, -0.7, 16);
    p.hidden_ring(-3, 11.6, 0.8);
    p.hidden_ring(-3, 14.2, 0.8);
    p.hidden_box(4.5, 10, 5.5, 16);
    p.label("pin-hole", {-4, 2.3}, Side::left);
    p.label("cover", {-6.2, 8.35}, Side::left, 6.6);
    p.label("in-the-deck", {-5.3, 13}, Side::left);
    p.label("edge", {5.5, 4.5}, Side::right);
    p.label("deck", {7.2, 9.4}, Side::right);
    p.spot("plate", {-3, 6});
}

void screw_pins(Pen& p, double y) {
    p.inner_ring(-1.3, y, 0.42);
    p.hidden(Outline().move(-0.9, y).line(0.9, y));
    p.inner(Outline().move(0.9, y).line(1.7, y - 0.45));
    p.inner(Outline().move(0.9, y).line(1.7, y + 0.45));
}

/// Unit: the wire's diameter.
void turnbuckle_open(Pen& p) {
    p.margins(-3.6, 3.6);
    p.axis(0, -1, 25.5);
    p.thread(0, 0.3, 3.4, 1.64);
    p.edge(Outline().move(-1.5, 3.4).line(1.5, 3.4).line(2.35, 6.6).line(-2.35, 6.6).close());
    p.box(-2.35, 6.6, -1.5, 14.9);
    p.box(1.5, 6.6, 2.35, 14.9);
    p.edge(Outline().move(-2.35, 14.9).line(2.35, 14.9).line(1.5, 18.1).line(-1.5, 18.1).close());
    p.thread(0, 6.6, 7.9, 1.64);
    p.thread(0, 13.6, 14.9, 1.64);
    p.hidden(Outline().move(-0.82, 3.4).line(-0.82, 6.6));
    p.hidden(Outline().move(0.82, 3.4).line(0.82, 6.6));
    p.hidden(Outline().move(-0.82, 14.9).line(-0.82, 18.1));
    p.hidden(Outline().move(0.82, 14.9).line(0.82, 18.1));
    screw_pins(p, 7.25);
    screw_pins(p, 14.25);
    p.thread(0, 18.1, 19.2, 1.64);
    draw_fork(p, 19.2, 0.82);
    p.label("screw", {0.82, 1.7}, Side::right);
    p.label("split-pin", {-1.6, 7.25}, Side::left);
    p.label("thread", {-0.6, 7.9}, Side::left, 9.8);
    p.spot("upper-screw", {0, 7.4});
    p.spot("lower-screw", {0, 14.4});
    p.label("body", {2.35, 10.7}, Side::right);
    p.label("boss", {1.9, 16.6}, Side::right);
    p.label("fork", {1.5, 20.9}, Side::right);
    p.label("pin", {-2.4, 24.6}, Side::left, 22.4);
}

void turnbuckle_closed(Pen& p) {
    p.margins(-3.6, 3.6);
    p.axis(0, -1, 25.5);
    p.thread(0, 0.3, 3.4, 1.64);
    p.box(-1.5, 3.4, 1.5, 4.4);
    p.edge(Outline()
               .move(-1.2, 4.4)
               .line(1.2, 4.4)
               .line(1.55, 5)
               .line(1.55, 17)
               .line(1.2, 17.6)
               .line(-1.2, 17.6)
               .line(-1.55, 17)
               .line(-1.55, 5)
               .close());
    p.inner(Outline().move(-1.55, 9.8).line(1.55, 9.8));
    p.inner(Outline().move(-1.55, 12.2).line(1.55, 12.2));
    p.inner(Outline().move(-0.7, 9.8).line(-0.7, 12.2));
    p.inner(Outline().move(0.7, 9.8).line(0.7, 12.2));
    p.hidden_box(-0.82, 4.4, 0.82, 8.6);
    p.hidden_box(-0.82, 13.4, 0.82, 17.6);
    p.inner_ring(0, 7.6, 0.36);
    p.inner_ring(0, 14.4, 0.36);
    p.box(-1.5, 17.6, 1.5, 18.6);
    p.thread(0, 18.6, 19.2, 1.64);
    draw_fork(p, 19.2, 0.82);
    p.label("screw", {0.82, 1.7}, Side::right);
    p.label("lock-nut", {1.5, 3.9}, Side::right, 4.4);
    p.label("tube", {-1.55, 6}, Side::left);
    p.label("sight-hole", {0.36, 7.6}, Side::right, 7.2);
    p.label("flats", {1.55, 11}, Side::right);
    p.label("thread", {-0.82, 14.4}, Side::left);
    p.spot("upper-screw", {0, 7.6});
    p.spot("lower-screw", {0, 14.4});
    p.label("fork", {1.5, 20.9}, Side::right);
    p.label("pin", {-2.4, 24.6}, Side::left, 22.4);
}

/// Unit: the wire's diameter.
void deadeye(Pen& p) {
    p.margins(-4.4, 4.6);
    p.axis(0, -1, 22.5);
    p.edge(Outline()
               .move(-0.8, 0)
               .line(-0.8, 3.2)
               .curve({-0.8, 4.2}, {-3.4, 4.6}, {-3.4, 7.4})
               .arc(0, 7.4, 3.4, 180, 0)
               .curve({3.4, 4.6}, {0.8, 4.2}, {0.8, 3.2})
               .line(0.8, 0)
               .close());
    p.hidden(Outline().move(-0.35, 0.8).line(-0.35, 3).line(0, 3.7).line(0.35, 3).line(0.35, 0.8));
    p.ring(0, 7.4, 2.75);
    p.edge(Outline()
               .move(-0.8, 22)
               .line(-0.8, 20.4)
               .curve({-0.8, 19.6}, {-3.4, 19.4}, {-3.4, 16.7})
               .arc(0, 16.7, 3.4, 180, 360)
               .curve({3.4, 19.4}, {0.8, 19.6}, {0.8, 20.4})
               .line(0.8, 22)
               .close());
    p.ring(0, 16.7, 2.75);
    for (const double x : {-1.4, 0.0, 1.4}) {
        const double top = x == 0 ? 6.1 : 8.2, bottom = x == 0 ? 18 : 15.9;
        p.edge(Outline().arc(x, top, 0.62, 150, 390).close());
        p.edge(Outline().arc(x, bottom, 0.62, -30, 210).close());
        p.edge(Outline().move(x - 0.42, top).line(x - 0.42, bottom).line(x + 0.42, bottom).line(x + 0.42, top).close());
        p.fine(Outline().move(x, top).line(x, bottom));
    }
    p.edge(Outline().arc(-1.9, 11.2, 0.35, 90, 270).arc(1.9, 11.2, 0.35, -90, 90).close());
    p.edge(Outline().arc(-1.9, 12, 0.35, 90, 270).arc(1.9, 12, 0.35, -90, 90).close());
    p.label("splice", {0.8, 2}, Side::right);
    p.label("deadeye", {2.2, 7.4}, Side::right);
    p.label("half-hitch", {-2.2, 11.6}, Side::left);
    p.label("lashing", {1.8, 13.6}, Side::right);
    p.label("hole", {-1.4, 16}, Side::left);
    p.label("strap", {3.2, 17.6}, Side::right, 18.4);
}

/// Unit: the wire's diameter.
void furler_drum(Pen& p) {
    p.margins(-4.8, 5);
    p.axis(0, -1, 24);
    p.mast(-0.75, 0.75, 0, 5, true, false);
    p.fine(Outline().move(0, 0.3).line(0, 5));
    p.box(-1.3, 4.4, 1.3, 7.4);
    for (const double x : {-0.65, 0.65})
        for (const double y : {5.2, 6.5}) p.dot(x, y, 0.25);
    p.box(-1.0, 7.4, 1.0, 8.4);
    p.box(-4, 8.4, 4, 9);
    for (int i = 0; i < 6; ++i) {
        const double y = 9 + i * 0.75;
        p.edge(Outline().arc(-2.9, y + 0.37, 0.37, 90, 270).arc(2.9, y + 0.37, 0.37, -90, 90).close());
    }
    p.box(-4, 13.5, 4, 14.1);
    p.inner(Outline().move(3.2, 12.6).line(6, 12.9));
    p.inner(Outline().move(3.2, 13.2).line(6, 13.4));
    p.box(-1.5, 14.1, 1.5, 15.4);
    p.box(-1.9, 15.4, -1.1, 21.6);
    p.box(1.1, 15.4, 1.9, 21.6);
    p.hidden(Outline().move(-0.9, 23.4).line(-0.9, 18.2).line(0.9, 18.2).line(0.9, 23.4));
    p.pin_across(20.4, 1.9, 1.4, 1.1);
    p.label("foil", {0.75, 2}, Side::right);
    p.label("grub-screw", {0.65, 5.2}, Side::right, 5.4);
    p.label("torque-sleeve", {-1.3, 6}, Side::left);
    p.label("drum", {4, 8.7}, Side::right, 9.2);
    p.label("line", {-3.2, 11.6}, Side::left);
    p.label("bearing", {1.5, 14.8}, Side::right, 15.2);
    p.label("link-plate", {-1.9, 17}, Side::left);
    p.label("pin", {-2.4, 20.4}, Side::left, 21.2);
}

/// Unit: the wire's diameter.
void ram(Pen& p) {
    p.margins(-3.2, 3.2);
    p.axis(0, -1, 25);
    p.strand(0, 0, 2.4, 1);
    p.edge(Outline()
               .move(-0.9, 2.4)
               .line(0.9, 2.4)
               .line(0.9, 3.4)
               .line(1.5, 4.2)
               .line(1.5, 5.8)
               .line(-1.5, 5.8)
               .line(-1.5, 4.2)
               .line(-0.9, 3.4)
               .close());
    p.ring(0, 4.8, 0.6);
    p.box(-0.6, 5.8, 0.6, 10);
    p.box(-1.6, 10, 1.6, 11.2);
    p.box(-1.35, 11.2, 1.35, 19);
    p.hidden_box(-1.15, 14, 1.15, 14.8);
    p.hidden_box(-0.6, 11.2, 0.6, 14);
    p.box(-1.6, 19, 1.6, 20);
    p.edge(Outline().move(-1, 20).line(1, 20).arc(0, 22.2, 1.7, -54, 234).close());
    p.ring(0, 22.2, 0.8);
    p.label("strand", {0.5, 1}, Side::right);
    p.label("eye", {-1.5, 4.8}, Side::left);
    p.label("ram-rod", {0.6, 8}, Side::right);
    p.label("seal", {1.6, 10.6}, Side::right, 11);
    p.label("body", {-1.35, 16}, Side::left);
    p.label("pin-hole", {0.8, 22.2}, Side::right);
}

/// Unit: the wire's diameter.
void block(Pen& p) {
    p.margins(-4.2, 4.2);
    p.axis(0, -1, 20);
    p.strand(0, 0, 2, 0.9);
    p.edge(Outline().arc(0, 3.2, 1.4, 0, 360).close());
    p.ring(0, 3.2, 0.8);
    p.box(-0.7, 4.6, 0.7, 5.6);
    p.edge(Outline()
               .move(-1.2, 5.6)
               .line(1.2, 5.6)
               .curve({3.4, 7}, {3.6, 9}, {3.2, 11})
               .curve({2.6, 13.6}, {1.6, 14.2}, {0, 14.2})
               .curve({-1.6, 14.2}, {-2.6, 13.6}, {-3.2, 11})
               .curve({-3.6, 9}, {-3.4, 7}, {-1.2, 5.6})
               .close());
    p.hidden_ring(0, 10, 2.8);
    p.ring(0, 10, 0.7);
    p.open(Outline().move(-2.8, 10.6).line(-2.8, 19));
    p.open(Outline().move(-2.2, 11.6).line(-2.2, 19));
    p.open(Outline().move(2.8, 10.6).line(2.8, 19));
    p.open(Outline().move(2.2, 11.6).line(2.2, 19));
    p.label("shackle", {1.2, 3.2}, Side::right);
    p.label("swivel", {-0.7, 5.1}, Side::left);
    p.label("cheek", {3.2, 8}, Side::right);
    p.label("sheave", {0, 10}, Side::right, 10.4);
    p.label("line", {-2.8, 16.5}, Side::left);
}

/// Unit: the wire's diameter.
void yoke_plate(Pen& p) {
    p.margins(-4.4, 4.4);
    p.axis(0, -1, 18);
    p.strand(0, 0, 3.6, 1);
    p.box(-0.9, 3.2, 0.9, 7);
    p.edge(Outline()
               .move(-3.6, 13)
               .line(-1.2, 7)
               .arc(0, 6.6, 1.3, 200, 340)
               .line(3.6, 13)
               .arc(2.6, 13.4, 1.2, -20, 110)
               .line(-2.2, 14.5)
               .arc(-2.6, 13.4, 1.2, 70, 200)
               .close());
    p.ring(0, 7.4, 0.6);
    p.ring(-2.3, 13.1, 0.6);
    p.ring(2.3, 13.1, 0.6);
    p.open(Outline().move(-2.3, 13.7).line(-3.2, 18));
    p.open(Outline().move(2.3, 13.7).line(3.2, 18));
    p.label("strand", {0.5, 1.6}, Side::right);
    p.label("pin-hole", {0.6, 7.4}, Side::right);
    p.label("plate", {-1.2, 10}, Side::left);
    p.label("leg", {3, 16.6}, Side::right);
}

}  // namespace

void draw_fork(Pen& p, double top, double neck) {
    p.edge(Outline()
               .move(-neck, top)
               .line(neck, top)
               .line(neck + 0.2, top + 0.5)
               .curve({2.2, top + 1.2}, {2.2, top + 1.6}, {2.2, top + 2.4})
               .line(2.2, top + 6.6)
               .line(0.95, top + 6.6)
               .line(0.95, top + 3.4)
               .arc(0, top + 3.4, 0.95, 0, -180)
               .line(-0.95, top + 6.6)
               .line(-2.2, top + 6.6)
               .line(-2.2, top + 2.4)
               .curve({-2.2, top + 1.6}, {-2.2, top + 1.2}, {-neck - 0.2, top + 0.5})
               .close());
    p.pin_across(top + 5.4, 2.2, 1.6, 0.95);
}

const std::vector<SchematicRow>& deck_schematics() {
    static const std::vector<SchematicRow> rows{
        {"chainplate", 3.9_pt, 72_pt, 17, chainplate},
        {"turnbuckle-open", 6.1_pt, 70_pt, 27.4, turnbuckle_open},
        {"turnbuckle-closed", 6.1_pt, 70_pt, 27.4, turnbuckle_closed},
        {"deadeye", 6.4_pt, 66_pt, 22.5, deadeye},
        {"furler-drum", 6_pt, 66_pt, 24, furler_drum},
        {"ram", 6.2_pt, 70_pt, 24.4, ram},
        {"block", 6.4_pt, 70_pt, 19.6, block},
        {"yoke-plate", 7_pt, 70_pt, 18.4, yoke_plate},
    };
    return rows;
}

}  // namespace rigdeed::drawing
