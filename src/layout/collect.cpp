#include "layout/collect.hpp"

#include <map>
#include <optional>

#include "layout/fill_pages.hpp"

namespace rigdeed::layout {
namespace {

using document::Block;

/// Chapters, in order: findings stand on the cover, in the works list and in the register, each with its page.
void list_entries(const std::vector<Block>& blocks, std::vector<std::pair<Entry, std::string>>& entries) {
    for (const Block& block : blocks)
        if (const auto* heading = std::get_if<document::Heading>(&block.value))
            if (!heading->anchor.empty() && heading->level == document::Level::title)
                entries.emplace_back(Entry{heading->number, heading->text, 0}, heading->anchor);
}

void collect_contents(const std::vector<std::pair<Entry, std::string>>& entries, const Setter& setter, Slabs& slabs) {
    const Tagged list = setter.tagged("TOC");
    for (const auto& [entry, anchor] : entries) {
        constexpr Points indent{24};
        const Tagged scope = setter.tagged("TOCI");
        const Tagged reference = setter.tagged("Reference");
        Slab slab;
        slab.before = 3_pt;
        slab.height = look::body_bold.leading + 2_pt;
        slab.keep_with_next = true;
        const Points baseline = baseline_in(look::body_bold);
        setter.line_right(slab, {indent - 8_pt, baseline}, entry.number, look::body_bold);
        const auto lines = setter.wrap(entry.title, look::body_bold, setter.width() - indent - 40_pt);
        setter.line(slab, {indent, baseline}, lines.empty() ? std::string() : lines.front(), look::body_bold);
        slab.items.push_back(
            DraftPageNumber{{setter.width(), baseline}, anchor, look::body_bold, {}, setter.element()});
        slab.items.push_back(DraftLink{{{0_pt, 0_pt}, {setter.width(), slab.height}}, anchor, setter.element()});
        setter.rule(slab, {0_pt, slab.height}, setter.width(), look::hair, drawing::black_35);
        slabs.push_back(std::move(slab));
    }
    if (!slabs.empty()) slabs.back().keep_with_next = false;
}

class Collector {
 public:
    Collector(const Setter& wide, const Setter& narrow, Slabs& slabs, Points page)
        : wide_(wide), narrow_(narrow), slabs_(slabs), page_(page) {}

    void list(const std::vector<Block>& all) { list_entries(all, entries_); }

    /// A page whose overview takes what the others leave.
    void run_cover(const std::vector<Block>& blocks) {
        std::vector<Block> others;
        for (const Block& block : blocks)
            if (!std::holds_alternative<document::Overview>(block.value)) others.push_back(block);
        room_ = page_ - height_of(others) - 8_pt;  // white above it, and a little below
        if (!blocks.empty()) chapter_.emplace(wide_.structure(), "Sect");
        run(blocks);
    }

    void run(const std::vector<Block>& blocks) {
        const auto is_step = [&](std::size_t i) {
            return i < blocks.size() && std::holds_alternative<document::Step>(blocks[i].value);
        };
        std::optional<Tagged> list;  // steps that follow each other
        for (std::size_t i = 0; i < blocks.size(); ++i) {
            if (is_step(i) && !list) list.emplace(wide_.structure(), "L");
            std::visit([&](const auto& one) { take(one); }, blocks[i].value);
            if (!is_step(i + 1)) list.reset();
        }
    }

 private:
    void take(const document::Contents&) {
        const std::size_t first = slabs_.size();
        collect_contents(entries_, beside_mast_ ? narrow_ : wide_, slabs_);
        for (std::size_t i = first; i < slabs_.size(); ++i) slabs_[i].beside_mast = beside_mast_;
    }

    void take(const document::MastMargin& margin) { beside_mast_ = margin.on; }

    void take(const document::PageBreak& page_break) {
        Slab slab;
        slab.page_break_before = true;
        slab.unless_left = page_break.unless_left;
        slab.beside_mast = beside_mast_;
        slab.keep_with_next = true;
        slabs_.push_back(std::move(slab));
    }

    void take(const document::Space& space) {
        Slab slab;
        slab.before = space.height;
        slabs_.push_back(std::move(slab));
    }

    void take(const document::Together& together) { keep_on_one_page(together.blocks); }

