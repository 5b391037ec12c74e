#include <algorithm>
#include <optional>

#include "base/text.hpp"
#include "drawing/paths.hpp"
#include "layout/collect.hpp"

namespace rigdeed::layout {
namespace {

Style style_of(document::Tone tone) {
    switch (tone) {
        case document::Tone::intro: return look::intro;
        case document::Tone::body: return look::body;
        case document::Tone::quiet: return look::quiet;
        case document::Tone::bold: return look::body_bold;
        case document::Tone::small: return look::row_text;
        case document::Tone::note: return look::note;
    }
    return look::body;
}

Slab title(const document::Heading& heading, const Setter& setter) {
    Slab slab;
    slab.before = 20_pt;
    slab.keep_with_next = true;
    slab.anchor = heading.anchor;
    const Tagged scope = setter.tagged("H1");
    slab.height = setter.text(slab, {-1_pt, 0_pt}, heading.text, look::title, setter.width()) + 8_pt;
    if (!heading.anchor.empty()) slab.entry = Entry{heading.number, heading.text, 0};
    return slab;
}

Slab section(const document::Heading& heading, const Setter& setter) {
    Slab slab;
    slab.before = 14_pt;
    slab.keep_with_next = true;
    slab.anchor = heading.anchor;
    setter.rule(slab, {0_pt, 0_pt}, setter.width(), look::rule);
    slab.height = 6_pt;
    if (heading.text.empty()) return slab;
    const Tagged scope = setter.tagged("H2");
    const Points width = setter.line(slab, {0_pt, 14.5_pt}, heading.text, look::section);
    setter.line(slab, {width + 8_pt, 14.5_pt}, heading.remark, look::remark);
    slab.height = 21_pt;
    return slab;
}

Slab minor(const document::Heading& heading, const Setter& setter) {
    Slab slab;
    slab.before = 8_pt;
    slab.keep_with_next = true;
    slab.anchor = heading.anchor;
    const Tagged scope = setter.tagged(setter.structure().heading_below());
    slab.height = setter.text(slab, {0_pt, 0_pt}, heading.text, look::section, setter.width()) + 2_pt;
    return slab;
}

}  // namespace

void collect_one(const document::Heading& block, const Setter& setter, Slabs& slabs) {
    switch (block.level) {
        case document::Level::title: slabs.push_back(title(block, setter)); break;
        case document::Level::section: slabs.push_back(section(block, setter)); break;
        case document::Level::minor: slabs.push_back(minor(block, setter)); break;
    }
}

/// A paragraph may break between lines, but never leaves one line alone at either end.
void collect_one(const document::Paragraph& block, const Setter& setter, Slabs& slabs) {
    const Style style = style_of(block.tone);
    const Points measure = std::min(setter.width(), 440_pt);
    const auto lines = setter.wrap(
        block.text, style,
        block.tone == document::Tone::quiet || block.tone == document::Tone::small || block.tone == document::Tone::note
            ? setter.width()
            : measure);
    const Tagged scope = setter.tagged("P");
    const std::string whole = squeezed(block.text);
    std::size_t told = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        Slab slab;
        slab.before = i == 0 ? 3_pt : 0_pt;
        slab.height = style.leading + (i + 1 < lines.size() ? 0_pt : block.tone == document::Tone::note ? 1_pt : 4_pt);
        slab.keep_with_next = (i == 0 && lines.size() > 1) || i + 2 == lines.size();
        setter.line(slab, {0_pt, baseline_in(style)}, lines[i], style);
        told += lines[i].size();
        if (told < whole.size() && whole[told] == ' ') ++told;
        else if (told < whole.size()) std::get<PlacedText>(slab.items.back()).goes_on = true;
        slabs.push_back(std::move(slab));
    }
}

