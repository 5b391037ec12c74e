#include "evidence/scale.hpp"

#include <csetjmp>
#include <cstddef>
#include <cstdio>
#include <cstdlib>

#include <jpeglib.h>

#include "evidence/colour.hpp"
#include "evidence/upright.hpp"

namespace rigdeed::evidence {
namespace {

constexpr int print_quality = 82;

/// libjpeg reports by calling back; we leave it by longjmp, from warnings too.
/// Nothing with a destructor may live between setjmp and the calls into the library.
struct Stop {
    jpeg_error_mgr manager;  // first member: libjpeg hands us a pointer to it
    std::jmp_buf back;
    char message[JMSG_LENGTH_MAX];
};

[[noreturn]] void leave(j_common_ptr info) {
    auto* stop = reinterpret_cast<Stop*>(info->err);
    (*info->err->format_message)(info, stop->message);
    std::longjmp(stop->back, 1);
}

void on_message(j_common_ptr info, int level) {
    if (level < 0) leave(info);
}

void install(Stop& stop) {
    jpeg_std_error(&stop.manager);
    stop.manager.error_exit = leave;
    stop.manager.emit_message = on_message;
    stop.message[0] = '\0';
}

/// Smallest n of n/8 that keeps `wanted` pixels along `original`.
unsigned eighths(unsigned original, int wanted) {
    for (unsigned n = 1; n < 8; ++n)
        if ((original * n + 7) / 8 >= static_cast<unsigned>(wanted)) return n;
    return 8;
}

bool decode(jpeg_decompress_struct& decoder, Stop& stop, const Bytes& jpeg, int long_side, bool to_rgb,
            Raster& raster) {
    if (setjmp(stop.back) != 0) return false;
    jpeg_mem_src(&decoder, jpeg.data(), static_cast<unsigned long>(jpeg.size()));
    jpeg_read_header(&decoder, TRUE);
    const unsigned longer = decoder.image_width > decoder.image_height ? decoder.image_width : decoder.image_height;
    decoder.scale_num = long_side > 0 ? eighths(longer, long_side) : 1;
    decoder.scale_denom = 8;
    // Stay in the file's own colours where no profile asks for more: no conversion on the way in or out.
    decoder.out_color_space = to_rgb && decoder.num_components == 3 ? JCS_RGB : decoder.jpeg_color_space;
    jpeg_start_decompress(&decoder);
    raster.resize(static_cast<int>(decoder.output_width), static_cast<int>(decoder.output_height),
                  decoder.output_components);
    while (decoder.output_scanline < decoder.output_height) {
        JSAMPROW row = raster.row(static_cast<int>(decoder.output_scanline));
        jpeg_read_scanlines(&decoder, &row, 1);
    }
    raster.colour_space = decoder.out_color_space;
    jpeg_finish_decompress(&decoder);
    return true;
}

bool encode(jpeg_compress_struct& encoder, Stop& stop, Raster& raster, unsigned char** buffer, unsigned long* size) {
    if (setjmp(stop.back) != 0) return false;
    jpeg_mem_dest(&encoder, buffer, size);
    encoder.image_width = static_cast<JDIMENSION>(raster.width);
    encoder.image_height = static_cast<JDIMENSION>(raster.height);
    encoder.input_components = raster.channels;
    encoder.in_color_space = static_cast<J_COLOR_SPACE>(raster.colour_space);
    jpeg_set_defaults(&encoder);
    if (raster.colour_space == JCS_RGB) jpeg_set_colorspace(&encoder, JCS_YCbCr);
    jpeg_set_quality(&encoder, print_quality, TRUE);
    encoder.optimize_coding = TRUE;
    jpeg_start_compress(&encoder, TRUE);
    while (encoder.next_scanline < encoder.image_height) {
        JSAMPROW row = raster.row(static_cast<int>(encoder.next_scanline));
        jpeg_write_scanlines(&encoder, &row, 1);
    }
    jpeg_finish_compress(&encoder);
    return true;
}

}  // namespace

Scaled scale_for_print(const Bytes& jpeg, int orientation, int long_side, const Bytes& profile) {
    Raster raster;
    Stop stop{};
    install(stop);
    jpeg_decompress_struct decoder{};
    decoder.err = &stop.manager;
    jpeg_create_decompress(&decoder);
    const bool decoded = decode(decoder, stop, jpeg, long_side, long_side > 0 && !profile.empty(), raster);
    jpeg_destroy_decompress(&decoder);
    if (!decoded) return {{}, "damaged: " + std::string(stop.message)};
    if (long_side == 0) return {};

    if (raster.colour_space == JCS_RGB) to_srgb(raster, profile);
    raster = upright(std::move(raster), orientation);
    install(stop);
    jpeg_compress_struct encoder{};
    encoder.err = &stop.manager;
    jpeg_create_compress(&encoder);
    unsigned char* buffer = nullptr;
    unsigned long size = 0;
    const bool encoded = encode(encoder, stop, raster, &buffer, &size);
    jpeg_destroy_compress(&encoder);
    Scaled scaled;
    if (encoded) scaled.copy = {std::make_shared<const Bytes>(buffer, buffer + size), raster.width, raster.height};
    else scaled.refusal = "cannot be encoded for print: " + std::string(stop.message);
    std::free(buffer);
    return scaled;
}

}  // namespace rigdeed::evidence
