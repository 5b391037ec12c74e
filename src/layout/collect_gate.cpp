#include <algorithm>

#include "drawing/paths.hpp"
#include "layout/collect.hpp"

namespace rigdeed::layout {
namespace {

using document::BoxKey;
using document::Gate;
using document::LinesToWriteOn;
using document::Ticked;

constexpr Points key_box{12};
constexpr Points plate_height{26};
constexpr Points choice_box{20};

void fill(Slab& slab, const Setter& setter, const Box& box, Ticked how) {
    const auto add = [&](drawing::Path path, Points width) {
        slab.items.push_back(PlacedShape{{std::move(path), drawing::Stroke{width, drawing::black, {}, true}, {}, 1}});
    };
    setter.framed_box(slab, box, how == Ticked::heavy ? 1.6_pt : look::rule, drawing::black);
    const Points l = box.left() + 2.5_pt, r = box.right() - 2.5_pt, t = box.top() + 2.5_pt, b = box.bottom() - 2.5_pt;
    switch (how) {
        case Ticked::tick:
            add({drawing::MoveTo{{l, box.centre().y}}, drawing::LineTo{{l + 2.5_pt, b}}, drawing::LineTo{{r, t}}},
                1.3_pt);
            return;
        case Ticked::cross:
            add(drawing::line({l, t}, {r, b}), 1.3_pt);
            add(drawing::line({l, b}, {r, t}), 1.3_pt);
            return;
        case Ticked::hatch: add(drawing::hatch(box, 3_pt), 0.5_pt); return;
        case Ticked::heavy: return;
    }
}

/// The bars of a gate in two columns, the left one filled first; how far down they reach.
Points set_bars(Slab& slab, const Setter& setter, const Gate& block, Points top) {
    constexpr Points inset{14}, between{18};
    const Points width = (setter.width() - inset * 2 - between) * 0.5;
    const auto words = [](const Gate::Bar& bar) { return bar.signs.empty() ? bar.what : bar.what + ": " + bar.signs; };
    const auto height = [&](const Gate::Bar& bar) {
        return look::body.leading * static_cast<double>(setter.wrap(words(bar), look::body, width).size()) + 2_pt;
    };
    Points whole;
    for (const Gate::Bar& bar : block.bars) whole += height(bar);
    Points x = inset, y = top, lowest = top;
    for (const Gate::Bar& bar : block.bars) {
        if (x == inset && y - top >= whole * 0.5) x += width + between, y = top;
        const Tagged scope = setter.tagged("P");
        y += setter.text(slab, {x, y}, words(bar), look::body, width) + 2_pt;
        lowest = std::max(lowest, y);
    }
    return lowest;
}

}  // namespace

void collect_one(const LinesToWriteOn& block, const Setter& setter, Slabs& slabs) {
    Slab slab;
    slab.height = 24_pt;
    slab.keep_with_next = true;
    Points x;
    for (const LinesToWriteOn::Line& one : block.lines) {
        const Points width = setter.width() * one.share - (&one == &block.lines.back() ? 0_pt : 10_pt);
        const Tagged scope = setter.tagged("P");
        const Points label = setter.line(slab, {x, 17_pt}, one.label, look::tick_line) + 4_pt;
        setter.rule(slab, {x + label, 19_pt}, std::max(width - label, 0_pt), 0.6_pt);
        x += setter.width() * one.share;
    }
    slabs.push_back(std::move(slab));
}

/// Side by side as far as they fit, else in further lines.
void collect_one(const BoxKey& block, const Setter& setter, Slabs& slabs) {
    Slab slab;
    slab.before = 8_pt;
    slab.keep_with_next = true;
    Points x, y;
    for (const BoxKey::Entry& one : block.entries) {
        const Points width = key_box + 5_pt + setter.measure(one.words, look::tick_line);
        if (x > 0_pt && x + width > setter.width()) x = 0_pt, y += 16_pt;
        fill(slab, setter, {{x, y}, {key_box, key_box}}, one.box);
        const Tagged scope = setter.tagged("P");
        setter.line(slab, {x + key_box + 5_pt, y + 9.5_pt}, one.words, look::tick_line);
        x += width + 16_pt;
    }
    slab.height = y + key_box + 4_pt;
    slabs.push_back(std::move(slab));
}

void collect_one(const Gate& block, const Setter& setter, Slabs& slabs) {
    Slab slab;
    slab.before = 12_pt;
    setter.filled_box(slab, {{0_pt, 0_pt}, {setter.width(), plate_height}}, drawing::black);
    {
        const Tagged scope = setter.tagged("H2");
        setter.line(slab, {14_pt, 18_pt}, block.title, look::gate);
    }
    Points y = set_bars(slab, setter, block, plate_height + 8_pt) + 8_pt;
    setter.rule(slab, {14_pt, y}, setter.width() - 28_pt, look::hair, drawing::black_62);
    Points x = 14_pt;
    for (const std::string& choice : block.choices) {
        setter.framed_box(slab, {{x, y + 8_pt}, {choice_box, choice_box}}, 1.6_pt, drawing::black);
        const Tagged scope = setter.tagged("P");
        setter.line(slab, {x + choice_box + 8_pt, y + 22_pt}, choice, look::band);
        x += (setter.width() - 28_pt) / static_cast<double>(block.choices.size());
    }
    slab.height = y + choice_box + 16_pt;
    setter.framed_box(slab, {{0_pt, 0_pt}, {setter.width(), slab.height}}, 1.4_pt, drawing::black);
    slabs.push_back(std::move(slab));
}

}  // namespace rigdeed::layout
