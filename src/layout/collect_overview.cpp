#include <algorithm>

#include "base/text.hpp"
#include "layout/collect.hpp"

namespace rigdeed::layout {
namespace {

/// The list beside the rig: a line each with its page, and beneath it words where there is room for those of all.
class OverviewList {
 public:
    OverviewList(const document::Overview& block, const Setter& setter, Slab& slab, Points x)
        : block_(block), setter_(setter), slab_(slab), x_(x), width_(setter.width() - x) {
        if (block.lines.size() > 12) size_of_letters(7.75_pt);
        pitch_ = title_.leading + (block.lines.size() > 12 ? 1.9_pt : 4_pt);
    }

    /// Whether every name stands whole, in two lines at most; then letters are as large as that leaves them.
    bool whole_within(Points height) {
        const Style title = title_, text = text_;
        const Points pitch = pitch_, gap = pitch_ - title_.leading, least = std::min(gap, 1.2_pt);
        whole_ = true;
        for (Points size = title.size; size >= 6.75_pt; size = size - 0.25_pt) {
            if (size < title.size) size_of_letters(size);
            for (const Points between : {gap, least}) {
                pitch_ = title_.leading + between;
                const Points sum = height_of(block_.lines.size()) + pitch_ * static_cast<double>(block_.closing.size());
                if (sum > height) continue;
                if (std::all_of(block_.lines.begin(), block_.lines.end(),
                                [&](const auto& one) { return !one.mark || lines_of(one) <= 2; }))
                    return true;
            }
        }
        title_ = title, text_ = text, pitch_ = pitch, whole_ = false;
        return false;
    }

    /// What its longest line asks for.
    [[nodiscard]] Points wanted() const {
        Points widest;
        for (const document::Overview::Line& one : block_.lines)
            widest = std::max(widest, setter_.measure(one.title, title_));
        return widest + indent() + setter_.measure("000", text_) + 5_pt;
    }

    /// How many lines there is room for.
    [[nodiscard]] std::size_t fit(Points height) {
        const Points closing = pitch_ * static_cast<double>(block_.closing.size());
        Points room = height - closing;
        std::size_t shown = block_.lines.size();
        constexpr Points closest{8.5};
        if (!whole_ && pitch_ * static_cast<double>(shown) > room) {  // closer and smaller, before a line is left out
            const Points all = height * (1.0 / static_cast<double>(shown + block_.closing.size()));
            pitch_ = std::max(closest, std::min(pitch_, all));
            title_.leading = text_.leading = std::min(title_.leading, pitch_);
            title_.size = std::min(title_.size, std::max(6.75_pt, pitch_ * 0.8));
            room = height - pitch_ * static_cast<double>(block_.closing.size());
        }
        if (!whole_ && pitch_ * static_cast<double>(shown) > room)
            shown = static_cast<std::size_t>(std::max(0.0, room / pitch_ - 1));
        if (shown < block_.lines.size())  // what is left out anyway leaves room for whole names
            while (shown > 1 && height_of(shown) + pitch_ > room) --shown;
        room_ = room;
        return shown_ = shown;
    }

    /// What fit() found room for.
    void set() {
        const std::size_t shown = shown_;
        Points spare = room_ - pitch_ * static_cast<double>(shown < block_.lines.size() ? shown + 1 : shown);
        const std::vector<std::size_t> titles = lines_of_titles(shown, spare);
        for (std::size_t i = 0; i < shown && !whole_; ++i)
            cut_ = cut_ || (titles[i] == 1 && setter_.measure(block_.lines[i].title, title_) > title_width());
        Points y = 0_pt;
        const Tagged list = setter_.tagged("L");
        for (std::size_t i = 0; i < shown; ++i) {
            const document::Overview::Line& one = block_.lines[i];
            const Tagged item = setter_.tagged("LI");
            const Tagged body = setter_.tagged("LBody");
            const auto words = setter_.wrap(one.words, text_, width_ - indent());
            std::size_t lines = std::min<std::size_t>(words.size(), one.mark ? 1 : 9);
            while (lines > 0 && text_.leading * static_cast<double>(lines) > spare) --lines;
            spare -= text_.leading * static_cast<double>(lines);
            y += line(one, y, titles[i]) + title_.leading;
            for (std::size_t k = 0; k < lines; ++k, y += text_.leading) {
                const bool cut = k + 1 == lines && words.size() > lines;
                const Tagged scope = setter_.tagged("P");
                setter_.line(slab_, {x_ + indent(), y + baseline_in(text_)},
                             cut ? setter_.cut(words[k] + " " + words[k + 1], text_, width_ - indent()) : words[k],
                             text_);
            }
            y += pitch_ - title_.leading;
        }
        if (shown < block_.lines.size()) {
            const Tagged item = setter_.tagged("LI");
            const Tagged body = setter_.tagged("LBody");
            const Tagged scope = setter_.tagged("P");
            const auto worst = std::count_if(
                block_.lines.begin() + static_cast<std::ptrdiff_t>(shown), block_.lines.end(),
                [](const auto& line) { return line.mark && line.mark->verdict == document::Verdict::renew; });
            const std::string more = filled(worst > 0 ? block_.more_to_renew : block_.more,
                                            {{"n", std::to_string(block_.lines.size() - shown)},
                                             {"renew", std::to_string(worst)},
                                             {"page", "{page}"}});
            slab_.items.push_back(DraftPageNumber{
                {x_ + indent(), y + baseline_in(title_)}, block_.more_anchor, title_, more, setter_.element()});
            slab_.items.push_back(DraftLink{{{x_, y}, {width_, pitch_}}, block_.more_anchor, setter_.element()});
            y += pitch_;
        }
        for (const document::Overview::Line& one : block_.closing) {
            const Tagged item = setter_.tagged("LI");
            const Tagged body = setter_.tagged("LBody");
            line(one, y, 1);
            y += pitch_;
        }
    }

