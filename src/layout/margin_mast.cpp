#include "layout/margin_mast.hpp"

#include <algorithm>
#include <cmath>

#include "drawing/paths.hpp"
#include "drawing/verdict_shape.hpp"

namespace rigdeed::layout {
namespace {

constexpr Points masthead{92};
constexpr Points above_foot_rule{40};
constexpr Points u{7.2};

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
        for (const double side : {-1.3, 1.3})
            line({axis_ + Points{side}, y_of(mast_.top)}, {axis_ + Points{side}, y_of(mast_.deck)}, 0.5_pt);
        line({axis_ - 3_pt, y_of(mast_.top)}, {axis_ + 3_pt, y_of(mast_.top)}, 1.1_pt);
        text({axis_, y_of(mast_.top) - 4_pt}, mast_.metre, 0.5);
        for (int z = 1; z <= static_cast<int>(mast_.top); ++z) {
            const Points y = y_of(z);
            line({axis_ + 1.3_pt, y}, {axis_ + (z % 5 == 0 ? 7_pt : 4_pt), y}, 0.5_pt);
            const bool hidden = std::any_of(marks.begin(), marks.end(), [&](const MarginMark& mark) {
                const Points apart = y_of(mark.height) - y;
                return apart < u * 2 && -apart < u * 2;
            });
            if (z % 5 == 0 && !hidden) text({axis_ + 9_pt, y + 2.2_pt}, std::to_string(z), 0);
        }
        line({axis_ - 14_pt, y_of(mast_.deck)}, {axis_ + 14_pt, y_of(mast_.deck)}, 1.1_pt);
        text({axis_ - 14_pt, y_of(mast_.deck) + 7_pt}, mast_.deck_word, 0);
        line({axis_ - 14_pt, waterline_}, {axis_ + 14_pt, waterline_}, 0.5_pt);
        text({axis_, waterline_ + 7.5_pt}, mast_.waterline_word, 0.5);
        for (const double z : mast_.spreaders)
            for (const double side : {-1.0, 1.0})
                line({axis_ + Points{side * 1.3}, y_of(z)}, {axis_ + Points{side * 13}, y_of(z) - 1_pt}, 1.1_pt);
        place(marks);
    }

 private:
    Points y_of(double z) const {
        return waterline_ - (waterline_ - masthead) * (std::clamp(z, 0.0, mast_.top) / mast_.top);
    }

    /// Where two are too near, they stand left and right.
    void place(const std::vector<MarginMark>& marks) {
        std::vector<MarginMark> sorted = marks;
        std::sort(sorted.begin(), sorted.end(),
                  [](const MarginMark& a, const MarginMark& b) { return a.height > b.height; });
        Points last{-100};
        int run = 0;
        for (std::size_t i = 0; i < sorted.size(); ++i) {
            const Points y = y_of(sorted[i].height);
            const bool near_last = y - last < u * 2.4;
            const bool near_next = i + 1 < sorted.size() && y_of(sorted[i + 1].height) - y < u * 2.4;
            run = near_last ? run + 1 : 0;
            last = y;
            const Points x = near_last || near_next ? axis_ + (run % 2 == 0 ? -11_pt : 11_pt) : axis_;
            drawing::Drawing shape;
            shape.items.push_back(drawing::Shape{drawing::circle({x, y}, u * 1.5), {}, drawing::white, 1});
            drawing::add_verdict_shape(shape, sorted[i].mark.verdict, {x, y}, u, sorted[i].mark.number);
            for (const auto& item : shape.items) {
                if (const auto* one = std::get_if<drawing::Shape>(&item)) items_.emplace_back(PlacedShape{*one});
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
    }

    void line(Point from, Point to, Points width) {
        items_.emplace_back(
            PlacedShape{{drawing::line(from, to), drawing::Stroke{width, drawing::black_55, {}, false}, {}, 1}});
    }

    /// `share` of its width stands left of `at`.
    void text(Point at, const std::string& words, double share) {
        const Points size{6.25};
        const Points width = metrics_.width(words, Face::regular, size);
        items_.emplace_back(
            PlacedText{{at.x - width * share, at.y}, words, Face::regular, size, drawing::black_55, width});
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
