#include "drawing/schematic/pen.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <sstream>

#include "drawing/palette.hpp"
#include "drawing/paths.hpp"

namespace rigdeed::drawing {
namespace {

constexpr Points visible_width{0.9}, inner_width{0.5}, fine_width{0.35};
const std::vector<Points> dashes{2.2_pt, 1.6_pt};
const std::vector<Points> axis_dashes{7_pt, 1.6_pt, 1.4_pt, 1.6_pt};
constexpr Points label_size{6.75};

}  // namespace

Outline& Outline::move(double x, double y) {
    steps_.push_back({Step::Kind::move, {}, {}, {x, y}});
    return *this;
}

Outline& Outline::line(double x, double y) {
    steps_.push_back({steps_.empty() ? Step::Kind::move : Step::Kind::line, {}, {}, {x, y}});
    return *this;
}

Outline& Outline::arc(double x, double y, double radius, double from, double to) {
    const auto on = [&](double angle) {
        return Spot{x + radius * std::cos(radians(angle)), y + radius * std::sin(radians(angle))};
    };
    const Spot start = on(from);
    line(start.x, start.y);
    const int pieces = std::max(1, static_cast<int>(std::ceil(std::abs(to - from) / 90 - 1e-9)));
    const double step = (to - from) / pieces;
    const double handle = 4.0 / 3 * std::tan(radians(step) / 4) * radius;
    for (int i = 0; i < pieces; ++i) {
        const double a = from + i * step, b = a + step;
        const Spot p = on(a), q = on(b);
        curve({p.x - handle * std::sin(radians(a)), p.y + handle * std::cos(radians(a))},
              {q.x + handle * std::sin(radians(b)), q.y - handle * std::cos(radians(b))}, q);
    }
    return *this;
}

Outline& Outline::curve(Spot control1, Spot control2, Spot to) {
    steps_.push_back({Step::Kind::curve, control1, control2, to});
    return *this;
}

Outline& Outline::close() {
    steps_.push_back({Step::Kind::close, {}, {}, {}});
    return *this;
}

Pen::Pen(Points unit, Points width, Points axis, const SchematicWords& words, const SchematicFacts& facts)
    : unit_(unit), axis_(axis), words_(words), facts_(facts) {
    result_.drawing.size = {width, {}};
}

Path Pen::path(const Outline& outline) const {
    Path path;
    for (const Outline::Step& step : outline.steps()) switch (step.kind) {
            case Outline::Step::Kind::move: path.push_back(MoveTo{place(step.to)}); break;
            case Outline::Step::Kind::line: path.push_back(LineTo{place(step.to)}); break;
            case Outline::Step::Kind::curve:
                path.push_back(CurveTo{place(step.a), place(step.b), place(step.to)});
                break;
            case Outline::Step::Kind::close: path.push_back(Close{}); break;
        }
    return path;
}

void Pen::add(Path path, Points width, std::vector<Points> dash, std::optional<Colour> fill, Colour colour) {
    result_.drawing.items.push_back(Shape{std::move(path), Stroke{width, colour, std::move(dash), true}, fill, 1});
}

void Pen::edge(const Outline& outline) { add(path(outline), visible_width, {}, white, black); }
void Pen::open(const Outline& outline) { add(path(outline), visible_width, {}, {}, black); }
void Pen::inner(const Outline& outline) { add(path(outline), inner_width, {}, {}, black); }
void Pen::fine(const Outline& outline) { add(path(outline), fine_width, {}, {}, black); }
void Pen::hidden(const Outline& outline) { add(path(outline), inner_width, dashes, {}, black); }
void Pen::shade(const Outline& outline) { add(path(outline), visible_width, {}, black_10, black); }

void Pen::axis(double x, double top, double bottom) { axis_line({x, top}, {x, bottom}); }

void Pen::axis_line(Spot from, Spot to) {
    add(drawing::line(place(from), place(to)), fine_width, axis_dashes, {}, black_62);
}

void Pen::solid(const Outline& outline, Colour colour) {
    result_.drawing.items.push_back(Shape{path(outline), {}, colour, 1});
}

void Pen::box(double left, double top, double right, double bottom) {
    edge(Outline().move(left, top).line(right, top).line(right, bottom).line(left, bottom).close());
}

void Pen::hidden_box(double left, double top, double right, double bottom) {
    hidden(Outline().move(left, top).line(right, top).line(right, bottom).line(left, bottom).close());
}

void Pen::cut_box(double left, double top, double right, double bottom) {
    const Point corner = place({left, top}), end = place({right, bottom});
    const Box box{corner, {end.x - corner.x, end.y - corner.y}};
    result_.drawing.items.push_back(Shape{rectangle(box), {}, white, 1});
    add(hatch(box, 2.2_pt), fine_width, {}, {}, black);
    add(rectangle(box), visible_width, {}, {}, black);
}

void Pen::ring(double x, double y, double radius) { edge(Outline().arc(x, y, radius, 0, 360).close()); }
void Pen::inner_ring(double x, double y, double radius) { inner(Outline().arc(x, y, radius, 0, 360).close()); }
void Pen::hidden_ring(double x, double y, double radius) { hidden(Outline().arc(x, y, radius, 0, 360).close()); }

void Pen::cut_ring(double x, double y, double radius) {
    const Point centre = place({x, y});
    result_.drawing.items.push_back(Shape{circle(centre, unit_ * radius), {}, white, 1});
    add(hatch(centre, unit_ * radius, 2.2_pt), fine_width, {}, {}, black);
    add(circle(centre, unit_ * radius), inner_width, {}, {}, black);
}

void Pen::dot(double x, double y, double radius) { solid(Outline().arc(x, y, radius, 0, 360).close(), black); }

void Pen::strand(double x, double top, double bottom, double width, bool broken_top, bool broken_bottom) {
    const double half = width / 2;
    solid(Outline().move(x - half, top).line(x + half, top).line(x + half, bottom).line(x - half, bottom).close(),
          white);
    const double rise = 3.2 * width;  // how far a wire climbs in crossing the width: a lay of eleven diameters
    const double pitch = rise / 4;
    for (double foot = bottom + rise; foot > top; foot -= pitch) {
        // from (x - half, foot) up to (x + half, foot - rise), as far as it lies between top and bottom
        const auto at = [&](double y) { return x - half + width * (foot - y) / rise; };
        const double low = std::min(foot, bottom), high = std::max(foot - rise, top);
        if (low > high) fine(Outline().move(at(low), low).line(at(high), high));
    }
    open(Outline().move(x - half, top).line(x - half, bottom));
    open(Outline().move(x + half, top).line(x + half, bottom));
    const auto broken = [&](double y) {
        open(Outline()
                 .move(x - half, y)
                 .curve({x - half * 0.3, y - half * 0.7}, {x + half * 0.3, y + half * 0.7}, {x + half, y}));
    };
    if (broken_top) broken(top);
    if (broken_bottom) broken(bottom);
}

void Pen::thread(double x, double top, double bottom, double width) {
    const double half = width / 2;
    box(x - half, top, x + half, bottom);
    for (double y = top + 0.55; y < bottom; y += 0.55)
        fine(Outline().move(x - half, y).line(x + half, std::max(y - 0.22, top)));
}

void Pen::mast(double left, double right, double top, double bottom, bool broken_top, bool broken_bottom) {
    solid(Outline().move(left, top).line(right, top).line(right, bottom).line(left, bottom).close(), white);
    open(Outline().move(left, top).line(left, bottom));
    open(Outline().move(right, top).line(right, bottom));
    const double width = right - left;
    const auto broken = [&](double y) {
        inner(Outline().move(left, y).curve({left + width * 0.3, y - 0.8}, {left + width * 0.6, y + 0.9}, {right, y}));
    };
    if (broken_top) broken(top);
    if (broken_bottom) broken(bottom);
}

void Pen::pin_across(double y, double half_width, double pin, double ear_inner) {
    const double r = pin / 2;
    box(-half_width - 0.9, y - pin * 0.85, -half_width, y + pin * 0.85);  // head
    open(Outline().move(-ear_inner, y - r).line(ear_inner, y - r));
    open(Outline().move(-ear_inner, y + r).line(ear_inner, y + r));
    for (const double s : {-r, r}) {
        hidden(Outline().move(-half_width, y + s).line(-ear_inner, y + s));
        hidden(Outline().move(ear_inner, y + s).line(half_width, y + s));
    }
    box(half_width, y - r, half_width + 1.4, y + r);
    const double x = half_width + 0.7;
    inner_ring(x, y - r - 0.45, 0.4);
    hidden(Outline().move(x, y - r).line(x, y + r));
    inner(Outline().move(x, y + r).line(x - 0.45, y + r + 1.1));
    inner(Outline().move(x, y + r).line(x + 0.45, y + r + 1.1));
    spot("split-pin", {x, y + r + 0.5});
    spot("pin-head", {-half_width - 0.5, y});
    spot("pin", {0, y});
}

void Pen::spot(const char* key, Spot at) { result_.spots.insert_or_assign(key, place(at)); }

void Pen::label(const char* key, Spot target, Side side, double y) {
    spot(key, target);
    result_.label_keys.push_back(key);
    const bool right = side == Side::right;
    const Point from = place(target);
    const Point to = place({right ? right_ : left_, y});
    const Points knee = right ? std::max(from.x, to.x - 7_pt) : std::min(from.x, to.x + 7_pt);
    Path leader{MoveTo{from}};
    if (from.y != to.y) leader.push_back(LineTo{{knee, to.y}});
    leader.push_back(LineTo{to});
    add(std::move(leader), fine_width, {}, {}, black);
    result_.drawing.items.push_back(Shape{circle(from, 1.1_pt), {}, black, 1});
    std::istringstream lines(words_("schematic.label." + std::string(key)));
    std::string line;
    Points baseline = to.y + label_size * 0.34;
    while (std::getline(lines, line, '/')) {
        Label words;
        words.at = {right ? to.x + 3_pt : to.x - 3_pt, baseline};
        words.text = line;
        words.size = label_size;
        words.anchor = right ? Anchor::left : Anchor::right;
        result_.drawing.items.push_back(words);
        baseline += 7.6_pt;
    }
}

void Pen::view(const char* key, Spot at, Anchor anchor) {
    Label words;
    words.at = place(at);
    words.text = words_("schematic.view." + std::string(key));
    words.size = label_size;
    words.colour = black_62;
    words.anchor = anchor;
    result_.drawing.items.push_back(words);
}

Schematic Pen::take(double height) {
    result_.drawing.size.height = unit_ * height;
    return std::move(result_);
}

}  // namespace rigdeed::drawing
