#pragma once

#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <functional>

#include <jpeglib.h>

#include "base/bytes.hpp"

/// JPEG files made for a test.
namespace rigdeed::sample {

/// A baseline JPEG without metadata; `paint` sets red, green and blue at x, y.
inline Bytes jpeg(int width, int height, const std::function<void(int, int, unsigned char*)>& paint, int channels = 3,
                  bool progressive = false) {
    jpeg_compress_struct encoder{};
    jpeg_error_mgr errors{};
    encoder.err = jpeg_std_error(&errors);
    jpeg_create_compress(&encoder);
    unsigned char* buffer = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&encoder, &buffer, &size);
    encoder.image_width = static_cast<JDIMENSION>(width);
    encoder.image_height = static_cast<JDIMENSION>(height);
    encoder.input_components = channels;
    encoder.in_color_space = channels == 1 ? JCS_GRAYSCALE : channels == 3 ? JCS_RGB : JCS_CMYK;
    jpeg_set_defaults(&encoder);
    jpeg_set_quality(&encoder, 90, TRUE);
    if (progressive) jpeg_simple_progression(&encoder);
    jpeg_start_compress(&encoder, TRUE);
    std::vector<unsigned char> row(static_cast<std::size_t>(width * channels));
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) paint(x, y, &row[static_cast<std::size_t>(x * channels)]);
        unsigned char* line = row.data();
        jpeg_write_scanlines(&encoder, &line, 1);
    }
    jpeg_finish_compress(&encoder);
    jpeg_destroy_compress(&encoder);
    Bytes bytes(buffer, buffer + size);
    std::free(buffer);
    return bytes;
}

/// Left half red, right half blue, upper quarter brighter: every turn and mirroring shows.
inline Bytes marked_jpeg(int width = 64, int height = 48) {
    return jpeg(width, height, [&](int x, int y, unsigned char* rgb) {
        const auto light = static_cast<unsigned char>(y < height / 4 ? 80 : 0);
        rgb[0] = static_cast<unsigned char>((x < width / 2 ? 160 : 0) + light);
        rgb[1] = light;
        rgb[2] = static_cast<unsigned char>((x < width / 2 ? 0 : 160) + light);
    });
}

/// One entry of an Exif IFD: tag, type, count and the four bytes of value or offset, all little-endian.
struct ExifEntry {
    unsigned tag, type, count, value;
};

/// A TIFF block with these entries in IFD0 and in the Exif IFD; `data` follows them and offsets count from the block's
/// start.
inline std::string tiff(const std::vector<ExifEntry>& main, const std::vector<ExifEntry>& photo,
                        const std::string& data, unsigned& data_at) {
    std::string block("II*\0\x08\0\0\0", 8);
    const auto put = [&](unsigned value, int bytes) {
        for (int i = 0; i < bytes; ++i) block += static_cast<char>(value >> (8 * i));
    };
    const auto ifd = [&](const std::vector<ExifEntry>& entries) {
        put(static_cast<unsigned>(entries.size()), 2);
        for (const ExifEntry& one : entries) {
            put(one.tag, 2);
            put(one.type, 2);
            put(one.count, 4);
            put(one.value, 4);
        }
        put(0, 4);
    };
    const unsigned main_size = 2 + 12 * static_cast<unsigned>(main.size() + 1) + 4;
    std::vector<ExifEntry> with_pointer = main;
    with_pointer.push_back({0x8769, 4, 1, 8 + main_size});
    data_at = 8 + main_size + 2 + 12 * static_cast<unsigned>(photo.size()) + 4;
    ifd(with_pointer);
    ifd(photo);
    return block + data;
}

}  // namespace rigdeed::sample
