#include "pdf/sample_pages.hpp"

#include <jpeglib.h>
#include <cstdio>
#include <cstdlib>

namespace rigdeed::sample {
namespace {

using layout::Face;

drawing::Shape box(double x, double y, double width, double height) {
    using namespace drawing;
    return {{MoveTo{{{x}, {y}}}, LineTo{{{x + width}, {y}}}, LineTo{{{x + width}, {y + height}}},
             LineTo{{{x}, {y + height}}}, Close{}}};
}

void add_faces(layout::Page& page) {
    double y = 80;
    for (const Face face : {Face::light, Face::regular, Face::italic, Face::bold, Face::black}) {
        layout::PlacedText line = text(60, y, "Résumé 0123456789 – 8 mm ≥ 5/16″, Ωδ Жё ½ ✓ ✗ ⚠ ⌀ → ŉ Ή fi");
        line.face = face;
        page.items.emplace_back(line);
        y += 18;
    }
    layout::PlacedText big = text(200, 420, "PREVIEW");
    big.face = Face::black, big.size = {90}, big.tilt = 35, big.alpha = 0.15, big.colour = {200, 0, 0};
    page.items.emplace_back(big);
}

void add_shapes(layout::Page& page) {
    using namespace drawing;
    Shape filled = box(60, 200, 80, 40);
    filled.fill = Colour{230, 159, 0}, filled.alpha = 0.5;
    Shape dashed = box(100, 220, 80, 40);
    dashed.stroke = Stroke{{1.5}, {0, 114, 178}, {{4.5}, {2.25}}, false};
    Shape both = box(220, 200, 60, 60);
    both.fill = Colour{240, 240, 240}, both.stroke = Stroke{{0.45}, {0, 0, 0}, {}, true};
    Shape curve{{MoveTo{{{300}, {260}}}, CurveTo{{{340}, {160}}, {{380}, {300}}, {{420}, {200}}}}};
    curve.stroke = Stroke{{3}, {213, 94, 0}, {}, true};
    for (const Shape& shape : {filled, dashed, both, curve}) page.items.emplace_back(layout::PlacedShape{shape});
}

}  // namespace

layout::Image picture(int width, int height, bool grey) {
    const int channels = grey ? 1 : 3;
    jpeg_compress_struct compressor{};
    jpeg_error_mgr errors{};
    compressor.err = jpeg_std_error(&errors);
    jpeg_create_compress(&compressor);
    unsigned char* buffer = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&compressor, &buffer, &size);
    compressor.image_width = static_cast<JDIMENSION>(width);
    compressor.image_height = static_cast<JDIMENSION>(height);
    compressor.input_components = channels;
    compressor.in_color_space = grey ? JCS_GRAYSCALE : JCS_RGB;
    jpeg_set_defaults(&compressor);
    jpeg_start_compress(&compressor, TRUE);
    std::vector<unsigned char> row(static_cast<std::size_t>(width * channels));
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width * channels; ++x)
            row[static_cast<std::size_t>(x)] =
                static_cast<unsigned char>((x * 255 / (width * channels) + y * (x % channels)) & 0xFF);
        JSAMPROW rows = row.data();
        jpeg_write_scanlines(&compressor, &rows, 1);
    }
    jpeg_finish_compress(&compressor);
    jpeg_destroy_compress(&compressor);
    auto bytes = std::make_shared<const Bytes>(buffer, buffer + size);
    std::free(buffer);
    return {bytes, width, height};
}

layout::PlacedText text(double x, double y, std::string words) {
    layout::PlacedText made;
    made.baseline = {{x}, {y}};
    made.text = std::move(words);
    return made;
}

layout::Pages small_pages() {
    layout::Pages made;
    made.size = {595.28_pt, 841.89_pt};
    made.images.push_back(picture(16, 12));
    made.pages.resize(2);
    made.pages[0].label = "1";
    made.pages[0].items = {text(60, 80, "Rig survey"),
                           layout::PlacedImage{0, {{60_pt, 100_pt}, {80_pt, 60_pt}}, {}, "a picture"},
                           layout::PlacedLink{{{60_pt, 70_pt}, {50_pt, 12_pt}}, 1, 60_pt}};
    made.pages[1].label = "2";
    made.bookmarks = {{"Rig survey", 0, 0, 60_pt}};
    return made;
}

layout::Pages full_pages() {
    layout::Pages made = small_pages();
    made.images.push_back(picture(120, 90));
    made.images.push_back(picture(40, 40, true));
    add_faces(made.pages[0]);
    add_shapes(made.pages[0]);
    auto& second = made.pages[1].items;
    second.emplace_back(layout::PlacedImage{1, {{60_pt, 60_pt}, {240_pt, 180_pt}}, {}, "Zoë’s picture"});
    second.emplace_back(
        layout::PlacedImage{1, {{320_pt, 60_pt}, {240_pt, 180_pt}}, layout::Circle{{440_pt, 150_pt}, 60_pt}, {}});
    second.emplace_back(layout::PlacedImage{2, {{60_pt, 260_pt}, {200_pt, 50_pt}}, {}, {}});
    made.pages.push_back({{}, "A-1"});
    made.bookmarks = {{"Résumé – Ω ✓", 0, 0, 60_pt},
                      {"Boat", 1, 0, 200_pt},
                      {"Rig", 1, 1, 60_pt},
                      {"Mast", 2, 1, 90_pt},
                      {"End", 0, 2, 60_pt}};
    return made;
}

pdf::DocumentFacts facts() {
    pdf::DocumentFacts made;
    made.title = "Rig survey 2026-031: “Curlew” & <Co>";
    made.author = "Ann Rigger";
    made.subject = "Survey of a sloop";
    made.issued = 1'791'000'000;
    for (std::size_t i = 0; i < made.identity.bytes.size(); ++i)
        made.identity.bytes[i] = static_cast<unsigned char>(i * 7);
    made.files = {
        {"survey.xml", "text/xml", "The survey as issued", "Source", to_bytes("<rig-survey number=\"2026-031\"/>\n")}};
    made.signature = pdf::SignatureFacts{"Ann Rigger", "Issued as surveyed", "Falmouth"};
    return made;
}

}  // namespace rigdeed::sample