namespace {

/// Left edges of the columns of one row, and one past the last: the tallest takes width from the lower ones as long as
/// that makes the row lower.
std::vector<Points> columns_by_need(const document::Facts& block, const Setter& setter) {
    const std::size_t count = block.facts.size();
    const auto lines = [&](std::size_t i, Points width) {
        const document::Facts::Fact& fact = block.facts[i];
        std::size_t sum = setter.wrap(fact.label, look::label, width).size();
        for (std::size_t k = 0; k < fact.lines.size(); ++k)
            sum += setter.wrap(fact.lines[k], k == 0 ? look::row_title : look::row_text, width).size();
        return sum;
    };
    const Points all = setter.width() - look::gutter * static_cast<double>(count - 1);
    std::vector<Points> widths(count, all * (1.0 / static_cast<double>(count)));
    std::vector<Points> best = widths;
    std::size_t lowest = 1000;
    constexpr Points step{4}, least{52};
    for (int turn = 0; turn < 160; ++turn) {
        std::vector<std::size_t> heights;
        for (std::size_t i = 0; i < count; ++i) heights.push_back(lines(i, widths[i]));
        const auto tallest =
            static_cast<std::size_t>(std::distance(heights.begin(), std::max_element(heights.begin(), heights.end())));
        if (heights[tallest] < lowest) lowest = heights[tallest], best = widths;
        std::optional<std::size_t> giver;
        for (std::size_t i = 0; i < count; ++i)
            if (i != tallest && widths[i] > least && lines(i, widths[i] - step) < heights[tallest] &&
                (!giver || heights[i] < heights[*giver] ||
                 (heights[i] == heights[*giver] && widths[i] > widths[*giver])))
                giver = i;
        if (!giver) break;
        widths[*giver] -= step;
        widths[tallest] += step;
    }
    std::vector<Points> edges{0_pt};
    for (const Points width : best) edges.push_back(edges.back() + width + look::gutter);
    return edges;
}

}  // namespace

void collect_one(const document::Facts& block, const Setter& setter, Slabs& slabs) {
    std::vector<Points> edges;
    if (block.by_need) edges = columns_by_need(block, setter);
    const Points pitch = (setter.width() + look::gutter) / static_cast<double>(block.columns);
    for (std::size_t first = 0; first < block.facts.size(); first += block.columns) {
        Slab slab;
        slab.before = 4_pt;
        Points lowest;
        for (std::size_t i = first; i < std::min(first + block.columns, block.facts.size()); ++i) {
            const Points x = block.by_need ? edges[i] : pitch * static_cast<double>(i - first);
            const Points width = (block.by_need ? edges[i + 1] - x : pitch) - look::gutter;
            Points y = setter.text(slab, {x, 0_pt}, block.facts[i].label, look::label, width);
            for (std::size_t k = 0; k < block.facts[i].lines.size(); ++k)
                y += setter.text(slab, {x, y}, block.facts[i].lines[k], k == 0 ? look::row_title : look::row_text,
                                 width);
            lowest = std::max(lowest, y);
        }
        slab.height = lowest + 5_pt;
        if (block.ruled) setter.rule(slab, {0_pt, slab.height}, setter.width(), look::hair, drawing::black_35);
        slab.keep_with_next = first + block.columns < block.facts.size();
        slabs.push_back(std::move(slab));
    }
}

namespace {

/// The share of the width at which two texts side by side need the fewest lines; the halves where that saves none.
double share_of_left(const document::TwoTexts& block, const Setter& setter, const Style& style, Points whole) {
    const auto lines = [&](double share) {
        return std::max(setter.wrap(block.left, style, whole * share).size(),
                        setter.wrap(block.right, style, whole * (1 - share)).size());
    };
    double best = 0.5;
    std::size_t fewest = lines(best);
    for (const double share : {0.55, 0.45, 0.6, 0.4, 0.65, 0.35, 0.7, 0.3})
        if (const std::size_t needed = lines(share); needed < fewest) best = share, fewest = needed;
    return best;
}

}  // namespace

