#include <algorithm>
#include <memory>
#include <optional>

#include "layout/collect.hpp"

namespace rigdeed::layout {
namespace {

using document::Align;
using document::Cell;
using document::Column;
using document::Row;
using document::RowGroup;
using document::Table;

constexpr Points cell_gap{8};
constexpr Points mark_size{7.2};
constexpr Points small_mark{4.6};
constexpr Points numbered_size{6.4};  ///< in a small table: its number can be read
constexpr Style note_style{Face::regular, 6.5_pt, 8.1_pt, drawing::black_70};

class TableCollector {
 public:
    TableCollector(const Table& table, const Setter& setter, Slabs& slabs)
        : table_(table), setter_(setter), slabs_(slabs), level_(setter.structure().heading_below()) {
        if (table.small) {
            bold_.size = text_.size = 7.5_pt;
            bold_.leading = text_.leading = 9.2_pt;
            below_ = 3.4_pt;
            above_ = 2_pt;
        }
        Points x;
        for (const Column& column : table.columns) {
            lefts_.push_back(x);
            widths_.push_back(setter.width() * column.share - cell_gap);
            x += setter.width() * column.share;
        }
        if (!widths_.empty()) widths_.back() += cell_gap;
    }

    void run() {
        const bool headed = std::any_of(table_.columns.begin(), table_.columns.end(),
                                        [](const Column& one) { return !one.head.empty(); });
        std::optional<Tagged> element;  // a heading between rows ends one table and begins the next
        if (headed) {
            element.emplace(setter_.structure(), "Table");
            head_ = std::make_shared<const Slab>(head());
            slabs_.push_back(*head_);
        }
        for (const RowGroup& group : table_.groups) {
            if (!group.heading.empty()) {
                element.reset();
                slabs_.push_back(group_heading(group));
            }
            if (!element && !group.rows.empty()) element.emplace(setter_.structure(), "Table");
            for (const Row& row : group.rows) slabs_.push_back(make_row(row, &row == &group.rows.back()));
        }
    }

 private:
    Slab head() const {
        Slab slab;
        slab.before = 4_pt;
        slab.keep_with_next = true;
        const Points baseline = baseline_in(look::label);
        const Tagged row = setter_.tagged("TR");
        for (std::size_t i = 0; i < table_.columns.size(); ++i) {
            const Tagged cell = setter_.tagged("TH");
            if (table_.columns[i].align == Align::right)
                setter_.line_right(slab, {lefts_[i] + widths_[i], baseline}, table_.columns[i].head, look::label);
            else setter_.line(slab, {lefts_[i], baseline}, table_.columns[i].head, look::label);
        }
        slab.height = look::label.leading + 3_pt;
        setter_.rule(slab, {0_pt, slab.height}, setter_.width(), look::rule);
        return slab;
    }

    Slab group_heading(const RowGroup& group) const {
        Slab slab;
        const bool under_head = head_ && &group == &table_.groups.front();
        slab.before = under_head ? 0_pt : 9_pt;
        slab.keep_with_next = true;
        slab.head = head_;
        if (!under_head) setter_.rule(slab, {0_pt, 0_pt}, setter_.width(), look::rule);
        const Tagged scope = setter_.tagged(level_);
        const Points width = setter_.line(slab, {0_pt, 14.5_pt}, group.heading, look::section);
        setter_.line(slab, {width + 8_pt, 14.5_pt}, group.remark, look::remark);
        slab.height = 20_pt;
        return slab;
    }

    Slab make_row(const Row& row, bool last) const {
        Slab slab;
        slab.head = head_;
        slab.anchor = row.anchor;
        if (row.height && !row.cells.empty() && row.cells[0].mark) {
            slab.mark = row.cells[0].mark;
            slab.mark_height = *row.height;
        }
        Points lowest;
        const Tagged scope = setter_.tagged("TR");
        for (std::size_t i = 0; i < row.cells.size(); ++i) {
            const bool names = table_.columns[i].names_row;
            const Tagged cell = setter_.tagged(names ? "TH" : "TD");
            if (names) setter_.structure().head_row();
            lowest = std::max(lowest, set_cell(slab, row.cells[i], i));
            if (i + 1 < row.cells.size()) continue;
            lowest = set_notes(slab, row, lowest);
            slab.height = lowest + below_;
            if (!row.link.empty())
                slab.items.push_back(
                    DraftLink{{{0_pt, 0_pt}, {setter_.width(), slab.height}}, row.link, setter_.element()});
        }
        const Points indent =
            table_.columns.front().head.empty() && !row.cells.empty() && row.cells[0].mark ? lefts_[1] : 0_pt;
        if (!last) setter_.rule(slab, {indent, slab.height}, setter_.width() - indent, look::hair, drawing::black_35);
        return slab;
    }

    /// One below the other; what a note says second stands beside what it says first. Returns how far down they reach.
    Points set_notes(Slab& slab, const Row& row, Points top) const {
        const Points half = setter_.width() * 0.5;
        for (const std::vector<std::string>& note : row.notes) {
            Points lowest = top + (&note == &row.notes.front() ? 1_pt : 0_pt);
            const Points y = lowest;
            for (std::size_t i = 0; i < note.size(); ++i) {
                const Points width = note.size() > 1 ? half - 7_pt : setter_.width();
                const Points x = half * static_cast<double>(i);
                lowest = std::max(lowest, y + setter_.text(slab, {x, y}, note[i], note_style, width));
            }
            top = lowest;
        }
        return top;
    }

    /// Returns how far down the cell reaches.
    Points set_cell(Slab& slab, const Cell& cell, std::size_t column) const {
        const Points x = lefts_[column];
        const Points width = widths_[column];
        const bool right = table_.columns[column].align == Align::right;
        Points y = above_;
        const auto set = [&](const std::string& text, const Style& style) {
            if (!right) {
                y += setter_.text(slab, {x, y}, text, style, width);
                return;
            }
            for (const std::string& line : setter_.wrap(text, style, width)) {
                setter_.line_right(slab, {x + width, y + baseline_in(style)}, line, style);
                y += style.leading;
            }
        };
        if (cell.mark) {
            const Points u = !table_.small ? mark_size : cell.mark->number > 0 ? numbered_size : small_mark;
            const Point centre{x + mark_size * 1.34, y + bold_.leading * 0.5};
            if (cell.mark->number > 0 && cell.bold.empty() && cell.lines.empty())
                setter_.told_mark(slab, centre, u, *cell.mark);
            else setter_.mark(slab, centre, u, *cell.mark);
            y += u * 2 - 1_pt;
        }
        if (!cell.bold.empty()) set(cell.bold, bold_);
        for (const std::string& line : cell.lines) set(line, text_);
        if (!cell.page_of.empty()) {
            slab.items.push_back(
                DraftPageNumber{{x + width, y + baseline_in(text_)}, cell.page_of, text_, {}, setter_.element()});
            y += text_.leading;
        }
        if (cell.line_to_write_on)
            setter_.rule(slab, {x + 4_pt, y + 9_pt}, width - 4_pt, look::hair, drawing::black_62);
        return y;
    }

    const Table& table_;
    const Setter& setter_;
    Slabs& slabs_;
    std::string level_;  ///< of the groups' headings
    Style bold_ = look::row_title;
    Style text_ = look::row_text;
    Points above_{4};
    Points below_{7};
    std::vector<Points> lefts_;
    std::vector<Points> widths_;
    std::shared_ptr<const Slab> head_;
};

}  // namespace

void collect_one(const Table& block, const Setter& setter, Slabs& slabs) { TableCollector(block, setter, slabs).run(); }

}  // namespace rigdeed::layout
