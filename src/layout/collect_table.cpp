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

class TableCollector {
 public:
    TableCollector(const Table& table, const Setter& setter, Slabs& slabs)
        : table_(table), setter_(setter), slabs_(slabs) {
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
        const Tagged scope = setter_.tagged("P");
        const Points width = setter_.line(slab, {0_pt, 14.5_pt}, group.heading, look::section);
        setter_.line(slab, {width + 8_pt, 14.5_pt}, group.remark, look::remark);
        slab.height = 20_pt;
        return slab;
    }

    Slab make_row(const Row& row, bool last) const {
        Slab slab;
        slab.head = head_;
        Points lowest;
        const Tagged scope = setter_.tagged("TR");
        for (std::size_t i = 0; i < row.cells.size(); ++i) {
            const Tagged cell = setter_.tagged("TD");
            lowest = std::max(lowest, set_cell(slab, row.cells[i], i));
            if (i + 1 < row.cells.size()) continue;
            if (!row.below.empty()) {
                setter_.line(slab, {0_pt, lowest + baseline_in(look::digits)}, row.below, look::digits);
                lowest += look::digits.leading;
            }
            slab.height = lowest + 7_pt;
            if (!row.link.empty())
                slab.items.push_back(
                    DraftLink{{{0_pt, 0_pt}, {setter_.width(), slab.height}}, row.link, setter_.element()});
        }
        const Points indent =
            table_.columns.front().head.empty() && !row.cells.empty() && row.cells[0].mark ? lefts_[1] : 0_pt;
        if (!last) setter_.rule(slab, {indent, slab.height}, setter_.width() - indent, look::hair, drawing::black_35);
        return slab;
    }

    /// Returns how far down the cell reaches.
    Points set_cell(Slab& slab, const Cell& cell, std::size_t column) const {
        const Points x = lefts_[column];
        const Points width = widths_[column];
        const bool right = table_.columns[column].align == Align::right;
        Points y = 4_pt;
        const auto set = [&](const std::string& text, const Style& style) {
            for (const std::string& line : setter_.wrap(text, style, width)) {
                if (right) setter_.line_right(slab, {x + width, y + baseline_in(style)}, line, style);
                else setter_.line(slab, {x, y + baseline_in(style)}, line, style);
                y += style.leading;
            }
        };
        if (cell.mark) {
            setter_.mark(slab, {x + mark_size * 1.34, y + 5.4_pt}, mark_size, *cell.mark);
            y += mark_size * 2 - 1_pt;
        }
        if (!cell.bold.empty()) set(cell.bold, look::row_title);
        for (const std::string& line : cell.lines) set(line, look::row_text);
        if (!cell.page_of.empty()) {
            slab.items.push_back(DraftPageNumber{
                {x + width, y + baseline_in(look::row_text)}, cell.page_of, look::row_text, {}, setter_.element()});
            y += look::row_text.leading;
        }
        if (cell.line_to_write_on)
            setter_.rule(slab, {x + 4_pt, y + 9_pt}, width - 4_pt, look::hair, drawing::black_55);
        return y;
    }

    const Table& table_;
    const Setter& setter_;
    Slabs& slabs_;
    std::vector<Points> lefts_;
    std::vector<Points> widths_;
    std::shared_ptr<const Slab> head_;
};

}  // namespace

void collect_one(const Table& block, const Setter& setter, Slabs& slabs) { TableCollector(block, setter, slabs).run(); }

}  // namespace rigdeed::layout