void collect_one(const document::TwoTexts& block, const Setter& setter, Slabs& slabs) {
    const Style& style = block.small ? look::row_text : look::body;
    const Points whole = setter.width() - look::gutter * 2;
    const Points left_width = block.small ? whole * share_of_left(block, setter, style, whole) : whole * 0.5;
    Slab slab;
    slab.before = block.small ? 4_pt : 8_pt;
    const std::string level = setter.structure().heading_below();
    const Style& heading_style = block.small ? look::row_title : look::section;
    const auto column = [&](Points x, Points width, const std::string& heading, const std::string& words) {
        Points head;
        {
            const Tagged scope = setter.tagged(level);
            head = setter.text(slab, {x, 0_pt}, heading, heading_style, width) + (block.small ? 0_pt : 2_pt);
        }
        return head + setter.text(slab, {x, head}, words, style, width);
    };
    const Points left = column(0_pt, left_width, block.left_title, block.left);
    const Points right = column(left_width + look::gutter * 2, whole - left_width, block.right_title, block.right);
    slab.height = std::max(left, right) + 4_pt;
    slabs.push_back(std::move(slab));
}

void collect_one(const document::Caution& block, const Setter& setter, Slabs& slabs) {
    Slab slab;
    slab.before = block.small ? 8_pt : 12_pt;
    const Points inset = 18_pt;
    const Style style = block.small ? look::row_text : look::body;
    const Points frame = setter.width() - (block.beside ? block.beside->size.width + 16_pt : 0_pt);
    const Points width = frame - inset * 2;
    Points y = block.small ? 6_pt : 9_pt;
    y += setter.text(slab, {inset, y}, block.title, look::section, width);
    std::optional<Tagged> list;
    if (block.paragraphs.size() > 1) list.emplace(setter.structure(), "L");
    for (const std::string& paragraph : block.paragraphs) {
        std::optional<Tagged> item, body;
        if (list) item.emplace(setter.structure(), "LI"), body.emplace(setter.structure(), "LBody");
        y += setter.text(slab, {inset, y}, paragraph, style, width) + (block.small ? 1_pt : 2_pt);
        body.reset();  // the inner one first
    }
    list.reset();
    slab.height = y + (block.small ? 5_pt : 8_pt);
    if (block.beside) {
        slab.height = std::max(slab.height, block.beside->size.height);
        setter.drawing(slab,
                       {setter.width() - block.beside->size.width, (slab.height - block.beside->size.height) * 0.5},
                       *block.beside);
    }
    setter.framed_box(slab, {{0_pt, 0_pt}, {frame, slab.height}}, look::rule, drawing::black);
    setter.filled_box(slab, {{0_pt, 0_pt}, {6_pt, slab.height}}, drawing::black);
    slabs.push_back(std::move(slab));
}

void collect_one(const document::Step& block, const Setter& setter, Slabs& slabs) {
    Slab slab;
    slab.before = 7_pt;
    constexpr Style words{Face::regular, 8.5_pt, 11.2_pt, drawing::black};
    const Points inset = 34_pt;
    const Points width = setter.width() - inset;
    const Tagged item = setter.tagged("LI");
    {
        const Tagged label = setter.tagged("Lbl");
        setter.line(slab, {-1_pt, 19_pt}, block.number, look::title);
    }
    const Tagged body = setter.tagged("LBody");
    Points y = setter.text(slab, {inset, 0_pt}, block.title, look::section, width) + 1_pt;
    y += setter.text(slab, {inset, y}, block.text, words, width);
    if (!block.output.empty()) {
        const Points height = look::body.leading * static_cast<double>(block.output.size()) + 10_pt;
        setter.filled_box(slab, {{inset, y + 3_pt}, {width, height}}, drawing::black_5);
        Points line = y + 8_pt;
        for (const std::string& one : block.output)
            line += setter.text(slab, {inset + 10_pt, line}, one, look::body, width - 20_pt);
        y += height + 3_pt;
    }
    slab.height = y + 6_pt;
    setter.rule(slab, {inset, slab.height}, width, look::hair, drawing::black_35);
    slabs.push_back(std::move(slab));
}

