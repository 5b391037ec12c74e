#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "drawing/paths.hpp"
#include "drawing/verdict_shape.hpp"
#include "layout/collect.hpp"

namespace rigdeed::layout {
namespace {

constexpr Points least_plate{98}, high_plate{124};  ///< a higher one takes smaller letters first

/// The plate behind the answer: the verdict's shape grown to the width of the page.
struct PlateForm {
    Points inset;  ///< from the left margin to where the plate's box begins
    Colour ground;
    Colour ink;
};

drawing::Stroke edge(double width, Colour colour) { return {Points{width}, colour, {}, false}; }

PlateForm draw_plate(Slab& slab, const Setter& setter, const document::AnswerPlate& plate, Points h, Points top) {
    const Points middle = h * 0.5;
    const Points right = setter.width();
    const auto add = [&](drawing::Path path, std::optional<drawing::Stroke> stroke, std::optional<Colour> fill) {
        drawing::move_by(path, {0_pt, top});
        slab.items.push_back(PlacedShape{{std::move(path), std::move(stroke), fill, 1}});
    };
    const Box whole{{0_pt, 0_pt}, {right, h}};
    if (!plate.verdict) {
        add(drawing::rectangle(whole), edge(0.9, drawing::black), plate.stopped ? drawing::black : drawing::white);
        return {0_pt, plate.stopped ? drawing::black : drawing::white, plate.stopped ? drawing::white : drawing::black};
    }
    switch (*plate.verdict) {
        case document::Verdict::renew:
            add(drawing::rectangle({{middle, 0_pt}, {right - middle, h}}), {}, drawing::black);
            add(drawing::diamond({middle, middle}, middle), {}, drawing::vermilion);
            add(drawing::diamond({middle, middle}, middle - 7_pt), {}, drawing::black);
            return {h, drawing::black, drawing::white};
        case document::Verdict::rectify: {
            const Points r = h / (2 * 0.8660254);
            add(drawing::rectangle({{r, 0_pt}, {right - r, h}}), edge(4.4, drawing::blue), drawing::white);
            add(drawing::hexagon({r, middle}, r), edge(4.4, drawing::blue), drawing::white);
            add(drawing::hexagon({r, middle}, r + 2.5_pt), edge(0.5, drawing::black), {});
            return {r * 2, drawing::white, drawing::black};
        }
        case document::Verdict::watch:
            add(drawing::rectangle({{middle, 0_pt}, {right - middle, h}}), edge(0.9, drawing::black),
                drawing::sky_tint);
            add(drawing::circle({middle, middle}, middle), edge(0.9, drawing::black), drawing::white);
            add(drawing::circle({middle, middle}, middle * 0.78), edge(0.6, drawing::black), drawing::sky_blue);
            return {h, drawing::sky_tint, drawing::black};
        case document::Verdict::unseen:
            add(drawing::rectangle(whole), edge(0.9, drawing::black), drawing::white);
            add(drawing::rectangle({{0_pt, 0_pt}, {h, h}}), edge(0.9, drawing::black), drawing::white);
            add(drawing::hatch(Box{{0_pt, 0_pt}, {h, h}}, 8_pt), edge(0.5, drawing::black), {});
            add(drawing::rectangle({{8_pt, middle - 12_pt}, {h - 16_pt, 24_pt}}), {}, drawing::white);
            return {h, drawing::white, drawing::black};
        case document::Verdict::sound:
            add(drawing::rectangle({{middle, 0_pt}, {right - middle, h}}), edge(0.9, drawing::black), drawing::white);
            add(drawing::circle({middle, middle}, middle), edge(0.9, drawing::black), drawing::white);
            return {h, drawing::white, drawing::black};
    }
    return {};
}

Style in_colour(Style style, Colour colour) {
    style.colour = colour;
    return style;
}

}  // namespace

namespace {

/// The logo at the left margin, as high as the two lines beside it; where the text begins.
Points set_logo(Slab& slab, const Setter& setter, const document::CoverHead& block) {
    constexpr Size room{110_pt, 28_pt};
    if (!block.logo || block.logo->width <= 0 || block.logo->height <= 0) return 0_pt;
    const double scale = std::min(room.width.value / block.logo->width, room.height.value / block.logo->height);
    const Size size{Points{block.logo->width * scale}, Points{block.logo->height * scale}};
    setter.picture(slab, {{0_pt, -17_pt + (room.height - size.height) * 0.5}, size}, *block.logo);
    return size.width + 10_pt;
}

/// The style made smaller until the text fits, but not below half its size.
Style fitted(const Setter& setter, const std::string& text, Style style, Points width) {
    const Points least = style.size * 0.5;
    while (style.size > least && setter.measure(text, style) > width) style.size -= 0.5_pt;
    return style;
}

}  // namespace

void collect_one(const document::CoverHead& block, const Setter& setter, Slabs& slabs) {
    Slab slab;
    const Points right = setter.width();
    const Points text = set_logo(slab, setter, block);
    const Style document = fitted(setter, block.document, look::letterhead, right * 0.5);
    const Points documents = std::max(setter.measure(block.document, document), 150_pt) + 14_pt;
    setter.line_right(slab, {right, -6_pt}, block.document, document);
    const Points room_left = right - text - documents;
    Points down = -6_pt;  // nothing of the firm's is cut: it takes the lines it needs
    {
        const Tagged firm = setter.tagged("P");
        for (const std::string& line : setter.wrap(block.firm, look::letterhead, room_left)) {
            setter.line(slab, {text, down}, line, look::letterhead);
            down += look::letterhead.leading;
        }
    }
    const std::string address = block.address.empty() ? block.surveyor : join(block.address, " · ");
    {
        const Tagged lines = setter.tagged("P");
        down -= 1_pt;
        for (const std::string& line : setter.wrap(address, look::remark, room_left)) {
            setter.line(slab, {text, down}, line, look::remark);
            down += look::remark.leading;
        }
    }
    const Points more = std::max(0_pt, down - 7_pt - look::remark.leading);
    if (block.accent) setter.rule(slab, {0_pt, 14_pt + more}, right, 1.6_pt, *block.accent);
    {
        const Tagged scope = setter.tagged("P");
        slab.items.push_back(DraftText{{right, 7_pt}, block.issued, look::remark, true, setter.element()});
    }
    Points column = 210_pt;
    for (const std::string& line : block.yacht_lines) column = std::max(column, setter.measure(line, look::body));
    const Points room = right - column - 14_pt;
    const Style name = fitted(setter, block.yacht, look::yacht, room);
    auto lines = setter.wrap(block.yacht, name, room);
    if (lines.size() > 2) {  // what there is no room for is not left out unseen
        lines[1] = setter.cut(lines[1] + " " + lines[2], name, room);
        lines.resize(2);
    }
    Points baseline = (lines.size() > 1 ? 47_pt - name.size * 1.1 : 47_pt) + more;
    {
        const Tagged scope = setter.tagged("H1");
        for (const std::string& line : lines) {
            setter.line(slab, {-1_pt, baseline}, line, name);
            baseline += name.size * 1.1;
        }
    }
    const Points yacht_size = name.size;
    Points y = 34_pt + more;
    for (const std::string& line : block.yacht_lines) {
        setter.line_right(slab, {right, y}, line, look::body);
        y += look::body.leading;
    }
    slab.height = 47_pt + more + yacht_size * 0.3;
    slab.keep_with_next = true;
    slabs.push_back(std::move(slab));
}

namespace {

/// Over a dashed frame round the plate, large.
Points set_incomplete(Slab& slab, const Setter& setter, const std::string& words, Points plate) {
    const Style style{Face::black, 17_pt, 20_pt, drawing::black};
    const Points head = 24_pt;
    setter.framed_box(slab, {{-6_pt, 0_pt}, {setter.width() + 12_pt, plate + head + 8_pt}}, 1.4_pt, drawing::black,
                      {6_pt, 3_pt});
    setter.line_centred(slab, {setter.width() * 0.5, 18_pt}, words, style);
    return head;
}

}  // namespace

void collect_one(const document::AnswerPlate& block, const Setter& setter, Slabs& slabs) {
    Slab slab;
    slab.before = 6_pt;
    slab.keep_with_next = true;
    const bool boxed = !block.verdict;
    const auto texts_at = [](Points inset) { return std::max(inset + 16_pt, 114_pt); };
    Style answer = look::answer;
    Points plate, width, height;
    const auto set_in = [&](Points size) {
        answer.size = size, answer.leading = size * (26.0 / 23);
        plate = least_plate;
        for (Points before; before < plate;) {  // a higher plate has a larger badge, which takes width
            before = plate;
            const Points inset = boxed                                         ? 98_pt
                                 : block.verdict == document::Verdict::rectify ? plate / 0.8660254
                                                                               : plate;
            width = setter.width() - texts_at(inset) - 12_pt;
            const auto lines = [&](const std::string& words, const Style& style) {
                return style.leading * static_cast<double>(setter.wrap(words, style, width).size());
            };
            height =
                lines(block.statement, answer) + lines(block.climb, answer) + lines(block.detail, look::body) + 3_pt;
            plate = std::max(plate, height + 16_pt);
        }
    };
    set_in(look::answer.size);
    constexpr Points smallest{19};
    while (plate > high_plate && answer.size > smallest) set_in(answer.size - 1_pt);
    const Points top = block.incomplete.empty() ? 0_pt : set_incomplete(slab, setter, block.incomplete, plate);
    const PlateForm form = draw_plate(slab, setter, block, plate, top);
    const Colour badge_ink = boxed                                       ? form.ink
                             : block.verdict == document::Verdict::renew ? drawing::white
                                                                         : drawing::black;
    const Points badge_centre = boxed ? 50_pt : form.inset * 0.5;
    if (block.stopped) {  // the shape of the worst, so that more ink is worse here, too
        slab.items.push_back(
            PlacedShape{{drawing::diamond({badge_centre, top + plate * 0.5}, 42_pt), {}, drawing::vermilion, 1}});
        slab.items.push_back(
            PlacedShape{{drawing::diamond({badge_centre, top + plate * 0.5}, 37_pt), {}, drawing::black, 1}});
    }
    const Points badge_room = boxed ? (block.stopped ? 54_pt : 92_pt) : form.inset - 34_pt;
    setter.line_centred(slab, {badge_centre, top + plate * 0.5 + 5_pt}, block.badge,
                        in_colour(fitted(setter, block.badge, look::badge, badge_room), badge_ink));
    const Points x = texts_at(boxed ? 98_pt : form.inset);
    Points y = top + (plate - height) * 0.5;
    y += setter.text(slab, {x, y}, block.statement, in_colour(answer, form.ink), width);
    if (!block.climb.empty()) y += setter.text(slab, {x, y}, block.climb, in_colour(answer, form.ink), width);
    setter.text(slab, {x, y + 3_pt}, block.detail, in_colour(look::body, form.ink), width);
    slab.height = top + plate;
    if (!block.incomplete.empty()) slab.height += 8_pt;
    if (!block.strip.empty()) {
        const Points under = slab.height;
        const Box strip{{0_pt, under + 2_pt}, {setter.width(), 14_pt}};
        slab.items.push_back(PlacedShape{{drawing::hatch(strip, 4_pt), edge(0.5, drawing::black), {}, 1}});
        const Points words = setter.measure(block.strip, look::row_title) + 16_pt;
        setter.filled_box(slab, {{x - 8_pt, under + 2_pt}, {words, 14_pt}}, drawing::white);
        setter.line(slab, {x, under + 12_pt}, block.strip, look::row_title);
        slab.height += 18_pt;
    }
    slabs.push_back(std::move(slab));
}

void collect_one(const document::Counts& block, const Setter& setter, Slabs& slabs) {
    Slab slab;
    slab.before = 8_pt;
    slab.keep_with_next = true;
    constexpr Points beside{42};                      // the shape, and white between
    Style count = look::count, word = look::section;  // all figures of a row alike, as large as the row has room for
    std::vector<Points> widths;
    const auto wanted = [&] {
        widths.clear();
        Points sum;
        for (const document::Counts::Count& one : block.counts) {
            widths.push_back(setter.measure(std::to_string(one.number), count) + setter.measure(one.word, word) +
                             beside);
            sum += widths.back();
        }
        return sum;
    };
    while (wanted() > setter.width() && count.size > 14_pt) count.size -= 1_pt;
    while (wanted() > setter.width() && word.size > 7_pt) word.size -= 0.25_pt;
    const Points pitch = setter.width() / static_cast<double>(block.counts.size());
    if (std::all_of(widths.begin(), widths.end(), [&](Points width) { return width <= pitch; })) {
        widths.assign(widths.size(), pitch);
    } else {
        const Points spare = (setter.width() - wanted()) / static_cast<double>(widths.size());
        for (Points& width : widths) width += spare;
    }
    Points x, lowest{38};
    for (std::size_t i = 0; i < block.counts.size(); x += widths[i++]) {
        const document::Counts::Count& one = block.counts[i];
        setter.mark(slab, {x + 11.4_pt, 12_pt}, 8.5_pt, {one.verdict, 0});
        const Points figure = setter.line(slab, {x + 28_pt, 20_pt}, std::to_string(one.number), count);
        setter.line(slab, {x + 28_pt + figure + 5_pt, 20_pt}, one.word, word);
        lowest = std::max(lowest, 26_pt + setter.text(slab, {x, 25_pt}, one.meaning, look::label, widths[i] - 6_pt));
        if (i > 0) setter.rule(slab, {x - 8_pt, 2_pt}, 0_pt, look::hair, drawing::black_35);
    }
    slab.height = lowest;
    slabs.push_back(std::move(slab));
}

}  // namespace rigdeed::layout
