#include "drawing/charts.hpp"
#include "base/text.hpp"

#include <algorithm>
#include <cmath>

#include "base/quantity.hpp"
#include "drawing/palette.hpp"
#include "drawing/paths.hpp"

namespace rigdeed::drawing {
namespace {

/// Where bars begin: clear of the longest name, which stands at the left edge; widths without font metrics, a little
/// generous.
template <class Rows>
Points clear_of_names(const Rows& rows, Points least, Points most) {
    Points left = least;
    for (const auto& row : rows)
        left = std::max(left, 8.25_pt * (0.53 * static_cast<double>(count_letters(row.name))) + 8_pt);
    return std::min(left, most);
}

/// What all charts are drawn with.
class Chart {
 public:
    explicit Chart(Points width) { drawing_.size.width = width; }

    void stroke(Path path, double width, Colour colour = black, std::vector<Points> dash = {}) {
        drawing_.items.push_back(Shape{std::move(path), Stroke{Points{width}, colour, std::move(dash), false}, {}, 1});
    }
    void fill(const Box& box, Colour colour) { drawing_.items.push_back(Shape{rectangle(box), {}, colour, 1}); }
    void bar(const Box& box, Colour inside, double edge, Colour colour, std::vector<Points> dash = {}) {
        drawing_.items.push_back(
            Shape{rectangle(box), Stroke{Points{edge}, colour, std::move(dash), false}, inside, 1});
    }
    void label(Point at, const std::string& text, Points size, Anchor anchor, bool bold = false,
               Colour colour = black) {
        drawing_.items.push_back(Label{at, text, size, bold, colour, anchor});
    }
    void stub(Point at, Points height) {
        const Box box{at, {16_pt, height}};
        drawing_.items.push_back(Shape{rectangle(box), {}, white, 1});
        stroke(hatch(box, 2.2_pt), 0.35);
        stroke(rectangle(box), 0.5);
    }
    Drawing take(Points height, const std::string& alternative) {
        drawing_.size.height = height;
        drawing_.alternative = alternative;
        return std::move(drawing_);
    }

