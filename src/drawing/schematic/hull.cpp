#include "drawing/schematic/parts.hpp"

namespace rigdeed::drawing {
namespace {

/// Unit: a tenth of the mast's fore-and-aft width.
void mast_step(Pen& p) {
    p.margins(-7, 7);
    p.axis(0, -1, 19);
    p.mast(-3, 3, 0, 11.4, true, false);
    p.hidden(Outline().move(-2.5, 0.4).line(-2.5, 11.4));
    p.hidden(Outline().move(2.5, 0.4).line(2.5, 11.4));
    p.edge(Outline().move(-3.2, 11.4).line(3.2, 11.4).line(3.8, 12.4).line(-3.8, 12.4).close());
    p.hidden_box(-2.4, 9.4, 2.4, 11.4);
    p.inner_ring(2.5, 10.7, 0.4);
    p.box(-5.8, 12.4, 5.8, 13.1);
    for (const double x : {-4.9, 4.9}) {
        p.box(x - 0.6, 11.7, x + 0.6, 12.4);
        p.hidden(Outline().move(x - 0.25, 13.1).line(x - 0.25, 15.4));
        p.hidden(Outline().move(x + 0.25, 13.1).line(x + 0.25, 15.4));
    }
    p.cut_box(-6.8, 13.1, 6.8, 14.6);
    p.hidden(Outline().move(-1.8, 14.6).line(-1.8, 18.6));
    p.hidden(Outline().move(1.8, 14.6).line(1.8, 18.6));
    p.label("mast", {3, 4}, Side::right);
    p.label("drain-hole", {2.9, 10.7}, Side::right, 9);
    p.label("heel", {-3.5, 11.9}, Side::left, 9.6);
    p.label("step-plate", {-5.5, 12.75}, Side::left, 11.4);
    p.label("deck", {6.4, 13.9}, Side::right, 12.6);
    p.label("post", {-1.8, 16.8}, Side::left);
}

void partners(Pen& p) {
    p.margins(-6.6, 6.6);
    p.axis(0, -1, 19);
    p.mast(-2.6, 2.6, 0, 18);
    p.cut_box(-6.4, 9, -3.6, 10.6);
    p.cut_box(3.6, 9, 6.4, 10.6);
    p.shade(Outline().move(-3.6, 7.6).line(-2.6, 7.6).line(-2.6, 11.8).line(-3.3, 11.8).close());
    p.shade(Outline().move(3.6, 7.6).line(2.6, 7.6).line(2.6, 11.8).line(3.3, 11.8).close());
    p.box(-5, 8, -3.6, 9);
    p.box(3.6, 8, 5, 9);
    p.edge(Outline().move(-2.6, 4.6).line(-4.8, 7.4).line(-4.8, 8).line(-3.6, 8).line(-2.6, 5.4).close());
    p.edge(Outline().move(2.6, 4.6).line(4.8, 7.4).line(4.8, 8).line(3.6, 8).line(2.6, 5.4).close());
    p.open(Outline().move(-5.4, 10.6).line(-5.4, 18));
    p.open(Outline().move(-5, 10.6).line(-5, 18));
    p.label("mast", {2.6, 2}, Side::right);
    p.label("coat", {4, 6.6}, Side::right, 5.4);
    p.label("collar", {5, 8.5}, Side::right, 8);
    p.label("wedges", {3.2, 11}, Side::right, 12.4);
    p.label("deck", {-6, 9.8}, Side::left, 8.4);
    p.label("tie-rod", {-5.4, 15}, Side::left);
    p.spot("mast-wall", {-2.6, 12.4});
}

/// Unit: the stanchion's radius.
void stanchion(Pen& p) {
    p.margins(-6.4, 6.4);
    p.axis(0, -1, 19);
    p.mast(-1, 1, 0, 11, true, false);
    p.box(-1.3, 10, 1.3, 14);
    p.inner_ring(0, 12, 0.4);
    p.edge(Outline().move(-1.5, 14).line(1.5, 14).line(1.9, 14.6).line(-1.9, 14.6).close());
    p.box(-3.6, 14.6, 3.6, 15.2);
    p.cut_box(-6, 15.2, 6, 17);
    for (const double x : {-2.7, 2.7}) {
        p.box(x - 0.5, 14, x + 0.5, 14.6);
        p.hidden(Outline().move(x - 0.25, 15.2).line(x - 0.25, 18.4));
        p.hidden(Outline().move(x + 0.25, 15.2).line(x + 0.25, 18.4));
    }
    p.box(-4.2, 17, 4.2, 17.7);
    p.open(Outline().move(-6, 2).line(6, 1.8));
    p.label("guardwire", {4, 1.85}, Side::right, 2.4);
    p.label("stanchion", {1, 6.4}, Side::right);
    p.label("socket", {-1.3, 11.4}, Side::left);
    p.label("weld", {1.7, 14.2}, Side::right, 12.4);
    p.label("base", {-3.4, 14.9}, Side::left, 13.6);
    p.label("deck", {5.6, 16.2}, Side::right, 15.2);
    p.label("backing-plate", {-3.8, 17.4}, Side::left);
}

/// Unit: the spar's radius.
void bowsprit(Pen& p) {
    p.margins(-7.6, 7.6);
    p.edge(Outline().move(7.4, 5).line(5.6, 12.4).curve({5, 14.4}, {4, 15.4}, {2.4, 16.6}));
    p.open(Outline().move(7.6, 5).line(1, 4.6));
    p.edge(Outline().move(-5.6, 2.6).line(7.6, 3).line(7.6, 5).line(-5.6, 4.2).close());
    p.shade(Outline().move(-6.2, 2.4).line(-5.2, 2.4).line(-5.2, 4.4).line(-6.2, 4.4).close());
    p.box(2.2, 2.5, 3.2, 5.1);
    p.ring(-5.7, 1.9, 0.55);
    p.ring(-5.7, 4.9, 0.55);
    p.open(Outline().move(-5.5, 1.5).line(-4.4, -1.6));
    p.open(Outline().move(-5.4, 5.3).line(3.2, 15.2));
    p.box(2.8, 14.8, 3.9, 15.8);
    p.label("forestay", {-4.7, -0.8}, Side::right, -1.7);
    p.label("cranse-iron", {-6.1, 2.8}, Side::left, 0.8);
    p.label("eye", {-5.9, 5.2}, Side::left, 6.6);
    p.label("spar", {-1.4, 2.75}, Side::right, 0);
    p.label("gammon", {2.7, 2.5}, Side::right, 1.7);
    p.label("bobstay", {-1.6, 9.7}, Side::left, 11);
    p.label("bobstay-fitting", {3.2, 15.4}, Side::left, 16);
    p.label("stem", {6, 10.6}, Side::right, 9);
    p.spot("heel", {7, 4});
}

}  // namespace

const std::vector<SchematicRow>& hull_schematics() {
    static const std::vector<SchematicRow> rows{
        {"mast-step", 4.7_pt, 70_pt, 18.8, mast_step},
        {"partners", 4.8_pt, 70_pt, 18.6, partners},
        {"stanchion", 5_pt, 70_pt, 19, stanchion},
        {"bowsprit", 4.4_pt, 70_pt, 17.8, bowsprit},
    };
    return rows;
}

}  // namespace rigdeed::drawing