/// Short ones stand in one line; with a title they make four rows a to d.
void collect_one(const document::Fingerprint& block, const Setter& setter, Slabs& slabs) {
    Slab slab;
    const auto group = [&](std::size_t i) { return block.hex.substr(i * 4, 4); };
    if (block.remark.empty()) {
        slab.before = 5_pt;
        const Tagged whole = setter.paragraph();  // one sentence for who listens, not seventeen
        setter.line(slab, {0_pt, 8_pt}, block.title, look::caption_bold);
        const Points pitch = (setter.width() - 62_pt) / 16;
        for (std::size_t i = 0; i < 16; ++i)
            setter.line(slab, {62_pt + pitch * static_cast<double>(i), 8_pt}, group(i), look::caption);
        slab.height = 12_pt;
        slabs.push_back(std::move(slab));
        return;
    }
    slab.before = 6_pt;
    setter.rule(slab, {0_pt, 0_pt}, setter.width(), look::rule);
    const Points width = setter.line(slab, {0_pt, 14.5_pt}, block.title, look::section);
    setter.line(slab, {width + 8_pt, 14.5_pt}, block.remark, look::remark);
    Points y = 22_pt;
    for (std::size_t row = 0; row < 4; ++row) {
        const Tagged whole = setter.paragraph();
        setter.line(slab, {0_pt, y + baseline_in(look::fingerprint)}, std::string(1, static_cast<char>('a' + row)),
                    look::label);
        for (std::size_t i = 0; i < 4; ++i)
            setter.line(slab, {26_pt + 62_pt * static_cast<double>(i), y + baseline_in(look::fingerprint)},
                        group(row * 4 + i), look::fingerprint);
        y += look::fingerprint.leading;
        setter.rule(slab, {0_pt, y}, 262_pt, look::hair, drawing::black_35);
    }
    if (block.code) {
        const Points side = block.code->size.width, left = 276_pt, top = 8_pt;
        setter.drawing(slab, {setter.width() - side, top}, *block.code);
        setter.text(slab, {left, 24_pt}, block.code_caption, look::caption, setter.width() - side - 12_pt - left);
        y = std::max(y, top + block.code->size.height);
    }
    slab.height = y + 4_pt;
    slabs.push_back(std::move(slab));
}

void collect_one(const document::SealPlate& block, const Setter& setter, Slabs& slabs) {
    Slab slab;
    slab.before = 8_pt;
    const Points radius = block.rose.size.width * 0.5 + 5_pt;
    const Points left = radius * 2 + 14_pt, right = setter.width() - 10_pt;
    Points labels;
    for (const auto& [label, value] : block.lines) labels = std::max(labels, setter.measure(label, look::label));
    const Points values = left + labels + 10_pt;
    const auto height_of = [&](const std::string& text, const Style& style, Points width) {
        return style.leading * static_cast<double>(setter.wrap(text, style, width).size());
    };
    Points text = height_of(block.name, look::finding_title, right - left) + 3_pt;  // whole, however long
    for (const auto& [label, value] : block.lines) text += height_of(value, look::row_text, right - values);
    const Points height = std::max(radius * 2, text + 6_pt), middle = height * 0.5;
    const auto shape = [&](drawing::Path path) {
        slab.items.push_back(
            PlacedShape{{std::move(path), drawing::Stroke{0.9_pt, drawing::black, {}, false}, drawing::white, 1}});
    };
    shape(drawing::rectangle({{radius, 0_pt}, {setter.width() - radius, height}}));
    shape(drawing::circle({radius, middle}, radius));
    setter.drawing(slab, {radius - block.rose.size.width * 0.5, middle - block.rose.size.height * 0.5}, block.rose);
    Points y = (height - text) * 0.5 - 1_pt;
    y += setter.text(slab, {left, y}, block.name, look::finding_title, right - left) + 3_pt;
    for (const auto& [label, value] : block.lines) {
        const Tagged whole = setter.paragraph();
        setter.line(slab, {left, y + baseline_in(look::row_text)}, label, look::label);
        y += setter.text(slab, {values, y}, value, look::row_text, right - values);
    }
    slab.height = height + 6_pt;
    slabs.push_back(std::move(slab));
}

}  // namespace rigdeed::layout
