#include "layout/paginate.hpp"

#include <algorithm>
#include <map>

#include "base/error.hpp"
#include "base/text.hpp"
#include "drawing/paths.hpp"
#include "layout/collect.hpp"
#include "layout/distribute.hpp"
#include "layout/margin_mast.hpp"

namespace rigdeed::layout {
namespace {

struct Place {
    std::size_t page;
    Points y;
};

/// Turns drafts into pages: page numbers, links, header and footer, once all pages are known.
class Finalizer {
 public:
    Finalizer(const document::Document& document, const TextMetrics& metrics, const Paper& paper,
              std::vector<DraftPage> drafts)
        : document_(document), metrics_(metrics), paper_(paper), drafts_(std::move(drafts)) {
        for (std::size_t page = 0; page < drafts_.size(); ++page)
            for (const PlacedSlab& one : drafts_[page].slabs)
                for (const std::string& anchor : split(one.slab.anchor, ' '))
                    if (!anchor.empty()) places_.emplace(anchor, Place{page, one.y});
    }

    void run(Pages& pages) {
        pages.size = paper_.size;
        for (std::size_t i = 0; i < drafts_.size(); ++i) {
            page_ = i;
            Page page;
            page.label = std::to_string(i + 1);
            out_ = &page.items;
            header();
            if (!document_.watermark.empty()) watermark();
            if (beside_mast()) add_margin_mast(document_.mast, marks_of(drafts_[i]), metrics_, paper_, page.items);
            for (PlacedSlab& one : drafts_[i].slabs) {
                bookmark(one, pages.bookmarks);
                for (DraftItem& item : one.slab.items)
                    std::visit([&](auto& draft) { place(draft, {paper_.left, one.y}); }, item);
            }
            footer();
            pages.pages.push_back(std::move(page));
        }
    }

 private:
    bool beside_mast() const {
        const auto& slabs = drafts_[page_].slabs;
        return std::any_of(slabs.begin(), slabs.end(), [](const PlacedSlab& one) { return one.slab.beside_mast; });
    }

    Points right() const { return beside_mast() ? paper_.left + paper_.mast_column : paper_.right(); }

    static std::vector<MarginMark> marks_of(const DraftPage& draft) {
        std::vector<MarginMark> marks;
        for (const PlacedSlab& one : draft.slabs)
            if (one.slab.mark) marks.push_back({*one.slab.mark, one.slab.mark_height});
        return marks;
    }

    void place(PlacedText& text, Point origin) {
        text.baseline = text.baseline + origin;
        out_->push_back(std::move(text));
    }

    void place(PlacedShape& shape, Point origin) {
        drawing::move_by(shape.shape.path, origin);
        out_->push_back(std::move(shape));
    }

    void place(PlacedImage& image, Point origin) {
        image.box.at = image.box.at + origin;
        if (image.clip) image.clip->centre = image.clip->centre + origin;
        out_->push_back(std::move(image));
    }

    void place(const DraftLink& link, Point origin) {
        const Place& target = find(link.anchor);
        out_->push_back(PlacedLink{{link.box.at + origin, link.box.size},
                                   target.page,
                                   target.y,
                                   filled(document_.foot.page_of_pages, {{"page", std::to_string(target.page + 1)},
                                                                         {"pages", std::to_string(drafts_.size())}}),
                                   link.element});
    }

    void place(const DraftPageNumber& number, Point origin) {
        const std::string page = std::to_string(find(number.anchor).page + 1);
        element_ = number.element;
        if (number.pattern.empty()) text_right(number.at + origin, page, number.style);
        else text_left(number.at + origin, filled(number.pattern, {{"page", page}}), number.style);
        element_ = artifact;
    }

    void place(const DraftText& draft, Point origin) {
        const std::string text =
            filled(draft.pattern, {{"page", std::to_string(page_ + 1)}, {"pages", std::to_string(drafts_.size())}});
        element_ = draft.element;
        if (draft.right_aligned) text_right(draft.at + origin, text, draft.style);
        else text_left(draft.at + origin, text, draft.style);
        element_ = artifact;
    }

    const Place& find(const std::string& anchor) const {
        const auto found = places_.find(anchor);
        if (found == places_.end())
            throw Error("a link to " + in_quotes(anchor) + " leads nowhere", {}, {}, ExitCode::bug);
        return found->second;
    }

    Points text_left(Point at, const std::string& text, const Style& style) {
        const Points width = metrics_.width(text, style.face, style.size);
        if (text.empty()) return width;
        PlacedText placed{at, text, style.face, style.size, style.colour, width};
        placed.element = element_;
        out_->push_back(std::move(placed));
        return width;
    }

