#include "layout/margin_mast.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "drawing/paths.hpp"
#include "drawing/verdict_shape.hpp"

namespace rigdeed::layout {
namespace {

constexpr Points masthead{92};
constexpr Points above_foot_rule{40};
constexpr Points u{7.2};
constexpr Points pitch = u * 2.7;  ///< of marks one below the other

class Margin {
 public:
    Margin(const document::MarginMast& mast, const TextMetrics& metrics, const Paper& paper,
           std::vector<PlacedItem>& items)
        : mast_(mast),
          metrics_(metrics),
          items_(items),
          axis_(paper.mast_axis),
          waterline_(paper.foot_rule - above_foot_rule) {}

    void draw(const std::vector<MarginMark>& marks) {
        const std::vector<Placed> placed = places(marks);
        for (const double side : {-1.3, 1.3})
            line({axis_ + Points{side}, y_of(mast_.top)}, {axis_ + Points{side}, y_of(mast_.deck)}, 0.5_pt);
        line({axis_ - 3_pt, y_of(mast_.top)}, {axis_ + 3_pt, y_of(mast_.top)}, 1.1_pt);
        word({axis_, y_of(mast_.top) - 4_pt}, mast_.metre, 0.5, -1, placed);
        for (int z = 1; z <= static_cast<int>(mast_.top); ++z) {
            const Points y = y_of(z);
            line({axis_ + 1.3_pt, y}, {axis_ + (z % 5 == 0 ? 7_pt : 4_pt), y}, 0.5_pt);
            const bool hidden = std::any_of(placed.begin(), placed.end(), [&](const Placed& one) {
                return std::abs((one.at.y - y).value) < u.value * 2;
            });
            if (z % 5 == 0 && !hidden) text({axis_ + 9_pt, y + 2.2_pt}, std::to_string(z), 0);
        }
        line({axis_ - 14_pt, y_of(mast_.deck)}, {axis_ + 14_pt, y_of(mast_.deck)}, 1.1_pt);
        line({axis_ - 14_pt, waterline_}, {axis_ + 14_pt, waterline_}, 0.5_pt);
        for (const double z : mast_.spreaders)
            for (const double side : {-1.0, 1.0})
                line({axis_ + Points{side * 1.3}, y_of(z)}, {axis_ + Points{side * 13}, y_of(z) - 1_pt}, 1.1_pt);
        word({axis_ - 14_pt, y_of(mast_.deck) + 7_pt}, mast_.deck_word, 0, 1, placed);
        word({axis_, waterline_ + 7.5_pt}, mast_.waterline_word, 0.5, 1, placed);
        for (const Placed& one : placed) draw(one);
    }

 private:
    struct Placed {
        MarginMark mark;
        Point at;
    };

    Points y_of(double z) const {
        return waterline_ - (waterline_ - masthead) * (std::clamp(z, 0.0, mast_.top) / mast_.top);
    }

    /// On the axis at their heights; where that is too near, left and right of it, and no nearer to each other than
    /// they are high, as long as there is room.
    std::vector<Placed> places(std::vector<MarginMark> marks) const {
        std::stable_sort(marks.begin(), marks.end(),
                         [](const MarginMark& a, const MarginMark& b) { return a.height > b.height; });
        std::vector<Placed> placed;
        std::array<Points, 2> last{Points{-100}, Points{-100}};
        for (std::size_t i = 0; i < marks.size(); ++i) {
            const Points y = y_of(marks[i].height);
            const bool near_next = i + 1 < marks.size() && y_of(marks[i + 1].height) - y < pitch;
            const std::size_t column = last[0] <= last[1] ? 0 : 1;
            if (!near_next && std::max(last[0], last[1]) + pitch <= y) {
                last[0] = last[1] = y;
                placed.push_back({marks[i], {axis_, y}});
                continue;
            }
            last[column] = std::max(y, last[column] + pitch);
            placed.push_back({marks[i], {axis_ + (column == 0 ? -11_pt : 11_pt), last[column]}});
        }
        // What was pushed below the deck goes up again: beneath it are its word, and what was found lower still.
        std::array<Points, 2> lowest{waterline_ + 6_pt, waterline_ + 6_pt};
        for (std::size_t i = placed.size(); i-- > 0;) {
            const Points own = std::max(y_of(placed[i].mark.height), y_of(mast_.deck) - 10_pt);
            lowest = {std::min(lowest[0], own), std::min(lowest[1], own)};
            const bool middle = placed[i].at.x == axis_;
            const std::size_t column = placed[i].at.x < axis_ ? 0 : 1;
            const Points room = middle ? std::min(lowest[0], lowest[1]) : lowest[column];
            placed[i].at.y = std::min(placed[i].at.y, room);
            if (middle) lowest = {placed[i].at.y - pitch, placed[i].at.y - pitch};
            else lowest[column] = placed[i].at.y - pitch;
        }
        return placed;
    }