    /// On as few pages as hold them, each as roomy as its page allows.
    void take(const document::Stack& stack) {
        std::map<std::pair<std::size_t, std::size_t>, Points> known;  // heights are dear: only those that are asked for
        Pieces pieces{[&](std::size_t piece, std::size_t way) {
                          const auto [found, fresh] = known.try_emplace({piece, way});
                          if (fresh) found->second = height_below_gap(stack.pieces[piece].ways[way]);
                          return found->second;
                      },
                      {},
                      {},
                      stack.between,
                      page_,
                      used()};
        for (const document::Stack::Piece& piece : stack.pieces) {
            pieces.ways.push_back(piece.ways.size());
            pieces.shared.push_back(piece.shared);
        }
        const std::vector<Placing> placed = fill_pages(pieces);
        for (std::size_t i = 0; i < placed.size(); ++i) {
            if (placed[i].new_page) {
                take(document::PageBreak{});
                slabs_.back().keep_with_next = false;
            }
            const std::size_t first = slabs_.size();
            keep_on_one_page(stack.pieces[i].ways[placed[i].way]);
            if (first < slabs_.size()) slabs_[first].before = i > 0 ? stack.between : 0_pt;
        }
    }

    void keep_on_one_page(const std::vector<Block>& blocks) {
        const std::size_t first = slabs_.size();
        run(blocks);
        for (std::size_t i = first; i + 1 < slabs_.size(); ++i) slabs_[i].keep_with_next = true;
    }

    /// Of the page that is being filled: what stands since the last one that was asked for.
    Points used() const {
        Points sum;
        bool at_top = true;
        for (const Slab& slab : slabs_) {
            if (slab.page_break_before) sum = 0_pt, at_top = true;
            sum += at_top ? slab.height : slab.before + slab.height;
            if (slab.height > 0_pt) at_top = false;
            if (sum > page_) sum = slab.height;
        }
        return sum;
    }

    Slabs rehearsed(const std::vector<Block>& blocks) const {
        std::vector<Image> images;
        std::vector<Element> elements;
        StructureBuilder structure(elements);
        const Setter wide = wide_.rehearsal(images, structure), narrow = narrow_.rehearsal(images, structure);
        Slabs slabs;
        Collector rehearsal(wide, narrow, slabs, page_);
        rehearsal.beside_mast_ = beside_mast_;
        rehearsal.run(blocks);
        return slabs;
    }

    Points height_of(const std::vector<Block>& blocks) const {
        Points sum;
        for (const Slab& slab : rehearsed(blocks)) sum += slab.before + slab.height;
        return sum;
    }

    /// Without the white above the first.
    Points height_below_gap(const std::vector<Block>& blocks) const {
        Points sum;
        for (bool first = true; const Slab& slab : rehearsed(blocks)) {
            sum += first ? slab.height : slab.before + slab.height;
            first = false;
        }
        return sum;
    }

    /// A chapter is a section of the document's structure, from its title to the next.
    void take(const document::Heading& heading) {
        if (heading.level == document::Level::title) {
            chapter_.reset();
            chapter_.emplace(wide_.structure(), "Sect");
        }
        const std::size_t first = slabs_.size();
        collect_one(heading, beside_mast_ ? narrow_ : wide_, slabs_);
        for (std::size_t i = first; i < slabs_.size(); ++i) slabs_[i].beside_mast = beside_mast_;
    }

    /// As high as what else stands on its page leaves room for.
    void take(const document::Overview& overview) {
        document::Overview fitted = overview;
        fitted.height = std::max(54_pt, room_);
        const std::size_t first = slabs_.size();
        collect_one(fitted, beside_mast_ ? narrow_ : wide_, slabs_);
        for (std::size_t i = first; i < slabs_.size(); ++i) slabs_[i].beside_mast = beside_mast_;
    }

    template <class T>
    void take(const T& block) {
        const std::size_t first = slabs_.size();
        collect_one(block, beside_mast_ ? narrow_ : wide_, slabs_);
        for (std::size_t i = first; i < slabs_.size(); ++i) slabs_[i].beside_mast = beside_mast_;
    }

    const Setter& wide_;
    const Setter& narrow_;
    bool beside_mast_ = false;
    Slabs& slabs_;
    Points page_;
    Points room_{236};  ///< for an overview
    std::vector<std::pair<Entry, std::string>> entries_;
    std::optional<Tagged> chapter_;
};

}  // namespace

Slabs collect(const document::Document& document, const Setter& setter, const Setter& narrow, Points page) {
    Slabs slabs;
    Collector collector(setter, narrow, slabs, page);
    collector.list(document.blocks);
    collector.run_cover(document.cover);
    collector.run(document.blocks);
    return slabs;
}

}  // namespace rigdeed::layout
