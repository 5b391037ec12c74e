#include "drawing/beads.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "drawing/palette.hpp"
#include "drawing/paths.hpp"
#include "drawing/strand_section.hpp"
#include "drawing/verdict_shape.hpp"

namespace rigdeed::drawing {
namespace {

constexpr std::size_t most_in_a_row = 90;
constexpr Points row_height{13};

void stroke(Drawing& drawing, Path path, Points width, bool round = false) {
    drawing.items.push_back(Shape{std::move(path), Stroke{width, black, {}, round}, {}, 1});
}

int value_of(char hex) { return hex <= '9' ? hex - '0' : hex - 'a' + 10; }

}  // namespace

Drawing beads(const std::vector<survey::Verdict>& verdicts, std::size_t at_deck, Points width, const BeadWords& words) {
    Drawing drawing;
    const std::size_t rows = std::max<std::size_t>(1, (verdicts.size() + most_in_a_row - 1) / most_in_a_row);
    const std::size_t in_a_row = (verdicts.size() + rows - 1) / rows;
    const Points inset{4};
    const Points pitch = in_a_row > 1 ? (width - inset * 2) * (1.0 / static_cast<double>(in_a_row - 1)) : 0_pt;
    const auto place = [&](std::size_t i) {
        return Point{inset + pitch * static_cast<double>(i % in_a_row),
                     5_pt + row_height * static_cast<double>(i / in_a_row)};
    };
    for (std::size_t row = 0; row < rows && !verdicts.empty(); ++row) {
        const std::size_t last = std::min(verdicts.size(), (row + 1) * in_a_row) - 1;
        stroke(drawing, line(place(row * in_a_row), place(last)), 0.5_pt);
    }
    const double shrink = std::min(1.0, pitch.value > 0 ? pitch.value / 8 : 1.0);  // 3.6 and its outline: 7.8 wide
    for (std::size_t i = 0; i < verdicts.size(); ++i)
        add_verdict_shape(drawing, verdicts[i], place(i),
                          (verdicts[i] == survey::Verdict::sound ? 2.9_pt : 3.6_pt) * shrink, 0);
    const Points baseline = row_height * static_cast<double>(rows) + 5_pt;
    const auto label = [&](Points x, const std::string& text, Anchor anchor, bool bold) {
        drawing.items.push_back(Label{{x, baseline}, text, 7.25_pt, bold, bold ? black : black_70, anchor});
    };
    label(0_pt, words.deck, Anchor::left, true);
    label(width, words.masthead, Anchor::right, true);
    if (at_deck > 0 && at_deck < verdicts.size()) {
        const Point before = place(at_deck - 1), after = place(at_deck);
        const Points x = before.y == after.y ? (before.x + after.x) * 0.5 : after.x - inset;
        stroke(drawing, line({x, after.y - 7_pt}, {x, rows == 1 ? baseline + 2_pt : after.y + 7_pt}), 0.9_pt);
        // Some 3.6 pt a letter; where the words have no room the stroke says enough.
        const auto long_as = [](const std::string& text) {
            return Points{3.6 * static_cast<double>(std::count_if(text.begin(), text.end(),
                                                                  [](char c) { return (c & 0xC0) != 0x80; }))};
        };
        if (rows == 1 && x > long_as(words.first) + long_as(words.deck) + 18_pt &&
            width - x > long_as(words.aloft) + long_as(words.masthead) + 24_pt) {
            label(x - 6_pt, words.first, Anchor::right, false);
            label(x + 6_pt, words.aloft, Anchor::left, false);
        }
    }
    drawing.size = {width, baseline + 3_pt};
    drawing.alternative = words.alternative;
    return drawing;
}

Drawing rose(const std::string& hex, Points radius, const std::string& alternative) {
    Drawing drawing;
    const Point centre{radius, radius};
    for (std::size_t i = 0; i < hex.size(); ++i) {
        const double angle = 2 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(hex.size());
        const Points inner = radius * 0.60;
        const Points outer = radius * (0.60 + 0.40 * (0.12 + 0.88 * value_of(hex[i]) / 15.0));
        const auto at = [&](Points r) { return Point{centre.x + r * std::sin(angle), centre.y - r * std::cos(angle)}; };
        stroke(drawing, line(at(inner), at(outer)), radius * (i % 16 == 0 ? 0.028 * 1.35 : 0.028), true);
    }
    const Points wire = radius * 0.1;
    for (const Point& place : wire_places())
        drawing.items.push_back(Shape{circle({centre.x + wire * place.x.value, centre.y + wire * place.y.value}, wire),
                                      Stroke{radius * 0.014, black, {}, true}, white, 1});
    drawing.size = {radius * 2, radius * 2};
    drawing.alternative = alternative;
    return drawing;
}

}  // namespace rigdeed::drawing