    /// A mark that stands beside its height is led to it.
    void draw(const Placed& one) {
        const Point true_place{axis_, y_of(one.mark.height)};
        if (one.at.x != axis_ && std::abs((one.at.y - true_place.y).value) > 2) {
            const Points side = one.at.x < axis_ ? Points{-2.4} : Points{2.4};  // along the mast, then out: none cross
            line({axis_, true_place.y}, {axis_ + side, true_place.y}, 0.5_pt);
            line({axis_ + side, true_place.y}, {axis_ + side, one.at.y}, 0.5_pt);
            line({axis_ + side, one.at.y}, one.at, 0.5_pt);
        }
        drawing::Drawing shape;
        shape.items.push_back(drawing::Shape{drawing::circle(one.at, u * 1.35), {}, drawing::white, 1});
        drawing::add_verdict_shape(shape, one.mark.mark.verdict, one.at, u, one.mark.mark.number);
        for (const auto& item : shape.items) {
            if (const auto* part = std::get_if<drawing::Shape>(&item)) items_.emplace_back(PlacedShape{*part});
            if (const auto* label = std::get_if<drawing::Label>(&item)) {
                const Points width = metrics_.width(label->text, Face::bold, label->size);
                items_.emplace_back(PlacedText{{label->at.x - width * 0.5, label->at.y},
                                               label->text,
                                               Face::bold,
                                               label->size,
                                               label->colour,
                                               width});
            }
        }
    }

    /// Moves up or down out of the way of marks; left out where there is no place near.
    void word(Point at, const std::string& words, double share, int way, const std::vector<Placed>& placed) {
        const auto hidden = [&] {
            return std::any_of(placed.begin(), placed.end(), [&](const Placed& one) {
                return std::abs((one.at.y - (at.y - 2_pt)).value) < u.value * 1.4 + 3;
            });
        };
        for (int i = 0; i < 6 && hidden(); ++i) at.y += 5_pt * way;
        if (!hidden()) text(at, words, share);
    }

    void line(Point from, Point to, Points width) {
        items_.emplace_back(
            PlacedShape{{drawing::line(from, to), drawing::Stroke{width, drawing::black_62, {}, false}, {}, 1}});
    }

    /// `share` of its width stands left of `at`.
    void text(Point at, const std::string& words, double share) {
        const Points size{6.5};
        const Points width = metrics_.width(words, Face::regular, size);
        items_.emplace_back(
            PlacedText{{at.x - width * share, at.y}, words, Face::regular, size, drawing::black_62, width});
    }

    const document::MarginMast& mast_;
    const TextMetrics& metrics_;
    std::vector<PlacedItem>& items_;
    Points axis_;
    Points waterline_;
};

}  // namespace

void add_margin_mast(const document::MarginMast& mast, const std::vector<MarginMark>& marks, const TextMetrics& metrics,
                     const Paper& paper, std::vector<PlacedItem>& items) {
    if (mast.top > 0) Margin(mast, metrics, paper, items).draw(marks);
}

}  // namespace rigdeed::layout
