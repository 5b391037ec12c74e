#include "evidence/codes.hpp"

#include <ZXing/ReadBarcode.h>

#include <algorithm>

#include "evidence/resample.hpp"

namespace rigdeed::evidence {
namespace {

constexpr int first_size = 1100;  // pixels along the longer side: enough for most, and quick

std::vector<std::string> read_codes(const Raster& grey, bool harder) {
    ZXing::DecodeHints hints;
    hints.setFormats(ZXing::BarcodeFormat::QRCode);
    hints.setTryHarder(harder);
    hints.setTryRotate(harder);
    hints.setMaxNumberOfSymbols(4);
    const ZXing::ImageView view(grey.pixels.data(), grey.width, grey.height, ZXing::ImageFormat::Lum);
    std::vector<std::string> texts;
    for (const ZXing::Result& result : ZXing::ReadBarcodes(view, hints)) {
        std::string text;
        for (const wchar_t letter : result.text())
            text += letter > 0x20 && letter < 0x7F ? static_cast<char>(letter) : '?';
        if (std::find(texts.begin(), texts.end(), text) == texts.end()) texts.push_back(std::move(text));
    }
    return texts;
}

/// Paper with print on it is mostly light, and has dark as well.
bool could_be_paper(const Raster& grey) {
    std::size_t light = 0, dark = 0;
    for (const unsigned char pixel : grey.pixels) light += pixel > 140 ? 1 : 0, dark += pixel < 90 ? 1 : 0;
    return light * 4 > grey.pixels.size() && dark * 100 > grey.pixels.size();
}

}  // namespace

std::vector<std::string> codes_in(const Raster& grey) {
    const int longer = std::max(grey.width, grey.height);
    if (longer <= first_size) return read_codes(grey, true);
    const auto length = [&](int of) {
        return std::max(1, static_cast<int>(static_cast<long long>(of) * first_size / longer));
    };
    const Raster small = shrunk(grey, length(grey.width), length(grey.height));
    std::vector<std::string> texts = read_codes(small, true);
    if (texts.empty() && could_be_paper(small)) texts = read_codes(grey, true);
    return texts;
}

}  // namespace rigdeed::evidence
