#include "evidence/heif.hpp"

#include <libheif/heif.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <memory>

#include "base/archive.hpp"
#include "base/process.hpp"
#include "crypto/digest.hpp"
#include "evidence/colour.hpp"
#include "evidence/exif.hpp"
#include "evidence/jpeg_structure.hpp"
#include "evidence/photo_facts.hpp"
#include "evidence/resample.hpp"
#include "evidence/scale.hpp"

namespace rigdeed::evidence {
namespace {

using Context = std::unique_ptr<heif_context, decltype(&heif_context_free)>;
using Handle = std::unique_ptr<heif_image_handle, decltype(&heif_image_handle_release)>;
using Image = std::unique_ptr<heif_image, decltype(&heif_image_release)>;
using Options = std::unique_ptr<heif_decoding_options, decltype(&heif_decoding_options_free)>;

constexpr std::uint64_t largest_side = 65535;
constexpr long long most_pixels_a_byte = 4000;
constexpr std::size_t most_exif = 1 << 20;
constexpr std::size_t most_profile = 4 << 20;

bool good(const heif_error& error) { return error.code == heif_error_Ok; }

// Four bytes say where the TIFF block begins behind them (ISO/IEC 23008-12, A.2.1).
CameraFacts exif_of(const heif_image_handle* handle) {
    heif_item_id id = 0;
    if (heif_image_handle_get_list_of_metadata_block_IDs(handle, "Exif", &id, 1) < 1) return {};
    const std::size_t size = heif_image_handle_get_metadata_size(handle, id);
    if (size <= 4 || size > most_exif) return {};
    Bytes block(size);
    if (!good(heif_image_handle_get_metadata(handle, id, block.data()))) return {};
    const std::size_t offset =
        std::size_t{block[0]} << 24 | std::size_t{block[1]} << 16 | std::size_t{block[2]} << 8 | std::size_t{block[3]};
    if (offset >= size - 4) return {};
    CameraFacts facts = read_exif(as_text(block).substr(4 + offset));
    if (facts.orientation) facts.orientation = 1;  // the container turns it, whatever Exif says beside
    return facts;
}

Bytes profile_of(const heif_image_handle* handle) {
    const std::size_t size = heif_image_handle_get_raw_color_profile_size(handle);
    if (size == 0 || size > most_profile) return {};
    Bytes profile(size);
    if (!good(heif_image_handle_get_raw_color_profile(handle, profile.data()))) return {};
    return profile;
}

bool decode(const heif_image_handle* handle, long long most, Raster& raster) {
    const Options options(heif_decoding_options_alloc(), heif_decoding_options_free);
    if (!options) return false;
    options->convert_hdr_to_8bit = 1;
    options->strict_decoding = 1;
    heif_image* decoded = nullptr;
    if (!good(heif_decode_image(handle, &decoded, heif_colorspace_RGB, heif_chroma_interleaved_RGB, options.get())))
        return false;
    const Image image(decoded, heif_image_release);
    int stride = 0;
    const std::uint8_t* pixels = heif_image_get_plane_readonly(image.get(), heif_channel_interleaved, &stride);
    const int width = heif_image_get_width(image.get(), heif_channel_interleaved);
    const int height = heif_image_get_height(image.get(), heif_channel_interleaved);
    if (pixels == nullptr || width < 1 || height < 1 || stride < width * 3) return false;
    if (static_cast<long long>(width) * height > most) return false;  // it may be larger than its container says
    raster = rgb_raster(width, height);
    for (int y = 0; y < height; ++y)
        std::memcpy(raster.row(y), pixels + static_cast<std::ptrdiff_t>(y) * stride,
                    static_cast<std::size_t>(width) * 3);
    return true;
}

PrintCopy whole_copy(const Raster& raster, int side) {
    const int longer = std::max(raster.width, raster.height);
    const auto length = [&](int of) {
        return std::max(1, static_cast<int>((static_cast<long long>(of) * side + longer / 2) / longer));
    };
    return encode_rgb(shrunk(raster, length(raster.width), length(raster.height)));
}

void cut_square(const Raster& raster, const Wanted& wanted, Photo& photo) {
    Square square = cut_square(raster, *wanted.mark);
    const int side = std::min(square.piece.width, std::max(wanted.square, 1));
    photo.detail = encode_rgb(shrunk(square.piece, side, side));
    photo.detail_of = square.shown;
    photo.detail_wanted = wanted.square;
}

Raster grey_of(const Raster& raster, int wanted) {
    const int longer = std::max(raster.width, raster.height), side = std::min(wanted, longer);
    const auto length = [&](int of) {
        return std::max(1, static_cast<int>(static_cast<long long>(of) * side / longer));
    };
    const Raster small = shrunk(raster, length(raster.width), length(raster.height));
    Raster grey;
    grey.resize(small.width, small.height, 1);
    for (std::size_t i = 0; i < grey.pixels.size(); ++i)  // ITU-R BT.601, in 1/256
        grey.pixels[i] = static_cast<unsigned char>(
            (77 * small.pixels[3 * i] + 150 * small.pixels[3 * i + 1] + 29 * small.pixels[3 * i + 2]) >> 8);
    return grey;
}

void take_primary(const heif_context* context, std::size_t size, const Wanted& wanted, Photo& photo, int grey_size,
                  Raster* grey, std::vector<PrintCopy>* smaller) {
    heif_image_handle* primary = nullptr;
    // The library gives its own context no const.
    if (!good(heif_context_get_primary_image_handle(const_cast<heif_context*>(context), &primary)))
        return photo.refuse({Why::no_picture, 0, {}, {}});
    const Handle handle(primary, heif_image_handle_release);
    const long long width = heif_image_handle_get_width(primary), height = heif_image_handle_get_height(primary);
    if (width < 1 || height < 1) return photo.refuse({Why::no_size, 0, {}, {}});
    if (width * height > most_held_pixels) return photo.refuse({Why::large_picture, 0, {}, {}});
    // A telephone's has a dozen pixels for each byte; a bomb has as many as it likes.
    const long long most = std::min(most_held_pixels, most_pixels_a_byte * static_cast<long long>(size));
    if (width * height > most) return photo.refuse({Why::heic, 0, {}, {}});
    photo.facts = exif_of(primary);
    const Bytes profile = profile_of(primary);
    Raster raster;
    if (!decode(primary, most, raster)) return photo.refuse({Why::heic, 0, {}, {}});
    if (!profile.empty()) to_srgb(raster, profile);
    photo.width = raster.width;
    photo.height = raster.height;
    photo.refuse({});
    if (wanted.long_side > 0) photo.print = whole_copy(raster, side_of(photo, wanted));
    if (wanted.mark != nullptr) cut_square(raster, wanted, photo);
    if (grey != nullptr) *grey = grey_of(raster, grey_size);
    if (smaller == nullptr || !wanted.giving_way) return;
    for (const int side : smaller_sides(side_of(photo, wanted))) smaller->push_back(whole_copy(raster, side));
}

/// What a child sends of a copy, written and read.
template <class Archive>
void archive_copy(Archive& archive, PrintCopy& copy) {
    Bytes jpeg = copy.jpeg ? *copy.jpeg : Bytes();
    archive.whole(copy.width, largest_side);
    archive.whole(copy.height, largest_side);
    archive.block(jpeg);
    copy.jpeg = std::make_shared<const Bytes>(std::move(jpeg));
}

/// As many as were wanted, each of its size.
bool are_the_smaller(const std::vector<PrintCopy>& copies, const Photo& photo, const HeifJob& job) {
    const bool wanted = job.smaller != nullptr && job.wanted.giving_way && photo.usable();
    const auto sides = wanted ? smaller_sides(side_of(photo, job.wanted)) : std::vector<int>{};
    return std::equal(copies.begin(), copies.end(), sides.begin(), sides.end(), [](const PrintCopy& copy, int side) {
        return std::max(copy.width, copy.height) == side && is_sound_copy(copy);
    });
}

}  // namespace

bool is_heif(const Bytes& bytes) {
    constexpr std::array<std::string_view, 8> brands{"heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1"};
    const std::string_view text = as_text(bytes);
    return text.size() > 12 && text.substr(4, 4) == "ftyp" &&
           std::find(brands.begin(), brands.end(), text.substr(8, 4)) != brands.end();
}

std::string heif_library() { return std::string("libheif ") + heif_get_version(); }

void prepare_heif() {
    static const bool prepared = good(heif_init(nullptr));
    (void)prepared;  // without it nothing is decoded, which is told of each photo
    prepare_exif();
}

void take_heif_apart(const Bytes& bytes, const Wanted& wanted, Photo& photo, int grey_size, Raster* grey,
                     std::vector<PrintCopy>* smaller) {
    const Context context(heif_context_alloc(), heif_context_free);
    if (!context) return photo.refuse({Why::heic, 0, {}, {}});
    heif_context_set_max_decoding_threads(context.get(), 0);
    heif_context_set_maximum_image_size_limit(context.get(), 65535);
    if (!good(heif_context_read_from_memory_without_copy(context.get(), bytes.data(), bytes.size(), nullptr)))
        return photo.refuse({Why::heic, 0, {}, {}});
    take_primary(context.get(), bytes.size(), wanted, photo, grey_size, grey, smaller);
}

void take_heifs_apart(const std::vector<HeifJob>& jobs) {
    // The decoder of HEVC works in a thread of its own, always.
    constexpr ChildLimits limits{std::uint64_t{2} << 30, 20, std::uint64_t{64} << 20, true};
    const auto results = in_children(
        jobs.size(),
        [&](std::size_t i) {
            Photo photo;
            Raster grey;
            std::vector<PrintCopy> smaller;
            take_heif_apart(*jobs[i].bytes, jobs[i].wanted, photo, jobs[i].grey_size,
                            jobs[i].grey != nullptr ? &grey : nullptr, jobs[i].smaller != nullptr ? &smaller : nullptr);
            ArchiveWriter writer;
            std::string facts = write_facts(photo);
            writer.text(facts);
            writer.whole(grey.width, largest_side);
            writer.block(grey.pixels);
            writer.list(smaller, [&](PrintCopy& copy) { archive_copy(writer, copy); });
            return std::move(writer.bytes);
        },
        limits);
    for (std::size_t i = 0; i < jobs.size(); ++i) {
        Photo& photo = *jobs[i].photo;
        Photo found;
        ArchiveReader reader(results[i].bytes);
        const std::string facts(reader.piece());
        Raster grey;
        reader.whole(grey.width, largest_side);
        reader.block(grey.pixels);
        std::vector<PrintCopy> smaller;
        reader.list(smaller, [&](PrintCopy& copy) { archive_copy(reader, copy); });
        // A child may have been taken over by what it read: its pictures are looked at like any others.
        const bool told = results[i].ended_well && reader.ended_well() && read_facts(facts, found) &&
                          is_sound_copy(found.print) && is_sound_copy(found.detail) &&
                          are_the_smaller(smaller, found, jobs[i]);
        if (told && jobs[i].grey != nullptr && grey.width > 0) {
            grey.channels = 1;
            grey.height = static_cast<int>(grey.pixels.size() / static_cast<std::size_t>(grey.width));
            *jobs[i].grey = std::move(grey);
        }
        if (told && jobs[i].smaller != nullptr) *jobs[i].smaller = std::move(smaller);
        if (!told) found.refuse({Why::heic, 0, {}, {}});
        found.name = photo.name;
        found.file = photo.file;
        found.size = jobs[i].bytes->size();
        found.sha256 = crypto::sha256(*jobs[i].bytes);
        photo = std::move(found);
    }
}

}  // namespace rigdeed::evidence
