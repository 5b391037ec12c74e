#include <algorithm>

#include "document/measures.hpp"
#include "layout/captions.hpp"
#include "layout/collect.hpp"

namespace rigdeed::layout {
namespace {

constexpr std::size_t pairs_a_row = document::PairGrid::a_row;
constexpr Points photo_gap = document::measures::photo_gap;
constexpr Points card_photo = document::measures::card_photo;
constexpr Points card_gap{4};

/// Title and one line over two photos, far and close; a second pair beneath if both passes took one.
Points set_card(Slab& slab, const Setter& setter, Point top, const document::PairCard& card, Points width) {
    const Points indent = card.mark ? 12_pt : 0_pt;
    if (card.mark) setter.mark(slab, {top.x + 4_pt, top.y + 5_pt}, 3.6_pt, *card.mark);
    Style title = look::row_title;  // a long name is set smaller before it takes a second line
    while (title.size > 7.5_pt && setter.measure(card.title, title) > width - indent) title.size -= 0.25_pt;
    Points y = setter.text(slab, {top.x + indent, top.y}, card.title, title, width - indent);
    y += setter.text(slab, {top.x, top.y + y}, card.line, look::caption, width) + 2_pt;
    for (std::size_t i = 0; i < card.photos.size(); i += 2) {
        const std::size_t end = std::min(i + 2, card.photos.size());
        Points captions;
        for (std::size_t k = i; k < end; ++k)
            captions = std::max(captions, caption_height(setter, card.photos[k], card_photo));
        for (std::size_t k = i; k < end; ++k) {
            const Points x = top.x + (card_photo + card_gap) * static_cast<double>(k - i);
            set_caption(slab, setter, {x, top.y + y}, card.photos[k], card_photo);
            setter.photo(slab, {{x, top.y + y + captions + 1_pt}, {card_photo, card_photo * 0.75}}, card.photos[k]);
        }
        y += captions + card_photo * 0.75 + 4_pt;
    }
    return y;
}

/// At the right of its first line: where its work stands.
void set_work_link(Slab& slab, const Setter& setter, const document::FindingHead& block) {
    if (block.work.empty()) return;
    Style link = look::label;
    link.colour = drawing::black_70;
    const Points width = setter.measure(block.work, link);
    const Tagged scope = setter.tagged("P");
    setter.line(slab, {setter.width() - width, 4_pt + baseline_in(look::label)}, block.work, link);
    slab.items.push_back(
        DraftLink{{{setter.width() - width, 4_pt}, {width, look::label.leading}}, block.work_anchor, setter.element()});
}

/// One of several findings that are told together: shape, name and sentence, and where it is.
void set_small_head(Slab& slab, const Setter& setter, const document::FindingHead& block) {
    constexpr Points x{28};
    setter.mark(slab, {11_pt, 15_pt}, 7.8_pt, block.mark);
    Points y = 5_pt;
    {
        const Tagged scope = setter.tagged("H2");
        y += setter.text(slab, {x, y}, block.title, look::section, setter.width() - x - 60_pt);
    }
    set_work_link(slab, setter, block);
    y += setter.text(slab, {x, y}, block.verdict + ": " + block.sentence, look::row_text, setter.width() - x);
    y += setter.text(slab, {x, y}, block.place, look::caption, setter.width() - x);
    slab.height = y + 3_pt;
}

}  // namespace

void collect_one(const document::PictureRow& block, const Setter& setter, Slabs& slabs) {
    const double columns = static_cast<double>(block.columns);
    const Points width = (setter.width() - photo_gap * (columns - 1)) / columns;
    for (std::size_t first = 0; first < block.photos.size(); first += block.columns) {
        const std::size_t end = std::min(first + block.columns, block.photos.size());
        Slab slab;
        slab.before = 7_pt;
        Points captions;
        for (std::size_t i = first; i < end; ++i)
            captions = std::max(captions, caption_height(setter, block.photos[i], width));
        for (std::size_t i = first; i < end; ++i) {
            const Points x = (width + photo_gap) * static_cast<double>(i - first);
            set_caption(slab, setter, {x, 0_pt}, block.photos[i], width);
            setter.photo(slab, {{x, captions + 2_pt}, {width, width * 0.75}}, block.photos[i]);
        }
        slab.height = captions + 2_pt + width * 0.75 + 4_pt;
        slabs.push_back(std::move(slab));
    }
}

void collect_one(const document::PairGrid& block, const Setter& setter, Slabs& slabs) {
    const Points pitch = (setter.width() + photo_gap) / static_cast<double>(pairs_a_row);
    for (std::size_t first = 0; first < block.cards.size(); first += pairs_a_row) {
        Slab slab;
        slab.before = 8_pt;
        if (!block.anchor.empty()) slab.anchor = document::PairGrid::anchor_of(block.anchor, first);
        for (std::size_t i = first; i < std::min(first + pairs_a_row, block.cards.size()); ++i) {
            const Points x = pitch * static_cast<double>(i - first);
            slab.height = std::max(slab.height, set_card(slab, setter, {x, 0_pt}, block.cards[i], pitch - photo_gap));
        }
        slabs.push_back(std::move(slab));
    }
}

void collect_one(const document::Illustration& block, const Setter& setter, Slabs& slabs) {
    Slab slab;
    slab.before = 8_pt;
    setter.drawing(slab, {}, block.drawing);
    slab.height = block.drawing.size.height + 3_pt;
    if (!block.caption.empty())
        slab.height += setter.text(slab, {0_pt, slab.height}, block.caption, look::caption, setter.width()) + 2_pt;
    slabs.push_back(std::move(slab));
}

void collect_one(const document::FindingHead& block, const Setter& setter, Slabs& slabs) {
    Slab slab;
    slab.before = 6_pt;
    slab.keep_with_next = true;
    slab.anchor = block.anchor;
    slab.entry = Entry{std::to_string(block.mark.number), block.title, 1};
    slab.mark = block.mark;
    slab.mark_height = block.height;
    setter.rule(slab, {0_pt, 0_pt}, setter.width(), look::rule);
    if (block.small) {
        set_small_head(slab, setter, block);
        slabs.push_back(std::move(slab));
        return;
    }
    const Points u = 13_pt;
    setter.mark(slab, {u * 1.34, 26_pt}, u, block.mark);
    const Points x = 46_pt;
    Points y = block.place.empty() ? 7_pt : 5_pt;
    Style title = look::finding_title;
    if (!block.place.empty()) title.size = 16_pt, title.leading = 18_pt;
    {
        const Tagged scope = setter.tagged("H2");
        y += setter.text(slab, {x - 1_pt, y}, block.title, title, setter.width() - x - 60_pt);
    }
    Points tag = 0_pt;
    if (!block.tag.empty()) {
        tag = setter.measure(block.tag, look::row_title) + 16_pt;
        setter.filled_box(slab, {{setter.width() - tag, y}, {tag, 15_pt}}, drawing::black);
        setter.line(slab, {setter.width() - tag + 8_pt, y + 10.5_pt}, block.tag,
                    {look::row_title.face, look::row_title.size, look::row_title.leading, drawing::white});
    }
    const Points word =
        setter.line(slab, {x, y + baseline_in(look::verdict_word)}, block.verdict, look::verdict_word) + 8_pt;
    set_work_link(slab, setter, block);
    y += std::max(
        setter.text(slab, {x + word, y}, block.sentence, look::subtitle, setter.width() - x - word - tag - 8_pt),
        look::subtitle.leading);
    if (!block.place.empty())
        y += setter.text(slab, {x, y + 1_pt}, block.place, look::remark, setter.width() - x) + 1_pt;
    slab.height = std::max(y, 42_pt) + 3_pt;
    slabs.push_back(std::move(slab));
}

}  // namespace rigdeed::layout
