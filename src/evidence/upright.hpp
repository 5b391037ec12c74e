#pragma once

#include <cstddef>
#include <vector>

namespace rigdeed::evidence {

/// Decoded pixels, row by row.
struct Raster {
    int width = 0;
    int height = 0;
    int channels = 0;
    int colour_space = 0;  ///< as the JPEG library numbers them
    std::vector<unsigned char> pixels;

    void resize(int new_width, int new_height, int new_channels) {
        width = new_width;
        height = new_height;
        channels = new_channels;
        pixels.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) *
                      static_cast<std::size_t>(channels));
    }
    [[nodiscard]] unsigned char* row(int y) {
        return pixels.data() +
               static_cast<std::size_t>(y) * static_cast<std::size_t>(width) * static_cast<std::size_t>(channels);
    }
};

/// Turns and mirrors so that the picture stands as Exif orientation 1 (CIPA DC-008, tag 0x0112).
[[nodiscard]] Raster upright(Raster raster, int orientation);

}  // namespace rigdeed::evidence
