#include <algorithm>

#include "drawing/charts.hpp"
#include "drawing/palette.hpp"
#include "drawing/paths.hpp"

namespace rigdeed::drawing {

Drawing course_chart(const std::vector<CourseRow>& rows, Points width, const std::string& alternative) {
    constexpr Points pitch{34}, left{190}, top{4}, band{14};
    const Points right = width - 130_pt;
    double last = 1e-6;
    for (const CourseRow& row : rows)
        for (const CoursePoint& point : row.points) last = std::max(last, point.years);
    Drawing drawing;
    drawing.alternative = alternative;
    const auto label = [&](Point at, const std::string& text, Points size, Anchor anchor, bool bold = false,
                           Colour colour = black) {
        drawing.items.push_back(Label{at, text, size, bold, colour, anchor});
    };
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const CourseRow& row = rows[i];
        const Points y = top + pitch * static_cast<double>(i);
        label({0_pt, y + 14_pt}, row.name, 8.25_pt, Anchor::left, true);
        label({0_pt, y + 24_pt}, row.measure, 7.25_pt, Anchor::left, false, black_70);
        label({width, y + 18_pt}, row.remark, 7.5_pt, Anchor::right);
        const auto [least, most] =
            std::minmax_element(row.points.begin(), row.points.end(),
                                [](const CoursePoint& a, const CoursePoint& b) { return a.value < b.value; });
        const double span = most->value - least->value;
        const auto place = [&](const CoursePoint& point) {
            const double up = span > 0 ? (point.value - least->value) / span : 0.5;
            return Point{left + (right - left) * (point.years / last), y + 13_pt + band * (1 - up)};
        };
        for (std::size_t k = 0; k < row.points.size(); ++k) {
            const Point at = place(row.points[k]);
            if (k > 0) {
                const Point from = place(row.points[k - 1]);
                drawing.items.push_back(Shape{line(from, at), Stroke{0.9_pt, black, {}, false}, {}, 1});
            }
            drawing.items.push_back(Shape{circle(at, 2_pt), {}, black, 1});
            const Anchor anchor = k == 0 ? Anchor::left : k + 1 == row.points.size() ? Anchor::right : Anchor::middle;
            label({at.x, at.y - 4_pt}, row.points[k].words, 6.75_pt, anchor);
        }
        if (i > 0)
            drawing.items.push_back(Shape{line({0_pt, y}, {width, y}), Stroke{0.35_pt, black_20, {}, false}, {}, 1});
    }
    drawing.size = {width, top + pitch * static_cast<double>(rows.size())};
    return drawing;
}

}  // namespace rigdeed::drawing