 private:
    Drawing drawing_;
};

/// A round step so that about `count` of them cover `most`.
double round_step(double most, double count) {
    const double rough = most / count;
    const double power = std::pow(10, std::floor(std::log10(rough)));
    for (const double factor : {1.0, 2.0, 5.0, 10.0})
        if (factor * power >= rough) return factor * power;
    return 10 * power;
}

}  // namespace

Drawing chain_chart(const std::vector<ChainLink>& links, std::optional<double> strand, Points width,
                    const ChainWords& words) {
    constexpr Points pitch{17.5}, bar{9}, left{150}, top{16};
    const Points right = width - 64_pt;
    double most = strand.value_or(0);
    for (const ChainLink& link : links) most = std::max(most, link.value.value_or(0));
    for (const ChainLink& link : links)
        for (const double wanted : link.wanted) most = std::max(most, wanted);
    most = std::max(most * 1.04, 1e-6);
    const auto x_of = [&](double value) { return left + (right - left) * (value / most); };
    Chart chart(width);
    const Points bottom = top + pitch * static_cast<double>(links.size());
    const double step = round_step(most, 5);
    for (double value = 0; value <= most; value += step) {
        chart.stroke(line({x_of(value), top}, {x_of(value), bottom}), 0.35, black_20);
        chart.label({x_of(value), bottom + 9_pt}, words.number(value, step < 1 ? 1 : 0), 7.25_pt, Anchor::middle, false,
                    black_62);
    }
    chart.label({width, top - 6_pt}, words.of_the_strand, 7.25_pt, Anchor::right, false, black_62);
    for (std::size_t i = 0; i < links.size(); ++i) {
        const ChainLink& link = links[i];
        const Points y = top + pitch * static_cast<double>(i) + 3_pt, base = y + 7.4_pt;
        chart.label({0_pt, base}, link.name, 8.25_pt, Anchor::left, link.weakest);
        chart.label({left - 8_pt, base}, link.remark, 6.75_pt, Anchor::right, false, black_70);
        chart.label({width, base}, link.ratio_words, 8.25_pt, Anchor::right, link.weakest);
        if (!link.value) {
            chart.stub({left, y}, bar);
            chart.label({left + 22_pt, base}, words.not_measured, 7.5_pt, Anchor::left, false, black_70);
            continue;
        }
        const Box box{{left, y}, {x_of(*link.value) - left, bar}};
        if (link.weakest) {
            chart.bar(box, black, 1.6, vermilion);
            const auto letters = static_cast<double>(count_letters(words.weakest + link.value_words));
            if (box.size.width > Points{letters * 4.4 + 26}) {
                chart.label({left + 8_pt, base}, words.weakest, 7.5_pt, Anchor::left, true, white);
                chart.label({box.right() - 8_pt, base}, link.value_words, 7.5_pt, Anchor::right, true, white);
            } else {
                chart.label({box.right() + 5_pt, base}, link.value_words + ", " + words.weakest, 7.5_pt, Anchor::left,
                            true);
            }
        } else {
            chart.bar(box, black_20, 0.5, black);
            Points after = box.right();  // clear of the strokes that stand near
            for (const double wanted : link.wanted)
                if (x_of(wanted) < box.right() + 45_pt) after = std::max(after, x_of(wanted));
            if (strand && x_of(*strand) > box.right() && x_of(*strand) < box.right() + 40_pt)
                after = std::max(after, x_of(*strand));
            chart.label({after + 5_pt, base}, link.value_words, 7.5_pt, Anchor::left);
        }
        for (const double wanted : link.wanted)
            chart.stroke(line({x_of(wanted), y - 1.5_pt}, {x_of(wanted), y + bar + 1.5_pt}), 1.3);
    }
    if (strand) {
        chart.stroke(line({x_of(*strand), top - 3_pt}, {x_of(*strand), bottom}), 0.9);
        chart.label({x_of(*strand), top - 6_pt}, words.strand, 7.25_pt, Anchor::middle, true);
    }
    return chart.take(bottom + 13_pt, words.alternative);
}

Drawing age_chart(const std::vector<AgeBar>& bars, const AgeBand& band, Points width, const std::string& alternative) {
    constexpr Points pitch{13.6}, bar{6.4}, top{16};
    const Points left = clear_of_names(bars, 130_pt, width * 0.42);
    const Points right = width - 150_pt;
    double most = band.most * 1.02;
    for (const AgeBar& one : bars) most = std::max(most, one.years.value_or(0));
    const auto x_of = [&](double years) { return left + (right - left) * (years / most); };
    const Points bottom = top + pitch * static_cast<double>(bars.size()) + 2_pt;
    Chart chart(width);
    chart.fill({{x_of(band.least), top}, {x_of(band.most) - x_of(band.least), bottom - top}}, sky_tint);
    for (const double edge : {band.least, band.most})
        chart.stroke(line({x_of(edge), top}, {x_of(edge), bottom}), 0.5, black, {1_pt, 1.5_pt});
    chart.label({x_of(band.common), top - 5_pt}, band.words, 7.25_pt, Anchor::middle, true);
    const double step = round_step(most, 5);
    for (double years = 0; years <= most; years += step)
        chart.label({x_of(years), bottom + 8.5_pt}, fixed(years, 0), 7.25_pt, Anchor::middle, false, black_62);
    chart.stroke(line({left, top}, {left, bottom}), 0.5);
    for (std::size_t i = 0; i < bars.size(); ++i) {
        const AgeBar& one = bars[i];
        const Points y = top + pitch * static_cast<double>(i) + 4_pt, base = y + 6_pt;
        chart.label({0_pt, base}, one.name, 8.25_pt, Anchor::left);
        chart.label({right + 12_pt, base}, one.age_words, 8.25_pt, Anchor::left);
        chart.label({width, base}, one.source_words, 7.5_pt, Anchor::right, false, black_70);
        if (!one.years) {
            chart.stub({left, y}, bar);
            continue;
        }
        const Box box{{left, y}, {x_of(*one.years) - left, bar}};
        if (one.proven) chart.bar(box, black_62, 0.5, black);
        else chart.bar(box, white, 0.5, black, {2.2_pt, 1.6_pt});
    }
    chart.stroke(line({x_of(band.common), top - 2_pt}, {x_of(band.common), bottom}), 1.1);
    return chart.take(bottom + 12_pt, alternative);
}

Drawing tension_chart(const std::vector<TensionPair>& pairs, const std::vector<double>& caps, Points width,
                      const TensionWords& words) {
    constexpr Points pitch{15}, bar{7.4}, top{16};
    const Points left = clear_of_names(pairs, 110_pt, width * 0.42);
    const Points right = width - 10_pt, middle = left + (right - left) * 0.5;
    double most = 25;
    for (const double cap : caps) most = std::max(most, cap * 1.1);
    for (const TensionPair& pair : pairs) most = std::max({most, pair.port.value_or(0), pair.starboard.value_or(0)});
    const Points unit = (right - middle) * (1 / most);
    const Points bottom = top + pitch * static_cast<double>(pairs.size()) + 2_pt;
    Chart chart(width);
    chart.label({middle - 6_pt, top - 5_pt}, words.port, 7.25_pt, Anchor::right, true);
    chart.label({middle + 6_pt, top - 5_pt}, words.starboard, 7.25_pt, Anchor::left, true);
    for (const double cap : caps)
        for (const double side : {-1.0, 1.0}) {
            const Points x = middle + unit * (side * cap);
            chart.stroke(line({x, top}, {x, bottom}), 0.5, black, {1_pt, 1.5_pt});
            chart.label({x, bottom + 8.5_pt}, fixed(cap, 0) + " %", 7.25_pt, Anchor::middle, false, black_62);
        }
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        const Points y = top + pitch * static_cast<double>(i) + 3_pt, base = y + 6.4_pt;
        chart.label({0_pt, base}, pairs[i].name, 8.25_pt, Anchor::left);
        for (const double side : {-1.0, 1.0}) {
            const auto& value = side < 0 ? pairs[i].port : pairs[i].starboard;
            if (!value) {
                chart.stub({side < 0 ? middle - 16_pt : middle, y}, bar);
                continue;
            }
            const Points length = unit * *value;
            chart.bar({{side < 0 ? middle - length : middle, y}, {length, bar}}, black_20, 0.5, black);
            const Points label_width{30};  // white behind it: dotted lines pass there
            const Points from = side < 0 ? middle - length - label_width - 2_pt : middle + length + 2_pt;
            chart.fill({{from, y}, {label_width, bar}}, white);
            chart.label({middle + (length + 4_pt) * side, base}, words.number(*value, 1) + " %", 7.25_pt,
                        side < 0 ? Anchor::right : Anchor::left);
        }
    }
    chart.stroke(line({middle, top - 2_pt}, {middle, bottom}), 0.9);
    return chart.take(bottom + 12_pt, words.alternative);
}

}  // namespace rigdeed::drawing
