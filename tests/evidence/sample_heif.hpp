#pragma once

#include <functional>
#include <memory>
#include <stdexcept>

#include <libheif/heif.h>

#include "base/bytes.hpp"

/// HEIC files made for a test, by the library's own encoder.
namespace rigdeed::sample {

struct HeifParts {
    heif_orientation orientation = heif_orientation_normal;  ///< which the container says the picture is stored in
    Bytes exif;                                              ///< "Exif\0\0" and a TIFF block; empty: none
};

inline void must(const heif_error& error) {
    if (error.code != heif_error_Ok) throw std::runtime_error(error.message);
}

/// `paint` sets red, green and blue at x, y of the picture as it is stored.
inline Bytes heic(int width, int height, const std::function<void(int, int, unsigned char*)>& paint,
                  const HeifParts& parts = {}) {
    must(heif_init(nullptr));
    heif_image* image = nullptr;
    must(heif_image_create(width, height, heif_colorspace_RGB, heif_chroma_interleaved_RGB, &image));
    const std::unique_ptr<heif_image, decltype(&heif_image_release)> owner(image, heif_image_release);
    must(heif_image_add_plane(image, heif_channel_interleaved, width, height, 8));
    int stride = 0;
    unsigned char* pixels = heif_image_get_plane(image, heif_channel_interleaved, &stride);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) paint(x, y, pixels + static_cast<std::ptrdiff_t>(y) * stride + x * 3);
    const std::unique_ptr<heif_context, decltype(&heif_context_free)> context(heif_context_alloc(), heif_context_free);
    heif_encoder* encoder = nullptr;
    must(heif_context_get_encoder_for_format(context.get(), heif_compression_HEVC, &encoder));
    const std::unique_ptr<heif_encoder, decltype(&heif_encoder_release)> coder(encoder, heif_encoder_release);
    must(heif_encoder_set_lossy_quality(encoder, 90));
    const std::unique_ptr<heif_encoding_options, decltype(&heif_encoding_options_free)> options(
        heif_encoding_options_alloc(), heif_encoding_options_free);
    options->image_orientation = parts.orientation;
    heif_image_handle* handle = nullptr;
    must(heif_context_encode_image(context.get(), image, encoder, options.get(), &handle));
    const std::unique_ptr<heif_image_handle, decltype(&heif_image_handle_release)> kept(handle,
                                                                                        heif_image_handle_release);
    if (!parts.exif.empty())
        must(heif_context_add_exif_metadata(context.get(), handle, parts.exif.data(),
                                            static_cast<int>(parts.exif.size())));
    Bytes file;
    heif_writer writer{1, [](heif_context*, const void* data, std::size_t size, void* to) {
                           const auto* bytes = static_cast<const unsigned char*>(data);
                           static_cast<Bytes*>(to)->assign(bytes, bytes + size);
                           return heif_error{heif_error_Ok, heif_suberror_Unspecified, "well"};
                       }};
    must(heif_context_write(context.get(), &writer, &file));
    return file;
}

}  // namespace rigdeed::sample
