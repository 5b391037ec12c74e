#include "drawing/code.hpp"

#include <qrencode.h>

#include <memory>

#include "base/error.hpp"
#include "drawing/palette.hpp"

namespace rigdeed::drawing {

Drawing code_drawing(const std::string& text, Points side, std::string alternative) {
    const std::unique_ptr<QRcode, decltype(&QRcode_free)> code(
        QRcode_encodeString(text.c_str(), 0, QR_ECLEVEL_Q, QR_MODE_8, 1), QRcode_free);
    if (!code) throw Error("a text that no code can be made of", {}, {}, ExitCode::bug);
    Drawing drawing{{side, side}, {}, std::move(alternative)};
    const Points module = side / static_cast<double>(code->width);
    Shape dark;
    dark.fill = black;
    const auto is_dark = [&](int x, int y) { return (code->data[y * code->width + x] & 1) != 0; };
    for (int y = 0; y < code->width; ++y)
        for (int x = 0; x < code->width; ++x) {
            if (!is_dark(x, y)) continue;
            const int begin = x;
            while (x + 1 < code->width && is_dark(x + 1, y)) ++x;
            const Points left = module * begin, right = module * (x + 1), top = module * y, bottom = module * (y + 1);
            for (const Segment& segment :
                 {Segment(MoveTo{{left, top}}), Segment(LineTo{{right, top}}), Segment(LineTo{{right, bottom}}),
                  Segment(LineTo{{left, bottom}}), Segment(Close{})})
                dark.path.push_back(segment);
        }
    drawing.items.emplace_back(std::move(dark));
    return drawing;
}

}  // namespace rigdeed::drawing
