#include "evidence/scale.hpp"

#include <algorithm>
#include <cmath>
#include <csetjmp>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <utility>

#include <jpeglib.h>

#include "base/error.hpp"
#include "evidence/colour.hpp"
#include "evidence/heif.hpp"
#include "evidence/jpeg_structure.hpp"
#include "evidence/resample.hpp"
#include "evidence/upright.hpp"

namespace rigdeed::evidence {
namespace {

constexpr int print_quality = 82;
constexpr int whole_size = 65535;

/// libjpeg reports by calling back; we leave it by longjmp, from warnings too.
/// Nothing with a destructor may live between setjmp and the calls into the library.
struct Stop {
    jpeg_error_mgr manager;  // first member: libjpeg hands us a pointer to it
    std::jmp_buf back;
};

[[noreturn]] void leave(j_common_ptr info) {
    auto* stop = reinterpret_cast<Stop*>(info->err);
    std::longjmp(stop->back, 1);
}

void on_message(j_common_ptr info, int level) {
    if (level < 0) leave(info);
}

void install(Stop& stop) {
    jpeg_std_error(&stop.manager);
    stop.manager.error_exit = leave;
    stop.manager.emit_message = on_message;
}

/// Smallest n of n/8 that keeps `wanted` pixels along `original`.
unsigned eighths(unsigned original, int wanted) {
    for (unsigned n = 1; n < 8; ++n)
        if ((original * n + 7) / 8 >= static_cast<unsigned>(wanted)) return n;
    return 8;
}

/// `share` of the picture's longer side is to have `wanted` pixels; with `wanted` 0 an eighth of the size will do.
enum class Into { own, rgb, grey };

bool decode(jpeg_decompress_struct& decoder, Stop& stop, const Bytes& jpeg, int wanted, double share, Into into,
            Raster& raster) {
    if (setjmp(stop.back) != 0) return false;
    jpeg_mem_src(&decoder, jpeg.data(), static_cast<unsigned long>(jpeg.size()));
    jpeg_read_header(&decoder, TRUE);
    const unsigned longer = decoder.image_width > decoder.image_height ? decoder.image_width : decoder.image_height;
    decoder.scale_num = wanted > 0 ? eighths(static_cast<unsigned>(longer * share), wanted) : 1;
    decoder.scale_denom = 8;
    const long long whole = static_cast<long long>(decoder.image_width) * decoder.image_height;
    while (whole * decoder.scale_num * decoder.scale_num > most_held_pixels * 64) --decoder.scale_num;
    // Stay in the file's own colours where no profile asks for more: no conversion on the way in or out.
    decoder.out_color_space = into == Into::own || decoder.num_components != 3 ? decoder.jpeg_color_space
                              : into == Into::rgb                              ? JCS_RGB
                                                                               : JCS_GRAYSCALE;
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

/// Why it could not be decoded, if it could not.
Trouble decode_to(Raster& raster, const Bytes& jpeg, int wanted, double share, Into into) {
    Stop stop{};
    install(stop);
    jpeg_decompress_struct decoder{};
    decoder.err = &stop.manager;
    jpeg_create_decompress(&decoder);
    const bool decoded = decode(decoder, stop, jpeg, wanted, share, into, raster);
    jpeg_destroy_decompress(&decoder);
    return decoded ? Trouble{} : Trouble{Why::undecodable, stop.manager.msg_code, {}, {}};
}

Scaled encode_for_print(Raster raster) {
    Stop stop{};
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
    else scaled.trouble = {Why::not_encoded, stop.manager.msg_code, {}, {}};
    std::free(buffer);
    return scaled;
}

/// `of` in the measure in which `longer` is `side`.
int length(int of, int side, int longer) {
    return std::max(1, static_cast<int>((static_cast<long long>(of) * side + longer / 2) / longer));
}

unsigned longer_side(const Bytes& jpeg) {
    const JpegStructure structure = read_structure(jpeg);
    return static_cast<unsigned>(std::max({structure.width, structure.height, 1}));
}

/// The square of `side` pixels whose corner is at x, y.
Raster cut(const Raster& raster, int x, int y, int side) {
    Raster piece;
    piece.colour_space = raster.colour_space;
    piece.resize(side, side, raster.channels);
    const auto channels = static_cast<std::size_t>(raster.channels);
    const auto corner =
        static_cast<std::size_t>(y) * static_cast<std::size_t>(raster.width) + static_cast<std::size_t>(x);
    for (int row = 0; row < side; ++row)
        std::memcpy(piece.row(row),
                    raster.pixels.data() +
                        (corner + static_cast<std::size_t>(row) * static_cast<std::size_t>(raster.width)) * channels,
                    static_cast<std::size_t>(side) * channels);
    return piece;
}

}  // namespace

std::string picture_library() {
#define RIGDEED_TEXT_OF(value) #value
#define RIGDEED_TEXT(value) RIGDEED_TEXT_OF(value)
    return "libjpeg-turbo " RIGDEED_TEXT(LIBJPEG_TURBO_VERSION) ", " + colour_library() + ", " + heif_library();
}

std::optional<Raster> decode_grey(const Bytes& jpeg, int wanted) {
    Raster raster;
    if (decode_to(raster, jpeg, wanted, 1, Into::grey).any() || raster.channels != 1) return std::nullopt;
    return raster;
}

std::optional<Raster> decode_rgb(const Bytes& jpeg) {
    Raster raster;
    if (decode_to(raster, jpeg, whole_size, 1, Into::rgb).any()) return std::nullopt;
    return raster;
}

bool are_alike(const Bytes& jpeg, const Bytes& other) {
    constexpr int largest_difference = 32;
    constexpr double mean_difference = 1.5;
    Raster a, b;
    for (const auto& [bytes, raster] : {std::pair(&jpeg, &a), std::pair(&other, &b)})
        if (decode_to(*raster, *bytes, whole_size, 1, Into::own).any()) return false;
    if (a.width != b.width || a.height != b.height || a.channels != b.channels || a.pixels.empty()) return false;
    std::uint64_t sum = 0;
    const auto step = static_cast<std::size_t>(a.channels);  // brightness comes first, of grey and of YCbCr
    for (std::size_t i = 0; i < a.pixels.size(); i += step) {
        const int difference = std::abs(a.pixels[i] - b.pixels[i]);
        if (difference > largest_difference) return false;
        sum += static_cast<std::uint64_t>(difference);
    }
    return static_cast<double>(sum) <=
           mean_difference * static_cast<double>(a.pixels.size()) / static_cast<double>(step);
}

int printed_side(int longer, int wanted) {
    const auto whole = static_cast<unsigned>(std::max(longer, 1));
    return static_cast<int>((whole * eighths(whole, wanted) + 7) / 8);
}

Scaled scale_for_print(const Bytes& jpeg, int orientation, int long_side, const Bytes& profile) {
    return std::move(scale_for_print(jpeg, orientation, std::vector<int>{long_side}, profile).front());
}

std::vector<Scaled> scale_for_print(const Bytes& jpeg, int orientation, const std::vector<int>& sides,
                                    const Bytes& profile) {
    std::vector<Scaled> all;
    Raster raster;
    int decoded_for = -1;  // the side for which the raster was decoded
    const auto longer = [&] { return std::max(raster.width, raster.height); };
    unsigned whole = 0;  // longer side of the original, once it is known
    for (const int side : sides) {
        const bool serves = decoded_for >= 0 && whole > 0 && eighths(whole, side) == eighths(whole, decoded_for);
        if (!serves) {
            raster = Raster();
            const Into into = side > 0 && !profile.empty() ? Into::rgb : Into::own;
            if (Trouble trouble = decode_to(raster, jpeg, side, 1, into); trouble.any()) {
                all.push_back({{}, std::move(trouble)});
                decoded_for = -1;
                continue;
            }
            decoded_for = side;
            whole = longer_side(jpeg);
            if (side > 0 && raster.colour_space == JCS_RGB) to_srgb(raster, profile);
        }
        if (side == 0) all.push_back({});
        else if (longer() <= side) all.push_back(encode_for_print(upright(Raster(raster), orientation)));
        else
            all.push_back(encode_for_print(
                upright(shrunk(raster, length(raster.width, side, longer()), length(raster.height, side, longer())),
                        orientation)));
    }
    return all;
}

PrintCopy encode_rgb(Raster raster) {
    raster.colour_space = JCS_RGB;
    Scaled scaled = encode_for_print(std::move(raster));
    if (scaled.trouble.any()) throw Error("pixels that cannot be encoded", {}, {}, ExitCode::bug);
    return std::move(scaled.copy);
}

Raster rgb_raster(int width, int height) {
    Raster raster;
    raster.colour_space = JCS_RGB;
    raster.resize(width, height, 3);
    return raster;
}

Square cut_square(const Raster& raster, const survey::Mark& mark) {
    const double width = raster.width;
    const int side =
        std::clamp(static_cast<int>(std::lround(mark.radius * 2 * width)), 1, std::min(raster.width, raster.height));
    const auto corner = [&](double centre, int length) {
        return std::clamp(static_cast<int>(std::lround(centre * width - side * 0.5)), 0, length - side);
    };
    const int x = corner(mark.x, raster.width), y = corner(mark.y, raster.height);
    return {cut(raster, x, y, side), {(x + side * 0.5) / width, (y + side * 0.5) / width, side * 0.5 / width}};
}

Cut cut_for_print(const Bytes& jpeg, int orientation, const survey::Mark& mark, int wanted, const Bytes& profile) {
    Cut result;
    Raster raster;
    result.trouble = decode_to(raster, jpeg, wanted, std::clamp(mark.radius * 2, 0.01, 1.0),
                               profile.empty() ? Into::own : Into::rgb);
    if (result.trouble.any()) return result;
    if (raster.colour_space == JCS_RGB) to_srgb(raster, profile);
    raster = upright(std::move(raster), orientation);
    Square square = cut_square(raster, mark);
    Scaled scaled = encode_for_print(std::move(square.piece));
    result.trouble = std::move(scaled.trouble);
    result.copy = std::move(scaled.copy);
    result.shown = square.shown;
    return result;
}

}  // namespace rigdeed::evidence
