#include "evidence/sharpness.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <vector>

namespace rigdeed::evidence {
namespace {

struct Region {
    int left, right, top, bottom;
};

Region region_of(const Raster& grey, const std::optional<survey::Mark>& at, int window) {
    const double w = grey.width;
    double left = 0.2 * w, right = 0.8 * w, top = 0.2 * grey.height, bottom = 0.8 * grey.height;
    if (at) {
        const double reach = std::max(1.5 * at->radius, 0.1) * w;
        left = at->x * w - reach, right = at->x * w + reach, top = at->y * w - reach, bottom = at->y * w + reach;
    }
    const auto within = [](double value, int most) { return static_cast<int>(std::clamp<double>(value, 0, most)); };
    return {std::max(within(left, grey.width), window + 1),
            std::min(within(right, grey.width), grey.width - window - 2),
            std::max(within(top, grey.height), window + 1),
            std::min(within(bottom, grey.height), grey.height - window - 2)};
}

struct Edge {
    int contrast;
    double width;
};

/// Part of the way up a sorted list.
template <class T>
T at_share(std::vector<T>& values, double share) {
    const auto place = values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), place, values.end());
    return *place;
}

/// Of the edges that rows cross, or columns.
std::optional<double> finest_across(const Raster& grey, const Region& region, int window, bool columns) {
    constexpr int every = 4, least_contrast = 3 * 25, noise = 3 * 4;
    constexpr std::size_t least_edges = 40;
    const std::ptrdiff_t along = columns ? grey.width : 1, across = columns ? 1 : grey.width;
    const int length = columns ? grey.height : grey.width;
    const int from = columns ? region.top : region.left, to = columns ? region.bottom : region.right;
    std::vector<Edge> edges;
    std::vector<int> line(static_cast<std::size_t>(length));  // three lines together: less noise
    for (int at = columns ? region.left : region.top; at < (columns ? region.right : region.bottom); at += every) {
        const unsigned char* middle = grey.pixels.data() + at * across;
        for (int i = 0; i < length; ++i, middle += along)
            line[static_cast<std::size_t>(i)] = middle[-across] + middle[0] + middle[across];
        const auto value = [&](int i) { return line[static_cast<std::size_t>(i)]; };
        for (int begin = from; begin < to; begin += window) {
            int steepest = 0, place = begin;
            for (int i = begin; i < std::min(begin + window, to); ++i)
                if (const int slope = std::abs(value(i + 1) - value(i - 1)); slope > steepest)
                    steepest = slope, place = i;
            const int contrast = std::abs(value(place + window) - value(place - window));
            if (contrast >= least_contrast) edges.push_back({contrast, 2.0 * contrast / std::max(steepest - noise, 1)});
        }
    }
    if (edges.size() < least_edges) return std::nullopt;
    std::vector<int> contrasts;
    for (const Edge& edge : edges) contrasts.push_back(edge.contrast);
    const int strong = at_share(contrasts, 0.98) / 2;
    std::vector<double> widths;
    for (const Edge& edge : edges)
        if (edge.contrast >= strong) widths.push_back(edge.width);
    return std::max(2.0, at_share(widths, 0.1));
}

}  // namespace

std::optional<double> finest_edge_of(const Raster& grey, const std::optional<survey::Mark>& at) {
    const int window = std::max(std::max(grey.width, grey.height) / 100, 4);
    const Region region = region_of(grey, at, window);
    const auto in_rows = finest_across(grey, region, window, false);
    const auto in_columns = finest_across(grey, region, window, true);
    if (!in_rows || !in_columns) return in_rows ? in_rows : in_columns;
    return std::min(*in_rows, *in_columns);
}

bool is_blurred(const Photo& photo) {
    constexpr double most_share = 1.0 / 200, least_pixels = 5;  // a small picture cannot do better
    return photo.finest_edge &&
           *photo.finest_edge > std::max(least_pixels, most_share * std::max(photo.width, photo.height));
}

}  // namespace rigdeed::evidence
