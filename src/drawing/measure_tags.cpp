#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "base/text.hpp"
#include "drawing/palette.hpp"
#include "drawing/paths.hpp"
#include "drawing/schematic.hpp"
#include "drawing/segments.hpp"

namespace rigdeed::drawing {
namespace {

/// Where measures are taken: the first of these parts that a drawing has. What is taken over a stretch, or at a place
/// that only its surveyor knows (a dent, a bow), stands in no row.
constexpr std::pair<std::string_view, std::string_view> rows[] = {
    {"pin-diameter", "pin"},       {"pin-diameter", "shank"},
    {"worn-diameter", "shank"},    {"hole-diameter", "pin-hole"},
    {"hole-diameter", "hole"},     {"plate-thickness", "plate"},
    {"plate-thickness", "strap"},  {"plate-thickness", "tang"},
    {"leg-angle", "leg-root"},     {"leg-length", "long-leg"},
    {"thread-engaged", "thread"},  {"thread-diameter", "screw"},
    {"thread-diameter", "thread"}, {"spreader-rise", "spreader"},
    {"bolt-diameter", "bolt"},     {"bolt-diameter", "through-bolts"},
    {"tube-diameter", "tube"},     {"wall", "mast-wall"}};

constexpr Points size{6.75}, height{11};

Points width_of(const std::string& words) { return size * (0.56 * static_cast<double>(count_letters(words))) + 6_pt; }

Box label_box(const Label& label) {
    const Points width = label.size * (0.54 * static_cast<double>(count_letters(label.text)));
    const Points left = label.anchor == Anchor::left     ? label.at.x
                        : label.anchor == Anchor::middle ? label.at.x - width * 0.5
                                                         : label.at.x - width;
    return {{left, label.at.y - label.size}, {width, label.size * 1.3}};
}

bool meet(const Box& a, const Box& b) {
    return a.left() < b.right() && b.left() < a.right() && a.top() < b.bottom() && b.top() < a.bottom();
}

/// How much of what is drawn a tag here would hide: words and what is wrong above all.
double hidden_by(const Drawing& drawing, const Box& tag) {
    double cost = 0;
    for (const auto& item : drawing.items) {
        if (const auto* label = std::get_if<Label>(&item); label != nullptr && meet(label_box(*label), tag))
            cost += 300;
        const auto* shape = std::get_if<Shape>(&item);
        if (shape == nullptr || (!shape->stroke && shape->fill == white)) continue;
        const bool wrong = (shape->stroke && shape->stroke->colour == vermilion) || shape->fill == vermilion;
        Point last;
        const auto to = [&](Point p) {
            constexpr int steps = 6;
            for (int i = 1; i <= steps; ++i) {
                const double t = static_cast<double>(i) / steps;
                const Point q{last.x + (p.x - last.x) * t, last.y + (p.y - last.y) * t};
                if (q.x > tag.left() && q.x < tag.right() && q.y > tag.top() && q.y < tag.bottom())
                    cost += wrong ? 60 : 1.5;
            }
            last = p;
        };
        for (const Segment& segment : shape->path) {
            if (const auto* move = std::get_if<MoveTo>(&segment)) last = move->to;
            if (const auto* line = std::get_if<LineTo>(&segment)) to(line->to);
            if (const auto* curve = std::get_if<CurveTo>(&segment)) to(curve->to);
        }
    }
    return cost;
}

/// The least that is hidden, and near; none where every place lies on words.
std::optional<Box> place_of(const Drawing& drawing, Point at, Points width) {
    std::optional<Box> best;
    double least = 250;
    for (double reach = 16; reach < 62; reach += 5)
        for (int step = 0; step < 24; ++step) {
            const double angle = step * std::numbers::pi / 12;
            const Point middle{at.x + Points{reach * std::cos(angle)} + width * (0.4 * std::cos(angle)),
                               at.y + Points{reach * std::sin(angle)}};
            const Box box{{middle.x - width * 0.5, middle.y - height * 0.5}, {width, height}};
            if (box.left() < 1_pt || box.right() > drawing.size.width - 1_pt || box.top() < 1_pt ||
                box.bottom() > drawing.size.height - 1_pt)
                continue;
            const double cost = reach * 0.8 + hidden_by(drawing, box);
            if (cost < least) least = cost, best = box;
        }
    return best;
}

}  // namespace

std::optional<Point> spot_of_measure(const Schematic& schematic, std::string_view measure) {
    for (const auto& [name, part] : rows)
        if (name == measure)
            if (const auto spot = schematic.spots.find(part); spot != schematic.spots.end()) return spot->second;
    return std::nullopt;
}

std::vector<bool> add_measure_tags(Schematic& schematic, const std::vector<MeasureTag>& tags) {
    Drawing& drawing = schematic.drawing;
    std::vector<bool> placed;
    for (const MeasureTag& tag : tags) {
        const auto box = place_of(drawing, tag.at, width_of(tag.words));
        placed.push_back(box.has_value());
        if (!box) continue;
        const Point from{std::clamp(tag.at.x, box->left(), box->right()),
                         std::clamp(tag.at.y, box->top(), box->bottom())};
        drawing.items.push_back(Shape{line(from, tag.at), Stroke{2.2_pt, white, {}, true}, {}, 1});
        drawing.items.push_back(Shape{line(from, tag.at), Stroke{0.6_pt, black, {}, true}, {}, 1});
        drawing.items.push_back(Shape{circle(tag.at, 1.6_pt), Stroke{0.5_pt, white, {}, true}, vermilion, 1});
        drawing.items.push_back(Shape{rectangle(*box), Stroke{0.5_pt, black, {}, false}, white, 1});
        drawing.items.push_back(
            Label{{box->centre().x, box->centre().y + size * 0.36}, tag.words, size, true, black, Anchor::middle});
    }
    return placed;
}

}  // namespace rigdeed::drawing
