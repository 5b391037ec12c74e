#include "layout/distribute.hpp"

#include <algorithm>

namespace rigdeed::layout {
namespace {

/// What is repeated is not read twice.
Slab as_artifact(Slab slab) {
    for (DraftItem& item : slab.items) std::visit([](auto& one) { one.element = artifact; }, item);
    return slab;
}

class Distributor {
 public:
    Distributor(Slabs slabs, const Paper& paper) : slabs_(std::move(slabs)), paper_(paper) { new_page(); }

    std::vector<DraftPage> run() {
        for (std::size_t i = 0; i < slabs_.size();) {
            const std::size_t end = chain_end(i);
            if (slabs_[i].page_break_before && !empty() && !goes_on(slabs_[i])) new_page();
            if (!fits(i, end, y_, empty()) && !empty()) {
                const bool fits_alone = fits(i, end, paper_.top, true);
                if (fits_alone || remaining() < (paper_.bottom - paper_.top) * 0.3) new_page();
            }
            for (; i < end; ++i) place(std::move(slabs_[i]));
        }
        return std::move(pages_);
    }

 private:
    /// One past the last slab that the one at `i` must stay with.
    std::size_t chain_end(std::size_t i) const {
        while (i < slabs_.size() && slabs_[i].keep_with_next) ++i;
        return std::min(i + 1, slabs_.size());
    }

    bool fits(std::size_t first, std::size_t end, Points y, bool at_top) const {
        for (std::size_t i = first; i < end; ++i) {
            if (at_top && slabs_[i].head) y += slabs_[i].head->height;
            if (!at_top) y += slabs_[i].before;
            y += slabs_[i].height;
            if (slabs_[i].height > 0_pt) at_top = false;
        }
        return y <= paper_.bottom;
    }

    /// Where the page has room for it; what has a mast beside it shares no page with what has none.
    bool goes_on(const Slab& slab) const {
        return slab.unless_left > 0_pt && remaining() > slab.unless_left &&
               std::all_of(pages_.back().slabs.begin(), pages_.back().slabs.end(),
                           [&](const PlacedSlab& one) { return one.slab.beside_mast == slab.beside_mast; });
    }

    bool empty() const { return !anything_; }
    Points remaining() const { return paper_.bottom - y_; }

    void new_page() {
        DraftPage page;
        page.chapter = chapter_;
        page.chapter_number = chapter_number_;
        pages_.push_back(std::move(page));
        y_ = paper_.top;
        anything_ = false;
    }

    void place(Slab slab) {
        if (!empty() && y_ + slab.before + slab.height > paper_.bottom) new_page();
        if (empty() && slab.head) put(as_artifact(*slab.head));
        if (!empty()) y_ += slab.before;
        put(std::move(slab));
    }

    void put(Slab slab) {
        if (slab.entry && slab.entry->level == 0) {
            chapter_ = slab.entry->title;
            chapter_number_ = slab.entry->number;
            if (empty()) {
                pages_.back().chapter = chapter_;
                pages_.back().chapter_number = chapter_number_;
            }
        }
        const Points height = slab.height;
        const bool visible = !slab.items.empty();
        pages_.back().slabs.push_back({std::move(slab), y_});
        y_ += height;
        anything_ = anything_ || visible;
    }

    Slabs slabs_;
    const Paper& paper_;
    std::vector<DraftPage> pages_;
    std::string chapter_;
    std::string chapter_number_;
    Points y_;
    bool anything_ = false;
};

}  // namespace

std::vector<DraftPage> distribute(Slabs slabs, const Paper& paper) {
    return Distributor(std::move(slabs), paper).run();
}

}  // namespace rigdeed::layout
