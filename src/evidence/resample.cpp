#include "evidence/resample.hpp"

#include <algorithm>
#include <cstdint>

namespace rigdeed::evidence {
namespace {

// Of one axis: pixel `to` of `few` covers [to * many, (to + 1) * many), pixel `from` of `many` [from * few, (from + 1)
// * few). How much of each other they cover.
std::int64_t overlap(std::int64_t to, std::int64_t many, std::int64_t from, std::int64_t few) {
    return std::min((to + 1) * many, (from + 1) * few) - std::max(to * many, from * few);
}

}  // namespace

Raster shrunk(const Raster& raster, int width, int height) {
    Raster result;
    result.colour_space = raster.colour_space;
    result.resize(width, height, raster.channels);
    const auto channels = static_cast<std::size_t>(raster.channels);
    const auto source_width = static_cast<std::size_t>(raster.width);
    const std::int64_t whole = static_cast<std::int64_t>(raster.width) * raster.height;
    // Rows are summed up first, in the source's own width; then along each row.
    std::vector<std::int64_t> sums(source_width * channels);
    for (int y = 0; y < height; ++y) {
        std::fill(sums.begin(), sums.end(), 0);
        const std::int64_t first = static_cast<std::int64_t>(y) * raster.height / height;
        for (std::int64_t from = first; from < raster.height; ++from) {
            const std::int64_t weight = overlap(y, raster.height, from, height);
            if (weight <= 0) break;
            const unsigned char* row = raster.pixels.data() + static_cast<std::size_t>(from) * sums.size();
            for (std::size_t i = 0; i < sums.size(); ++i) sums[i] += weight * row[i];
        }
        unsigned char* to = result.row(y);
        for (int x = 0; x < width; ++x) {
            const std::int64_t begin = static_cast<std::int64_t>(x) * raster.width / width;
            for (std::size_t channel = 0; channel < channels; ++channel) {
                std::int64_t sum = 0;
                for (std::int64_t from = begin; from < raster.width; ++from) {
                    const std::int64_t weight = overlap(x, raster.width, from, width);
                    if (weight <= 0) break;
                    sum += weight * sums[static_cast<std::size_t>(from) * channels + channel];
                }
                *to++ = static_cast<unsigned char>((sum + whole / 2) / whole);
            }
        }
    }
    return result;
}

}  // namespace rigdeed::evidence
