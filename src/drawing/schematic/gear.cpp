#include "drawing/schematic/parts.hpp"

namespace rigdeed::drawing {
namespace {

/// Unit: the rope's diameter.
void halyard(Pen& p) {
    p.margins(-4.8, 4.8);
    p.ring(0, 2.6, 2.4);
    p.inner_ring(0, 2.6, 0.6);
    p.open(Outline().move(-2.4, 2.6).line(-2.4, 16));
    p.open(Outline().move(-1.4, 2.6).line(-1.4, 16));
    p.edge(Outline().move(1.4, 2.6).line(2.4, 2.6).line(2.4, 9).line(1.4, 9).close());
    for (double y = 3.4; y < 9; y += 0.8) p.fine(Outline().move(1.4, y + 0.5).line(2.4, y));
    p.edge(Outline().move(1.2, 9).line(2.6, 9).line(2.8, 12.6).line(1, 12.6).close());
    for (double y = 9.6; y < 12.4; y += 0.7) p.fine(Outline().move(1.1, y).line(2.7, y + 0.4));
    p.ring(1.9, 13.8, 1.2);
    p.inner_ring(1.9, 13.8, 0.75);
    p.edge(Outline().move(1.3, 14.4).line(2.5, 14.4).line(2.7, 17).arc(1.9, 17, 0.8, 0, 180).close());
    p.box(0.9, 15, 2.9, 15.6);
    p.label("sheave", {-1.2, 0.6}, Side::left, 0.4);
    p.label("line", {2.4, 5.6}, Side::right);
    p.label("splice", {2.7, 10.8}, Side::right);
    p.label("eye", {3.1, 13.6}, Side::right, 13.4);
    p.label("shackle", {2.6, 16.6}, Side::right, 16.4);
    p.label("fall", {-2.4, 11}, Side::left);
}

/// Unit: a quarter of the tube's height.
void boom(Pen& p) {
    p.margins(-6.6, 7);
    p.mast(-6, -4, 0.4, 15, true, true);
    p.box(-4, 5.4, -3, 9.4);
    p.edge(Outline().move(-3, 5.6).line(5.6, 5).line(5.6, 8.6).line(-3, 9.2).close());
    p.fine(Outline().move(-3, 6.4).line(5.6, 5.9));
    p.box(5.6, 4.8, 6.4, 8.8);
    p.box(0.2, 8.9, 1.4, 10);
    p.open(Outline().move(0.8, 10).line(-4, 13.6));
    p.open(Outline().move(1.2, 10).line(-3.8, 14));
    p.inner_ring(0.8, 9.5, 0.25);
    p.inner_ring(-3.5, 7.4, 0.35);
    p.label("mast", {-5, 2}, Side::right, 1.6);
    p.label("gooseneck", {-3.4, 5.6}, Side::left, 4);
    p.label("boom-tube", {2.6, 5.4}, Side::right, 3.4);
    p.label("boom-end", {6, 8.4}, Side::right, 7.4);
    p.label("fastenings", {0.6, 9.2}, Side::right, 12.2);
    p.label("vang", {-1.6, 12}, Side::right, 15.8);
}

/// Unit: the plate's thickness, twice.
void knee(Pen& p) {
    p.margins(-5.6, 5.6);
    p.box(-0.45, 0.6, 0.45, 14.6);
    p.inner_ring(0, 1.5, 0.3);
    p.cut_box(-5, 4, -0.45, 5.2);
    p.cut_box(0.45, 4, 4.4, 5.2);
    p.box(-1.6, 3.5, 1.6, 4);
    p.cut_box(0.45, 5.2, 3.4, 16);
    for (const double y : {7.2, 9.6, 12.0}) {
        p.box(-1.1, y, -0.45, y + 0.9);
        p.hidden_box(-0.45, y + 0.2, 3.4, y + 0.7);
        p.box(3.4, y, 4.1, y + 0.9);
    }
    p.edge(Outline().move(3.4, 14.6).line(5, 16).line(3.4, 16).close());
    p.open(Outline().move(-0.25, 14.6).line(-0.25, 17.6));
    p.open(Outline().move(0.25, 14.6).line(0.25, 17.6));
    p.label("plate", {-0.45, 2.4}, Side::left);
    p.label("cover", {1.6, 3.7}, Side::right, 2.6);
    p.label("deck", {-4, 4.6}, Side::left, 6.6);
    p.label("bulkhead", {2.6, 6}, Side::right, 5.8);
    p.label("nut", {4.1, 10}, Side::right);
    p.label("through-bolts", {-1.1, 12.4}, Side::left);
    p.label("bonding", {4.4, 15.6}, Side::right, 14.4);
    p.label("tie-rod", {-0.25, 16.6}, Side::left);
}

/// Unit: a quarter of the mast's width.
void tabernacle(Pen& p) {
    p.margins(-5.4, 5.4);
    p.mast(-2, 2, 0, 12.6, true, false);
    p.edge(Outline().move(-3, 4.4).line(-2.1, 4.4).line(-2.1, 15).line(-3, 15).close());
    p.edge(Outline().move(2.1, 4.4).line(3, 4.4).line(3, 15).line(2.1, 15).close());
    p.box(-3.6, 6.6, 3.6, 7.4);
    p.box(-4.2, 6.2, -3.6, 7.8);
    p.box(3.6, 6.4, 4, 7.6);
    p.box(-4.4, 15, 4.4, 15.8);
    p.cut_box(-5, 15.8, 5, 17.4);
    p.hidden_box(-3.9, 15, -3.5, 17.2);
    p.hidden_box(3.5, 15, 3.9, 17.2);
    p.label("mast", {-2, 1.6}, Side::left);
    p.label("pivot-pin", {-4.2, 7}, Side::left);
    p.label("keeper", {4, 7.2}, Side::right);
    p.label("cheek", {3, 10.6}, Side::right);
    p.label("heel", {-1.6, 12.6}, Side::left, 12);
    p.label("weld", {3, 15}, Side::right, 13.8);
    p.label("deck", {-4.6, 16.6}, Side::left, 15.4);
    p.label("bolt", {3.9, 16.4}, Side::right, 16.6);
}

/// Unit: the diameter of the wire.
void stemball(Pen& p) {
    p.margins(-4.4, 4.4);
    p.axis(0, -1, 20);
    p.cut_box(-3.6, 0.4, -1.9, 6.4);
    p.edge(Outline().move(-1.9, 1).line(-0.2, 2.4).line(-0.2, 5.2).line(-1.9, 5.2).close());
    p.ring(0, 3.4, 1.5);
    p.edge(Outline()
               .move(-0.5, 4.8)
               .line(0.5, 4.8)
               .line(0.5, 8.4)
               .line(0.85, 9.4)
               .line(-0.85, 9.4)
               .line(-0.5, 8.4)
               .close());
    p.box(-0.85, 9.4, 0.85, 14.4);
    p.strand(0, 14.4, 19, 1, false, true);
    p.label("mast-wall", {-2.8, 1.4}, Side::left);
    p.label("ball-cup", {-1.4, 5}, Side::left, 6.8);
    p.label("ball", {1.4, 3}, Side::right);
    p.label("neck", {0.5, 6.6}, Side::right);
    p.label("barrel", {0.85, 12}, Side::right);
    p.label("mouth", {0.5, 14.5}, Side::right, 15);
}

/// Unit: a third of the rail's width.
void rail(Pen& p) {
    p.margins(-5.4, 5.4);
    p.mast(-3.2, -0.6, 0, 18, true, true);
    p.shade(Outline().move(-0.6, 0.8).line(0.4, 0.8).line(0.4, 8.6).line(-0.6, 8.6).close());
    p.shade(Outline().move(-0.6, 8.8).line(0.4, 8.8).line(0.4, 17.2).line(-0.6, 17.2).close());
    for (const double y : {2.4, 6.4, 11.0, 15.2}) {
        p.box(-1.6, y, 0.7, y + 0.5);
        p.box(0.4, y - 0.3, 0.8, y + 0.8);
    }
    p.edge(Outline().move(-0.2, 3.6).line(2.2, 3.6).line(2.2, 5.4).line(-0.2, 5.4).close());
    p.ring(2.9, 4.5, 0.7);
    p.open(Outline().move(3.6, 4).curve({4.4, 8}, {4.2, 12}, {4, 17}));
    p.label("mast-wall", {-3.2, 4}, Side::left);
    p.label("rail-length", {0.4, 10}, Side::right, 9.4);
    p.label("joint", {0.2, 8.7}, Side::left, 8.2);
    p.label("screws", {-1.6, 11.2}, Side::left);
    p.label("slide", {2.2, 5}, Side::right, 2.6);
    p.label("fastenings", {0.8, 15.4}, Side::right, 14.6);
}

}  // namespace

const std::vector<SchematicRow>& gear_schematics() {
    static const std::vector<SchematicRow> rows{
        {"halyard", 6.2_pt, 66_pt, 18.4, halyard}, {"boom", 4.4_pt, 67_pt, 16.4, boom},
        {"knee", 5.4_pt, 70_pt, 18, knee},         {"tabernacle", 5.4_pt, 70_pt, 17.8, tabernacle},
        {"stemball", 6_pt, 70_pt, 19.4, stemball}, {"rail", 5.6_pt, 70_pt, 18.4, rail},
    };
    return rows;
}

}  // namespace rigdeed::drawing