    void text_right(Point at, const std::string& text, const Style& style) {
        text_left({at.x - metrics_.width(text, style.face, style.size), at.y}, text, style);
    }

    /// The cover has its letterhead instead, but never hides a stamp.
    void header() {
        const Style bold{Face::bold, 8.25_pt, 11_pt, drawing::black};
        const Style plain{Face::regular, 8.25_pt, 11_pt, drawing::black_70};
        const std::string stamps = join(document_.head.stamps, " · ");
        if (page_ == 0 && !document_.cover.empty()) {
            text_left({paper_.left, paper_.header - 8_pt}, stamps, bold);
            return;
        }
        const DraftPage& draft = drafts_[page_];
        const Points number = text_left({paper_.left, paper_.header}, draft.chapter_number, bold);
        const Points gap = draft.chapter_number.empty() ? 0_pt : 9_pt;
        text_left({paper_.left + number + gap, paper_.header}, draft.chapter, plain);
        text_right({right(), paper_.header}, document_.head.yacht, plain);
        if (!stamps.empty()) {
            const Points width = metrics_.width(stamps, bold.face, bold.size);
            text_left({paper_.left + (paper_.width - width) * 0.5, paper_.header - 14_pt}, stamps, bold);
        }
    }

    void footer() {
        drawing::Shape rule{
            {drawing::MoveTo{{paper_.left, paper_.foot_rule}}, drawing::LineTo{{right(), paper_.foot_rule}}},
            drawing::Stroke{look::hair, drawing::black_35, {}, false},
            {},
            1};
        out_->push_back(PlacedShape{std::move(rule)});
        Style bold = look::foot;
        bold.face = Face::bold;
        const Points width = text_left({paper_.left, paper_.foot}, document_.foot.paper, bold);
        text_left({paper_.left + width + 14_pt, paper_.foot}, document_.foot.data, look::foot);
        const std::string text = filled(document_.foot.page_of_pages, {{"page", std::to_string(page_ + 1)},
                                                                       {"pages", std::to_string(drafts_.size())}});
        text_right({right(), paper_.foot}, text, look::foot);
    }

    void watermark() {
        const Points size = 92_pt;
        const Points width = metrics_.width(document_.watermark, Face::black, size);
        PlacedText text{{paper_.size.width * 0.5 - width * 0.35, paper_.size.height * 0.5 + width * 0.35},
                        document_.watermark,
                        Face::black,
                        size,
                        drawing::black,
                        width};
        text.tilt = 45;
        text.alpha = 0.08;
        out_->push_back(std::move(text));
    }

    void bookmark(const PlacedSlab& one, std::vector<Bookmark>& bookmarks) const {
        if (!one.slab.entry) return;
        const Entry& entry = *one.slab.entry;
        const std::string number = entry.number.empty() ? std::string() : entry.number + "  ";
        bookmarks.push_back({number + entry.title, entry.level, page_, one.y});
    }

    const document::Document& document_;
    const TextMetrics& metrics_;
    const Paper& paper_;
    std::vector<DraftPage> drafts_;
    std::map<std::string, Place> places_;
    std::size_t page_ = 0;
    ElementIndex element_ = artifact;  ///< of the text being placed
    std::vector<PlacedItem>* out_ = nullptr;
};

/// A reader that takes the pieces of an element one after another hears them as words apart.
void part_words(Pages& pages) {
    std::vector<PlacedText*> last(pages.structure.size(), nullptr);
    for (Page& page : pages.pages)
        for (PlacedItem& item : page.items) {
            auto* text = std::get_if<PlacedText>(&item);
            if (text == nullptr || text->element == artifact) continue;
            PlacedText*& before = last[static_cast<std::size_t>(text->element)];
            if (before != nullptr && !before->goes_on && !before->text.ends_with(' ') && !text->text.starts_with(' '))
                before->text += ' ';
            before = text;
        }
}

}  // namespace

Pages paginate(const document::Document& document, const TextMetrics& metrics, const Paper& paper) {
    Pages pages;
    pages.own_words = document.own_words;
    StructureBuilder structure(pages.structure);
    const Setter setter(metrics, pages.images, structure, paper.width);
    const Setter narrow(metrics, pages.images, structure, paper.mast_column);
    std::vector<DraftPage> drafts = distribute(collect(document, setter, narrow, paper.bottom - paper.top), paper);
    const auto asked_for = std::find_if(drafts.begin(), drafts.end(), [](const DraftPage& one) {
        return !one.slabs.empty() && one.slabs.front().slab.page_break_before;
    });
    pages.cover_pages = static_cast<std::size_t>(asked_for - drafts.begin());
    Finalizer(document, metrics, paper, std::move(drafts)).run(pages);
    part_words(pages);
    return pages;
}

}  // namespace rigdeed::layout
