#include "drawing/schematic/parts.hpp"

namespace rigdeed::drawing {
namespace {

/// Unit: a tenth of the light's width.
void light(Pen& p) {
    p.margins(-7.4, 5);
    p.axis(0, -1, 18);
    p.edge(Outline()
               .move(-2.6, 8.2)
               .line(-2.6, 3)
               .curve({-2.6, 0.6}, {-1.2, 0}, {0, 0})
               .curve({1.2, 0}, {2.6, 0.6}, {2.6, 3})
               .line(2.6, 8.2)
               .close());
    for (double y = 3; y < 8; y += 0.95) p.fine(Outline().move(-2.6, y).line(2.6, y));
    p.hidden(Outline().move(-1, 6.4).line(-1, 4.4).arc(0, 4.4, 1, 180, 360).line(1, 6.4).close());
    p.hidden_box(-0.5, 6.4, 0.5, 8.2);
    p.box(-3.1, 8.2, 3.1, 8.9);
    p.box(-2.9, 8.9, 2.9, 11);
    p.box(-3.8, 11, 3.8, 12);
    p.mast(-2, 2, 12, 17.4, false, true);
    p.edge(Outline()
               .move(-2.9, 9.5)
               .line(-4.4, 9.5)
               .curve({-5.6, 9.5}, {-6, 10.4}, {-6, 11.6})
               .line(-6, 15)
               .curve({-6, 16.6}, {-4.2, 16.6}, {-4.2, 15.4})
               .line(-3.6, 15.4)
               .curve({-3.6, 17.4}, {-6.6, 17.4}, {-6.6, 15})
               .line(-6.6, 11.6)
               .curve({-6.6, 9.8}, {-5.8, 8.9}, {-4.4, 8.9})
               .line(-2.9, 8.9)
               .close());
    p.label("lens", {2.6, 2.6}, Side::right);
    p.label("lamp", {1, 5}, Side::right);
    p.label("contacts", {0.5, 7.4}, Side::right);
    p.label("seal", {3.1, 8.6}, Side::right, 9.6);
    p.label("gland", {-3.2, 9.2}, Side::left, 7.4);
    p.label("cable", {-6.3, 13}, Side::left, 12.6);
    p.label("drip-loop", {-5.2, 16.7}, Side::right, 16.4);
}

void wind_instrument(Pen& p) {
    p.margins(-6, 6);
    p.box(-0.4, 4.6, 0.4, 7);
    p.open(Outline().move(-4.4, 1.8).line(5, 1.8));
    p.solid(Outline().move(-6, 1.8).line(-4.2, 1.1).line(-4.2, 2.5).close(), {0, 0, 0});
    p.edge(Outline().move(3.6, 1.8).line(4.6, 0).line(8, 0).line(7, 1.8).line(8, 3.6).line(4.6, 3.6).close());
    p.open(Outline().move(0, 1.8).line(0, 4.6));
    p.ring(0, 1.8, 0.5);
    p.open(Outline().move(-2.8, 8.2).line(2.8, 8.2));
    p.ring(0, 8.2, 0.9);
    p.ring(-3.6, 8.2, 1.15);
    p.shade(Outline().arc(-3.6, 8.2, 0.8, 0, 360).close());
    p.ring(3.6, 8.2, 1.15);
    p.edge(Outline()
               .move(0.1, 9.1)
               .curve({0.6, 11}, {3.4, 11.4}, {3.4, 14})
               .line(4.2, 14)
               .curve({4.2, 11}, {1.6, 10.4}, {0.8, 8.8})
               .close());
    p.box(2.9, 14, 4.7, 14.9);
    p.mast(2, 5.6, 14.9, 17.4, false, true);
    p.label("weight", {-5, 1.8}, Side::left, 0);
    p.label("vane", {5.4, 2.8}, Side::right, 5.8);
    p.label("cups", {4.2, 9.2}, Side::right, 10);
    p.label("bearing", {-0.5, 8.9}, Side::left, 11);
    p.label("arm", {3.4, 12.6}, Side::left, 13);
    p.label("plug", {3, 14.5}, Side::left, 15.4);
}

void antenna(Pen& p) {
    p.margins(-4.4, 4.4);
    p.axis(0, -1, 19.6);
    p.mast(-0.22, 0.22, 0, 9, false, false);
    p.box(-0.5, 9, 0.5, 11);
    p.box(-0.8, 11, 0.8, 12.4);
    p.edge(Outline()
               .move(-2.8, 12.4)
               .line(1.6, 12.4)
               .line(1.6, 13.2)
               .line(-2, 13.2)
               .line(-2, 17.4)
               .line(-2.8, 17.4)
               .close());
    p.box(-0.55, 13.2, 0.55, 15);
    p.open(Outline().move(-0.3, 15).curve({-0.3, 17}, {0.4, 17}, {0.6, 18.6}));
    p.open(Outline().move(0.3, 15).curve({0.3, 16.6}, {1, 17}, {1.2, 18.6}));
    p.inner_ring(-2.4, 14.4, 0.26);
    p.inner_ring(-2.4, 16.4, 0.26);
    p.mast(-5, -2.8, 11.6, 18.8, true, true);
    p.label("whip", {0.22, 3.4}, Side::right);
    p.label("base", {0.8, 11.6}, Side::right);
    p.label("bracket", {-2, 12.8}, Side::left, 10);
    p.label("plug", {0.55, 14}, Side::right);
    p.label("cable", {1, 17.4}, Side::right);
    p.spot("tip", {0, 0.4});
    p.spot("bond", {-2.4, 16.4});
}

}  // namespace

const std::vector<SchematicRow>& aloft_schematics() {
    static const std::vector<SchematicRow> rows{
        {"light", 5.6_pt, 72_pt, 18, light},
        {"wind-instrument", 5_pt, 66_pt, 17.8, wind_instrument},
        {"antenna", 6_pt, 70_pt, 19.2, antenna},
    };
    return rows;
}

}  // namespace rigdeed::drawing
