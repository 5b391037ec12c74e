#include "drawing/schematic/parts.hpp"

namespace rigdeed::drawing {
namespace {

/// A swage's barrel from its mouth at `top`, with the wire ending inside it.
void barrel(Pen& p, double top, double bottom, double wire_end) {
    p.strand(0, 0, top + 0.2, 1);
    p.edge(Outline()
               .move(-0.9, bottom)
               .line(-0.9, top + 0.3)
               .line(-0.7, top)
               .line(0.7, top)
               .line(0.9, top + 0.3)
               .line(0.9, bottom)
               .close());
    p.hidden(Outline().move(-0.5, top).line(-0.5, wire_end).line(0.5, wire_end).line(0.5, top));
}

/// Unit of all: the wire's diameter. Lower ends, mouth up.
void swaged_fork(Pen& p) {
    p.margins(-3.4, 3.4);
    p.axis(0, -1, 23.4);
    barrel(p, 5, 14, 12.8);
    draw_fork(p, 14, 0.9);
    p.label("strand", {0.5, 2.4}, Side::right, 2);
    p.label("mouth", {0.7, 5.05}, Side::right, 4.6);
    p.label("barrel", {0.9, 9.4}, Side::right);
    p.label("wire-end", {-0.5, 12.4}, Side::left);
    p.label("jaw", {2.2, 17.6}, Side::right);
    p.label("pin-head", {-2.7, 19.4}, Side::left, 18.2);
    p.label("split-pin", {2.9, 21.4}, Side::right, 22);
}

void eye_below(Pen& p, double top, double outer, double hole) {
    const double y = top + 2.2 + outer;
    p.edge(Outline()
               .move(-0.9, top)
               .line(0.9, top)
               .curve({0.9, top + 1.4}, {outer, y - outer * 0.8}, {outer, y})
               .arc(0, y, outer, 0, 180)
               .curve({-outer, y - outer * 0.8}, {-0.9, top + 1.4}, {-0.9, top})
               .close());
    p.ring(0, y, hole);
    p.inner_ring(0, y, hole + 0.18);
}

void swaged_eye(Pen& p) {
    p.margins(-3.4, 3.4);
    p.axis(0, -1, 22.4);
    barrel(p, 5, 14, 12.8);
    eye_below(p, 14, 2.45, 1.05);
    p.label("mouth", {0.7, 5.05}, Side::right, 4.6);
    p.label("barrel", {0.9, 9.4}, Side::right);
    p.label("wire-end", {-0.5, 12.4}, Side::left);
    p.label("neck", {-1.2, 15.2}, Side::left);
    p.label("pin-hole", {1.05, 18.6}, Side::right);
    p.label("eye", {-2.2, 19.6}, Side::left);
}

void swaged_stud(Pen& p) {
    p.margins(-3, 3);
    p.axis(0, -1, 24.5);
    barrel(p, 4.6, 13, 11.8);
    p.box(-0.75, 13, 0.75, 15);
    p.inner(Outline().move(-0.3, 13).line(-0.3, 15));
    p.inner(Outline().move(0.3, 13).line(0.3, 15));
    p.thread(0, 15, 23.2, 1.9);
    p.edge(Outline().move(-0.95, 23.2).line(0.95, 23.2).line(0.7, 23.7).line(-0.7, 23.7).close());
    p.label("mouth", {0.7, 4.65}, Side::right, 4.2);
    p.label("barrel", {0.9, 8.6}, Side::right);
    p.label("wire-end", {-0.5, 11.4}, Side::left);
    p.label("flats", {0.75, 14}, Side::right);
    p.label("first-thread", {-0.95, 15.4}, Side::left);
    p.label("thread", {0.95, 19}, Side::right);
}

void compression(Pen& p) {
    p.margins(-3.4, 3.4);
    p.axis(0, -1, 22.5);
    p.strand(0, 0, 5, 1);
    p.edge(Outline().move(-0.7, 4.8).line(0, 4.8).line(0, 12).line(-1.75, 12).line(-1.75, 9.8).close());
    p.shade(
        Outline().move(0.55, 4.8).line(0.8, 4.8).line(1.75, 9.8).line(1.75, 12).line(1.1, 12).line(1.1, 9.8).close());
    p.inner(Outline().move(0.1, 6.6).line(0.75, 9.8).line(0.1, 9.8).close());
    p.fine(Outline().move(0.35, 5).line(0.95, 9.8).line(0.95, 10.4).line(0.5, 10.7));
    p.fine(Outline().move(0.2, 5).line(0.82, 9.8).line(0.82, 10.2).line(0.45, 10.4));
    p.shade(Outline().move(0, 11).line(1.1, 11).line(1.1, 14.6).line(0, 14.6).close());
    p.edge(Outline().move(-1.1, 12).line(0, 12).line(0, 14.6).line(-1.1, 14.6).close());
    p.box(-1.9, 12.4, 1.9, 13.6);
    p.inner(Outline().move(-0.8, 12.4).line(-0.8, 13.6));
    p.inner(Outline().move(0.8, 12.4).line(0.8, 13.6));
    p.edge(Outline()
               .move(-1.1, 14.6)
               .line(1.1, 14.6)
               .curve({1.1, 15.6}, {2.35, 15.6}, {2.35, 17.8})
               .arc(0, 17.8, 2.35, 0, 180)
               .curve({-2.35, 15.6}, {-1.1, 15.6}, {-1.1, 14.6})
               .close());
    p.ring(0, 17.8, 1.05);
    p.label("mouth", {-0.6, 4.9}, Side::left, 4);
    p.label("cone", {0.5, 8.8}, Side::right, 7.6);
    p.label("wires-on-cone", {-0.05, 8}, Side::left, 7.2);
    p.label("sleeve", {1.6, 9.2}, Side::right, 10);
    p.label("lock-nut", {-1.9, 13}, Side::left);
    p.label("thread", {1.1, 14.1}, Side::right, 15);
    p.label("eye", {-2.1, 18.4}, Side::left);
    p.label("pin-hole", {1.05, 17.8}, Side::right);
}

void rod_head(Pen& p) {
    p.margins(-3.2, 3.2);
    p.axis(0, -1, 22);
    p.mast(-0.5, 0.5, 0, 9.4, true, false);
    p.cut_box(-1.9, 6.8, -0.62, 13);
    p.cut_box(0.62, 6.8, 1.9, 13);
    p.edge(Outline()
               .move(-0.5, 9)
               .line(0.5, 9)
               .curve({0.5, 9.8}, {1.05, 10}, {1.05, 10.8})
               .line(1.05, 11.4)
               .line(-1.05, 11.4)
               .line(-1.05, 10.8)
               .curve({-1.05, 10}, {-0.5, 9.8}, {-0.5, 9})
               .close());
    p.cut_box(-1.9, 13, -1.05, 15);
    p.cut_box(1.05, 13, 1.9, 15);
    p.thread(0, 12.6, 21, 2.1);
    p.label("rod", {0.5, 3}, Side::right);
    p.label("nose", {-1.9, 8.4}, Side::left);
    p.label("neck", {0.5, 9.1}, Side::right, 8.2);
    p.label("rod-head", {-0.4, 10.9}, Side::left, 11.4);
    p.label("seat", {0.9, 10.3}, Side::right, 11);
    p.label("thread", {1.05, 17.6}, Side::right);
}

void spliced_eye(Pen& p) {
    p.margins(-4.2, 4.2);
    p.axis(0, -1, 22.5);
    p.edge(Outline()
               .move(-0.8, 0)
               .line(-0.8, 7)
               .curve({-0.9, 10.6}, {-3.5, 12.4}, {-3.5, 16.6})
               .arc(0, 16.6, 3.5, 180, 0)
               .curve({3.5, 12.4}, {0.9, 10.6}, {0.8, 7})
               .line(0.8, 0));
    p.inner(Outline().move(-0.8, 0).curve({-0.2, -0.5}, {0.2, 0.5}, {0.8, 0}));
    for (double y = 0.8; y < 9; y += 0.9) {
        p.fine(Outline().move(-0.8, y + 0.8).line(0.8, y));
        p.fine(Outline().move(-0.8, y).line(0.8, y + 0.8));
    }
    p.hidden(Outline().move(-0.4, 8.6).line(-0.4, 3).line(0, 1.4).line(0.4, 3).line(0.4, 8.6));
    p.inner(Outline().move(-0.5, 4.6).line(0.5, 5.3).line(-0.5, 6).line(0.5, 6.7).line(-0.5, 7.4));
    p.shade(Outline()
                .move(0, 9.8)
                .curve({-1, 11.8}, {-2.75, 13.4}, {-2.75, 16.6})
                .arc(0, 16.6, 2.75, 180, 0)
                .curve({2.75, 13.4}, {1, 11.8}, {0, 9.8})
                .close());
    p.edge(Outline()
               .move(0, 12)
               .curve({-0.8, 13.4}, {-2, 14.6}, {-2, 16.6})
               .arc(0, 16.6, 2, 180, 0)
               .curve({2, 14.6}, {0.8, 13.4}, {0, 12})
               .close());
    p.label("tail", {0.2, 2.4}, Side::right);
    p.label("stitching", {0.4, 6}, Side::right);
    p.label("throat", {-1.1, 9}, Side::left);
    p.label("thimble", {2.4, 15.6}, Side::right);
    p.label("eye", {-3.2, 17.6}, Side::left);
}

void t_terminal(Pen& p) {
    p.margins(-6.2, 7.4);
    p.mast(-5.4, -0.2, 0, 18);
    p.box(-5, 3, -0.6, 12);
    for (const double x : {-4.5, -1.1})
        for (const double y : {3.6, 11.4}) p.inner_ring(x, y, 0.28);
    p.shade(Outline().move(-3.45, 10.2).line(-3.45, 5.4).arc(-2.8, 5.4, 0.65, 180, 360).line(-2.15, 10.2).close());
    p.hidden_box(-4.4, 8, -1.2, 9.2);
    p.edge(Outline().move(-3.5, 9.4).line(-2.1, 9.4).line(-2, 15).line(-3.6, 15).close());
    p.strand(-2.8, 15, 18, 0.9, false, false);
    p.cut_box(2.6, 0, 3.3, 4.8);
    p.cut_box(2.6, 10.2, 3.3, 18);
    p.cut_box(3.3, 3, 3.8, 4.8);
    p.cut_box(3.3, 10.2, 3.8, 12);
    p.edge(Outline()
               .move(1.2, 6.2)
               .curve({1.2, 4.8}, {2.6, 4.6}, {3.2, 5.4})
               .line(4.6, 8.6)
               .line(6.2, 14)
               .line(4.8, 14.4)
               .line(3.3, 9.6)
               .line(2.2, 8)
               .curve({1.4, 7.8}, {1.2, 7}, {1.2, 6.2})
               .close());
    p.open(Outline().move(5.1, 14.4).line(6.1, 17.6));
    p.open(Outline().move(5.9, 14.1).line(6.9, 17.2));
    p.label("backing-plate", {-4.6, 4.6}, Side::left, 4.2);
    p.label("slot", {-3.2, 6.6}, Side::left, 8.4);
    p.label("mast-wall", {-5.4, 14.6}, Side::left);
    p.label("t-head", {2.2, 5.4}, Side::right);
    p.label("neck", {4, 8.6}, Side::right);
    p.label("barrel", {5.6, 12}, Side::right);
    p.label("mouth", {5.4, 14.2}, Side::right, 15);
}

}  // namespace

const std::vector<SchematicRow>& terminal_schematics() {
    static const std::vector<SchematicRow> rows{
        {"swaged-fork", 6.8_pt, 70_pt, 23, swaged_fork},   {"swaged-eye", 7.2_pt, 70_pt, 21.8, swaged_eye},
        {"swaged-stud", 6.4_pt, 70_pt, 24.4, swaged_stud}, {"compression-terminal", 7.2_pt, 70_pt, 21.4, compression},
        {"rod-head", 7_pt, 70_pt, 21.6, rod_head},         {"spliced-eye", 6.6_pt, 70_pt, 21.6, spliced_eye},
        {"t-terminal", 5.2_pt, 67_pt, 18.6, t_terminal},
    };
    return rows;
}

}  // namespace rigdeed::drawing
