#include <cmath>
#include <numbers>

#include "drawing/schematic/parts.hpp"

namespace rigdeed::drawing {
namespace {

/// The section of 1x19 strand: what is hidden is hatched.
void section(Pen& p, double y, double wire) {
    for (int i = 0; i < 12; ++i) {
        const double angle = (i + 0.5) * std::numbers::pi / 6;
        p.ring(3.864 * wire * std::sin(angle), y - 3.864 * wire * std::cos(angle), wire);
    }
    for (int i = 0; i < 6; ++i) {
        const double angle = (i + 0.5) * std::numbers::pi / 3;
        p.cut_ring(2 * wire * std::sin(angle), y - 2 * wire * std::cos(angle), wire);
    }
    p.cut_ring(0, y, wire);
}

/// Unit of all: the stay's diameter is 2.
void strand(Pen& p) {
    p.margins(-5, 5);
    p.axis(0, -1, 14.5);
    p.strand(0, 0, 13, 2, true, true);
    section(p, 18, 0.58);
    p.label("lay", {1, 5}, Side::right);
    p.label("wire", {-1, 8.4}, Side::left);
    p.label("outer-wires", {2.2, 17.6}, Side::right);
    p.label("hidden-wires", {-0.9, 18.6}, Side::left, 19);
}

/// Of strands round another; how many wires each has is not drawn.
void wire_rope(Pen& p) {
    p.margins(-5, 5);
    p.axis(0, -1, 14.5);
    p.strand(0, 0, 13, 2, true, true);
    constexpr double radius = 0.9;  // the section is drawn larger than the rope, as of strand
    for (int i = 0; i < 6; ++i) {
        const double angle = i * std::numbers::pi / 3;
        p.ring(2 * radius * std::sin(angle), 18 - 2 * radius * std::cos(angle), radius);
    }
    p.cut_ring(0, 18, radius);
    p.label("lay", {1, 5}, Side::right);
    p.label("wire", {-1, 8.4}, Side::left);
    p.label("rope-strands", {2.1, 17.4}, Side::right);
    p.label("rope-core", {-0.3, 18.3}, Side::left, 19);
}

/// Under its service nobody sees how it is laid up.
void served_wire(Pen& p) {
    p.margins(-5, 5);
    p.axis(0, -1, 14.5);
    p.strand(0, 0, 13, 2, true, true);
    p.label("lay", {1, 5}, Side::right);
    p.label("wire", {-1, 8.4}, Side::left);
}

void rod(Pen& p) {
    p.margins(-5, 5);
    p.axis(0, -1, 14.5);
    p.mast(-1, 1, 0, 13);
    p.fine(Outline().move(-0.4, 0.2).line(-0.4, 12.8));
    p.axis(0, 14.8, 21.2);
    p.cut_ring(0, 18, 2);
    p.label("rod", {1, 6}, Side::right);
    p.label("solid", {1.8, 17.4}, Side::right);
    p.spot("neck", {0, 1});
}

void textile(Pen& p) {
    p.margins(-5, 5);
    p.edge(Outline().move(-1.5, 0).line(-1.5, 9.4).curve({-0.6, 10.2}, {0.6, 10.2}, {1.5, 9.4}).line(1.5, 0));
    p.inner(Outline().move(-1.5, 0).curve({-0.4, -0.6}, {0.4, 0.6}, {1.5, 0}));
    for (double y = 0.3; y < 9.4; y += 0.8) {
        p.fine(Outline().move(-1.5, y + 0.9).line(1.5, y));
        p.fine(Outline().move(-1.5, y).line(1.5, y + 0.9));
    }
    p.edge(Outline()
               .move(-1.1, 9.7)
               .line(-1.1, 13.4)
               .line(-0.7, 12.8)
               .line(-0.3, 13.6)
               .line(0.1, 12.8)
               .line(0.5, 13.6)
               .line(0.8, 12.8)
               .line(1.1, 13.4)
               .line(1.1, 9.7));
    for (const double x : {-0.6, -0.2, 0.2, 0.6}) p.fine(Outline().move(x, 10).line(x, 12.8));
    p.ring(0, 18, 2.2);
    p.ring(0, 18, 1.8);
    for (int i = 0; i < 6; ++i)
        p.inner_ring(1.1 * std::cos(i * std::numbers::pi / 3), 18 + 1.1 * std::sin(i * std::numbers::pi / 3), 0.5);
    p.inner_ring(0, 18, 0.5);
    p.label("cover", {1.5, 4.4}, Side::right);
    p.label("fibres", {1.1, 11.4}, Side::right);
    p.label("cover-section", {2, 17.2}, Side::right);
    p.label("fibres-section", {-0.6, 18.2}, Side::left);
}

void insulator(Pen& p) {
    p.margins(-4.4, 4.4);
    p.axis(0, -1, 21);
    p.strand(0, 0, 3, 1.1);
    p.edge(Outline().move(-0.9, 3).line(0.9, 3).line(0.9, 6).line(-0.9, 6).close());
    p.edge(Outline().move(-1.1, 6).line(1.1, 6).line(1.1, 14).line(-1.1, 14).close());
    for (const double y : {7.4, 10.0, 12.6})
        p.edge(Outline().arc(-1.5, y, 0.55, 90, 270).arc(1.5, y, 0.55, -90, 90).close());
    p.edge(Outline().move(-0.9, 14).line(0.9, 14).line(0.9, 17).line(-0.9, 17).close());
    p.strand(0, 17, 20, 1.1, false, true);
    p.inner_ring(0, 19, 0.9);
    p.inner(Outline().move(0.9, 19).curve({2.4, 19}, {2.6, 17}, {3.2, 16}));
    p.label("mouth", {0.6, 3.05}, Side::right, 2.4);
    p.label("terminal", {0.9, 5}, Side::right);
    p.label("insulating-body", {2, 10}, Side::right);
    p.label("antenna-clip", {-0.9, 19}, Side::left);
}

void furler_foil(Pen& p) {
    p.margins(-4.4, 4.4);
    p.axis(0, -1, 21);
    p.mast(-1.3, 1.3, 0, 19.5);
    p.hidden(Outline().move(-0.45, 0).line(-0.45, 19.5));
    p.hidden(Outline().move(0.45, 0).line(0.45, 19.5));
    p.fine(Outline().move(-0.9, 0.2).line(-0.9, 19.3));
    p.fine(Outline().move(0.9, 0.2).line(0.9, 19.3));
    p.inner(Outline().move(-1.3, 9.6).line(1.3, 9.6));
    p.inner(Outline().move(-1.3, 9.9).line(1.3, 9.9));
    for (const double y : {7.4, 8.6, 10.9, 12.1}) p.dot(0, y, 0.22);
    p.edge(Outline().move(1.3, 15).line(2.6, 15.6).line(2.6, 17.4).line(1.3, 18).close());
    p.label("stay-inside", {-0.45, 3}, Side::left);
    p.label("foil", {1.3, 4.6}, Side::right);
    p.label("joint", {1.3, 9.75}, Side::right);
    p.label("screws", {0, 12.1}, Side::left, 12.6);
    p.label("feeder", {2.6, 16.6}, Side::right);
}

void stay_cover(Pen& p) {
    p.margins(-4.4, 4.4);
    p.axis(0, -1, 21);
    p.strand(0, 0, 3, 1.1);
    p.edge(Outline().move(-1, 3.4).line(-0.7, 2.8).line(0.7, 2.8).line(1, 3.4).line(1, 15).line(-1, 15).close());
    p.hidden(Outline().move(-0.55, 3).line(-0.55, 15));
    p.hidden(Outline().move(0.55, 3).line(0.55, 15));
    p.fine(Outline().move(0.3, 3).line(0.3, 15));
    p.inner(Outline().move(-1, 12.4).curve({-0.4, 12.1}, {0.4, 12.7}, {1, 12.4}));
    p.strand(0, 15, 17, 1.1, false, false);
    p.box(-1, 17, 1, 20);
    p.label("strand", {0.55, 1.4}, Side::right);
    p.label("cover", {1, 7}, Side::right);
    p.label("slit", {0.3, 10}, Side::right, 10.2);
    p.label("water-stands", {-0.8, 13.4}, Side::left);
    p.label("terminal", {1, 18.4}, Side::right);
}

void flag_halyard(Pen& p) {
    p.margins(-4.6, 4.6);
    p.edge(Outline().move(-4, 0.6).line(3.6, 0).line(3.6, 1.4).line(-4, 2).close());
    p.box(-0.25, 1.7, 0.25, 2.6);
    p.edge(Outline().move(-0.9, 2.6).line(0.9, 2.6).arc(0, 4, 1.3, -30, 210).close());
    p.inner_ring(0, 4, 0.5);
    p.open(Outline().move(-0.9, 4).curve({-1.1, 9}, {-0.9, 14}, {-0.7, 18}));
    p.open(Outline().move(0.9, 4).curve({1.1, 9}, {0.9, 14}, {0.7, 18}));
    p.edge(Outline().move(0.95, 7).line(4, 8).curve({3.4, 9}, {4.4, 9.4}, {3.8, 10.4}).line(1, 9.6).close());
    p.edge(Outline().move(-1.6, 18).line(1.6, 18).line(0.9, 18.8).line(-0.9, 18.8).close());
    p.label("spreader", {-2.6, 1.8}, Side::left, 3);
    p.label("flag-block", {-0.9, 4.2}, Side::left, 5.6);
    p.label("line", {-0.95, 11}, Side::left);
    p.label("flag", {3.6, 8.6}, Side::right);
    p.label("cleat", {1.2, 18.3}, Side::right, 17);
}

}  // namespace

const std::vector<SchematicRow>& stay_schematics() {
    static const std::vector<SchematicRow> rows{
        {"strand", 6.2_pt, 70_pt, 20.8, strand},
        {"wire-rope", 6.2_pt, 70_pt, 20.8, wire_rope},
        {"served-wire", 6.2_pt, 70_pt, 14.6, served_wire},
        {"rod", 6.2_pt, 70_pt, 20.8, rod},
        {"textile", 6.2_pt, 70_pt, 20.8, textile},
        {"insulator", 6.6_pt, 70_pt, 20.4, insulator},
        {"furler-foil", 6.6_pt, 70_pt, 20, furler_foil},
        {"stay-cover", 6.6_pt, 70_pt, 20.4, stay_cover},
        {"flag-halyard", 6.4_pt, 66_pt, 19.4, flag_halyard},
    };
    return rows;
}

}  // namespace rigdeed::drawing