 private:
    void size_of_letters(Points size) {
        title_.size = size;
        title_.leading = size * 1.24;
        text_.size = std::min(text_.size, size);
        text_.leading = std::min(text_.leading, title_.leading);
    }
    [[nodiscard]] std::size_t lines_of(const document::Overview::Line& one) const {
        return setter_.wrap(one.title, title_, title_width()).size();
    }
    [[nodiscard]] bool is_long(const document::Overview::Line& one) const {
        return whole_ ? lines_of(one) > 1 : setter_.measure(one.title, smallest()) > title_width();
    }

    /// Of the first lines, long names in two.
    [[nodiscard]] Points height_of(std::size_t shown) const {
        Points sum = pitch_ * static_cast<double>(shown);
        for (std::size_t i = 0; i < shown; ++i)
            if (is_long(block_.lines[i])) sum += title_.leading;
        return sum;
    }

    /// A long name goes on in a second line before words are set beneath any, as far as there is room.
    std::vector<std::size_t> lines_of_titles(std::size_t shown, Points& spare) const {
        std::vector<std::size_t> lines(shown, 1);
        for (std::size_t i = 0; i < shown; ++i) {
            if (!is_long(block_.lines[i]) || spare < title_.leading) continue;
            lines[i] = 2;
            spare -= title_.leading;
        }
        return lines;
    }

    /// Returns how much more than one line it takes.
    Points line(const document::Overview::Line& one, Points y, std::size_t lines) {
        const Tagged scope = setter_.tagged("P");
        const bool numbered = crowded() && one.mark && one.mark->number > 0;  // in the shape it could not be read
        const Points u = numbered ? std::min(5_pt, pitch_ * 0.42) : std::min(6.2_pt, pitch_ * 0.46);
        if (one.mark)
            setter_.mark(slab_, {x_ + (numbered ? 5_pt : 8_pt), y + title_.leading * 0.5}, u,
                         {one.mark->verdict, numbered ? 0 : one.mark->number});
        if (numbered)
            setter_.line_right(slab_, {x_ + indent() - 4_pt, y + baseline_in(title_)}, std::to_string(one.mark->number),
                               title_);
        Style title = title_;  // names are set smaller before one is cut, all alike
        if (cut_) title.size = smallest().size;
        auto parts = setter_.wrap(one.title, title, title_width());
        if (parts.size() > lines) {
            for (std::size_t i = lines; i < parts.size(); ++i) parts[lines - 1] += " " + parts[i];
            parts.resize(lines);
            parts.back() = setter_.cut(parts.back(), title, title_width());
        }
        for (std::size_t i = 0; i < parts.size(); ++i)
            setter_.line(slab_, {x_ + indent(), y + title_.leading * static_cast<double>(i) + baseline_in(title_)},
                         parts[i], title);
        slab_.items.push_back(
            DraftPageNumber{{x_ + width_, y + baseline_in(title_)}, one.anchor, text_, {}, setter_.element()});
        const Points more = title_.leading * static_cast<double>(std::max<std::size_t>(parts.size(), 1) - 1);
        slab_.items.push_back(DraftLink{{{x_, y}, {width_, title_.leading + more}}, one.anchor, setter_.element()});
        return more;
    }

    [[nodiscard]] bool crowded() const { return block_.lines.size() > 12; }
    [[nodiscard]] Points indent() const { return crowded() ? 26_pt : 20_pt; }
    [[nodiscard]] Points title_width() const { return width_ - indent() - setter_.measure("000", text_) - 4_pt; }
    [[nodiscard]] Style smallest() const {
        Style style = title_;
        style.size = std::min(style.size, 6.6_pt);
        return style;
    }

    const document::Overview& block_;
    const Setter& setter_;
    Slab& slab_;
    Points x_;
    Points width_;
    Style title_ = look::row_title;
    Style text_ = look::remark;
    Points pitch_;
    bool whole_ = false;  ///< as whole_within found
    bool cut_ = false;    ///< a name is too long for its lines
    std::size_t shown_ = 0;
    Points room_;
};

}  // namespace

void collect_one(const document::Overview& block, const Setter& setter, Slabs& slabs) {
    Slab slab;
    slab.before = 5_pt;
    constexpr Points between{14};
    const Points list = std::max(OverviewList(block, setter, slab, 0_pt).wanted(), 120_pt);
    Points width = std::max(block.width, std::min(block.widest, setter.width() - between - list));
    // A narrower rig, before names are cut.
    Points narrower = width;
    while (narrower >= block.narrowest &&
           !OverviewList(block, setter, slab, narrower + between).whole_within(block.height))
        narrower = narrower - 5_pt;
    width = std::max(narrower, block.narrowest);
    OverviewList beside(block, setter, slab, width + between);
    beside.whole_within(block.height);
    const std::size_t listed = beside.fit(block.height);
    const auto marked = std::count_if(block.lines.begin(), block.lines.begin() + static_cast<std::ptrdiff_t>(listed),
                                      [](const auto& line) { return line.mark.has_value(); });
    const std::size_t marks = listed < block.lines.size() ? static_cast<std::size_t>(marked) : document::all_marks;
    setter.drawing(slab, {}, block.draw({width, block.height}, marks));
    beside.set();
    slab.height = block.height + 2_pt;
    slabs.push_back(std::move(slab));
}

}  // namespace rigdeed::layout
