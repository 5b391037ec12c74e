#include "evidence/upright.hpp"

#include <cstring>

namespace rigdeed::evidence {

Raster upright(Raster raster, int orientation) {
    if (orientation <= 1 || orientation > 8) return raster;
    const bool turned = orientation >= 5;  // rows become columns
    const bool mirror_x = orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8;
    const bool mirror_y = orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7;
    Raster result;
    result.colour_space = raster.colour_space;
    result.resize(turned ? raster.height : raster.width, turned ? raster.width : raster.height, raster.channels);
    const auto channels = static_cast<std::size_t>(raster.channels);
    for (int y = 0; y < result.height; ++y) {
        unsigned char* target = result.row(y);
        for (int x = 0; x < result.width; ++x) {
            int from_x = turned ? y : x;
            int from_y = turned ? x : y;
            if (mirror_x) from_x = raster.width - 1 - from_x;
            if (mirror_y) from_y = raster.height - 1 - from_y;
            std::memcpy(target, raster.row(from_y) + static_cast<std::size_t>(from_x) * channels, channels);
            target += channels;
        }
    }
    return result;
}

}  // namespace rigdeed::evidence
