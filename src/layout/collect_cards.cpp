#include <algorithm>

#include "layout/collect.hpp"

namespace rigdeed::layout {
namespace {

constexpr std::size_t cards_a_row = 2;
constexpr Points card_height{318};  // two rows a page, also on Letter with a heading above
constexpr Points margin{16};

void set_card(Slab& slab, const Setter& setter, Point at, Points width, const document::PlaceCodes& card) {
    const Tagged scope = setter.tagged("Sect");
    setter.framed_box(slab, {at, {width, card_height}}, 0.5_pt, drawing::black_62, {3_pt, 3_pt});
    const Points inner = width - margin * 2.0;
    Points y = at.y + margin;
    y += setter.text(slab, {at.x + margin, y}, card.title, look::tick_title, inner);
    // The hole of the ring is at the right, between the codes: one above the other, far enough apart for a thumb.
    const Points side = card.up.size.height;
    const Points first = at.y + card_height - margin - side * 2.0 - 22_pt;
    for (const auto& [drawing, word, top] :
         {std::tuple(&card.up, &card.up_word, first), std::tuple(&card.down, &card.down_word, first + side + 22_pt)}) {
        setter.drawing(slab, {at.x + margin + 6_pt, top}, *drawing);
        setter.text(slab, {at.x + margin + side + 26_pt, top + side * 0.5 - 8_pt}, *word, look::tick_title,
                    inner - side - 26_pt);
    }
}

}  // namespace

void collect_one(const document::PlaceCards& block, const Setter& setter, Slabs& slabs) {
    const Points width = setter.width() * (1.0 / static_cast<double>(cards_a_row));
    for (std::size_t first = 0; first < block.cards.size(); first += cards_a_row) {
        Slab slab;
        slab.height = card_height;
        for (std::size_t i = first; i < std::min(first + cards_a_row, block.cards.size()); ++i)
            set_card(slab, setter, {width * static_cast<double>(i - first), 0_pt}, width, block.cards[i]);
        slabs.push_back(std::move(slab));
    }
}

}  // namespace rigdeed::layout
