#include "evidence/logo.hpp"

#include <png.h>

#include <algorithm>

#include "base/error.hpp"
#include "evidence/jpeg_structure.hpp"
#include "evidence/scale.hpp"
#include "evidence/upright.hpp"

namespace rigdeed::evidence {
namespace {

constexpr unsigned largest_logo = 4000;

/// libpng's simplified interface; its memory goes with this object.
class Png {
 public:
    explicit Png(const Bytes& bytes) {
        image_.version = PNG_IMAGE_VERSION;
        read_ = png_image_begin_read_from_memory(&image_, bytes.data(), bytes.size()) != 0;
    }
    ~Png() { png_image_free(&image_); }
    Png(const Png&) = delete;
    Png& operator=(const Png&) = delete;

    [[nodiscard]] bool usable() const { return read_ && image_.width <= largest_logo && image_.height <= largest_logo; }

    /// RGB on white.
    bool decode(Raster& raster) {
        image_.format = PNG_FORMAT_RGB;
        raster.resize(static_cast<int>(image_.width), static_cast<int>(image_.height), 3);
        png_color white{255, 255, 255};
        return png_image_finish_read(&image_, &white, raster.pixels.data(), 0, nullptr) != 0;
    }

 private:
    png_image image_{};
    bool read_ = false;
};

}  // namespace

PrintCopy logo_for_print(const Bytes& picture, const std::string& file) {
    constexpr unsigned char png_mark[] = {0x89, 'P', 'N', 'G'};
    if (picture.size() > 4 && std::equal(std::begin(png_mark), std::end(png_mark), picture.begin())) {
        Png png(picture);
        Raster raster;
        if (!png.usable() || !png.decode(raster))
            throw Error("the logo is a damaged PNG, or larger than 4000 pixels", file,
                        "save it anew as a PNG of at most 4000 pixels a side");
        return encode_rgb(std::move(raster));
    }
    const JpegStructure structure = read_structure(picture);
    if (structure.trouble.any())
        throw Error("the logo is neither a PNG nor a JPEG that can be read (" +
                        std::string(row_of(structure.trouble.why).name) + ")",
                    file, "save it as a PNG");
    Scaled scaled = scale_for_print(picture, 1, std::max(structure.width, structure.height), structure.profile);
    if (scaled.trouble.any()) throw Error("the logo is damaged", file, "save it as a PNG");
    return std::move(scaled.copy);
}

}  // namespace rigdeed::evidence
