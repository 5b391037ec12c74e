#pragma once

#include <numbers>
#include <string>
#include <vector>

#include "drawing/schematic.hpp"
#include "drawing/shape.hpp"

namespace rigdeed::drawing {

/// A place in a schematic in its own unit (the diameter of the wire, a pin or a tube, as the fitting wants it);
/// x from the axis, y down from the top.
struct Spot {
    double x = 0;
    double y = 0;
};

/// An outline built up piece by piece, in the schematic's unit.
class Outline {
 public:
    Outline& move(double x, double y);
    Outline& line(double x, double y);
    /// Round a centre from one angle to another, degrees clockwise from the right; begins with a line or a move.
    Outline& arc(double x, double y, double radius, double from, double to);
    Outline& curve(Spot control1, Spot control2, Spot to);
    Outline& close();

    struct Step {
        enum class Kind { move, line, curve, close } kind;
        Spot a, b, to;
    };
    [[nodiscard]] const std::vector<Step>& steps() const { return steps_; }

 private:
    std::vector<Step> steps_;
};

enum class Side { left, right };

[[nodiscard]] inline double radians(double degrees) { return degrees * std::numbers::pi / 180; }

/// Draws one schematic: strokes as drafting wants them, labels with leaders beside the body.
class Pen {
 public:
    /// `unit` points to a unit, the axis at `axis` from the left of a frame `width` wide.
    Pen(Points unit, Points width, Points axis, const SchematicWords& words, const SchematicFacts& facts);

    [[nodiscard]] const SchematicFacts& facts() const { return facts_; }

    void edge(const Outline& outline);               ///< visible edge on white
    void open(const Outline& outline);               ///< visible edge, not filled
    void inner(const Outline& outline);              ///< thinner edge inside a part
    void fine(const Outline& outline);               ///< lay, thread
    void hidden(const Outline& outline);             ///< dashed
    void axis(double x, double top, double bottom);  ///< upright
    void axis_line(Spot from, Spot to);
    void solid(const Outline& outline, Colour colour);  ///< filled, no edge
    void shade(const Outline& outline);                 ///< visible edge on light grey
    void box(double left, double top, double right, double bottom);
    void hidden_box(double left, double top, double right, double bottom);
    void cut_box(double left, double top, double right, double bottom);  ///< hatched: cut metal, wood, deck
    void ring(double x, double y, double radius);
    void inner_ring(double x, double y, double radius);
    void hidden_ring(double x, double y, double radius);
    void cut_ring(double x, double y, double radius);
    void dot(double x, double y, double radius);

    void strand(double x, double top, double bottom, double width, bool broken_top = true, bool broken_bottom = false);
    void thread(double x, double top, double bottom, double width);
    /// A tube or spar standing upright, cut off above and below.
    void mast(double left, double right, double top, double bottom, bool broken_top = true, bool broken_bottom = true);
    /// A clevis pin lying across: head left, split pin right; what is in the ears is dashed.
    void pin_across(double y, double half_width, double pin, double ear_inner);

    /// Words from the wording (key "schematic.label.KEY"), a leader from `spot`; the spot gets the key's name.
    void label(const char* key, Spot spot, Side side, double y);
    void label(const char* key, Spot spot, Side side) { label(key, spot, side, spot.y); }
    /// A spot without a label.
    void spot(const char* key, Spot at);
    /// A small grey remark under a view.
    void view(const char* key, Spot at, Anchor anchor = Anchor::middle);
    /// Where labels end on the left and begin on the right, in units from the axis.
    void margins(double left, double right) {
        left_ = left;
        right_ = right;
    }

    [[nodiscard]] Schematic take(double height);

 private:
    [[nodiscard]] Point place(Spot spot) const { return {axis_ + unit_ * spot.x, unit_ * spot.y}; }
    [[nodiscard]] Path path(const Outline& outline) const;
    void add(Path path, Points width, std::vector<Points> dash, std::optional<Colour> fill, Colour colour);

    Points unit_;
    Points axis_;
    const SchematicWords& words_;
    const SchematicFacts& facts_;
    double left_ = -4;
    double right_ = 4;
    Schematic result_;
};

}  // namespace rigdeed::drawing
