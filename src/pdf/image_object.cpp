#include "base/error.hpp"
#include "pdf/parts.hpp"

namespace rigdeed::pdf {
namespace {

// The number of colour components, from the frame header (ITU-T T.81, B.2.2).
int components(const Bytes& jpeg) {
    std::size_t at = 2;
    while (at + 9 < jpeg.size() && jpeg[at] == 0xFF) {
        const unsigned marker = jpeg[at + 1];
        if (marker >= 0xC0 && marker <= 0xC2) return jpeg[at + 9];
        at += 2U + (std::size_t{jpeg[at + 2]} << 8 | jpeg[at + 3]);
    }
    throw Error("a picture for the PDF is not a JPEG of the agreed kind", {}, {}, ExitCode::bug);
}

}  // namespace

HPDF_Dict image_object(Document& document, layout::Image& image) {
    if (!image.jpeg) throw Error("a picture without content", {}, {}, ExitCode::bug);
    const int count = components(*image.jpeg);
    if (count != 1 && count != 3) throw Error("a picture for the PDF is neither grey nor sRGB", {}, {}, ExitCode::bug);
    HPDF_Dict made = document.jpeg_stream(std::move(image.jpeg));
    document.name(made, "Type", "XObject");
    document.name(made, "Subtype", "Image");
    document.number(made, "Width", image.width);
    document.number(made, "Height", image.height);
    document.name(made, "ColorSpace", count == 1 ? "DeviceGray" : "DeviceRGB");
    document.number(made, "BitsPerComponent", 8);
    return made;
}

}  // namespace rigdeed::pdf
