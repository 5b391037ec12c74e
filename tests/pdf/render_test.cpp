#include "pdf/render.hpp"

#include <doctest/doctest.h>

#include "base/error.hpp"
#include "pdf/content.hpp"
#include "pdf/sample_pages.hpp"
#include "pdf/subset.hpp"

using namespace rigdeed;

namespace {

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

std::string rendered(const layout::Pages& pages) { return pdf::render_pdf(pages, sample::facts()).bytes; }

std::string operators(const layout::PlacedItem& item) {
    layout::Pages pages = sample::full_pages();
    pages.size = {600_pt, 800_pt};
    pages.pages = {{{item}, ""}};
    pdf::Typesetting typesetting;
    return pdf::page_content(pages.pages[0], pages, typesetting).operators;
}

}  // namespace

TEST_CASE("the same pages give the same bytes") {
    CHECK(rendered(sample::full_pages()) == rendered(sample::full_pages()));
}

TEST_CASE("the slot is where the byte range and the signature stand") {
    const pdf::RenderedPdf pdf = pdf::render_pdf(sample::small_pages(), sample::facts());
    REQUIRE(pdf.slot);
    CHECK(pdf.bytes.substr(pdf.slot->byte_range, 38) == "[0 0000000000 0000000000 0000000000]\n/");
    CHECK(pdf.bytes[pdf.slot->contents] == '<');
    CHECK(pdf.bytes[pdf.slot->contents + pdf.slot->hex_digits + 1] == '>');
    CHECK(pdf.slot->hex_digits == 32768);
}

TEST_CASE("without signature facts there is no slot, no form and no certification") {
    pdf::DocumentFacts facts = sample::facts();
    facts.signature.reset();
    const pdf::RenderedPdf pdf = pdf::render_pdf(sample::small_pages(), facts);
    CHECK_FALSE(pdf.slot);
    CHECK_FALSE(has(pdf.bytes, "/AcroForm"));
    CHECK_FALSE(has(pdf.bytes, "/Perms"));
}

TEST_CASE("a picture's own bytes stand in the file, and are let go of") {
    layout::Pages pages = sample::small_pages();
    const std::weak_ptr<const Bytes> jpeg = pages.images[0].jpeg;
    const std::string bytes(as_text(*jpeg.lock()));
    const std::string pdf = pdf::render_pdf(std::move(pages), sample::facts()).bytes;
    CHECK(has(pdf, bytes));
    CHECK(jpeg.expired());
}

TEST_CASE("metadata is escaped for XML and for PDF") {
    const std::string pdf = rendered(sample::small_pages());
    CHECK(has(pdf, "“Curlew” &amp; &lt;Co&gt;"));
    CHECK(has(pdf, "/Title <FEFF"));
    CHECK(has(pdf, "/CreationDate (D:20261003040000+00'00')"));
    CHECK(has(pdf, "<xmp:CreateDate>2026-10-03T04:00:00+00:00</xmp:CreateDate>"));
}

TEST_CASE("a page without items has a content all the same") {
    layout::Pages pages = sample::small_pages();
    pdf::Typesetting typesetting;
    CHECK(pdf::page_content({}, pages, typesetting).operators == "q Q\n");
}

TEST_CASE("what cannot be drawn is an error, not a blank") {
    CHECK_THROWS_AS((void)operators(sample::text(0, 0, "\xF0\x93\x80\x80")), Error);  // a hieroglyph
    CHECK_THROWS_AS((void)operators(sample::text(0, 0, "two\nlines")), Error);
    CHECK_THROWS_AS((void)operators(sample::text(0, 0, "\xFF")), Error);
    layout::Pages pages = sample::small_pages();
    pages.pages[0].items.emplace_back(layout::PlacedLink{{{0_pt, 0_pt}, {9_pt, 9_pt}}, 7, 0_pt});
    CHECK_THROWS_AS((void)rendered(pages), Error);
    CHECK_THROWS_AS((void)rendered({}), Error);
    pages = sample::small_pages();
    pages.images[0].jpeg = std::make_shared<const Bytes>(to_bytes("\xFF\xD8 no picture"));
    CHECK_THROWS_AS((void)rendered(pages), Error);
    pages.images[0].jpeg.reset();
    CHECK_THROWS_AS((void)rendered(pages), Error);
}

TEST_CASE("text changes its font where the face lacks a character") {
    const std::string text = operators(sample::text(10, 20, "a✓b"));
    CHECK(has(text, "1 0 0 1 10 780 Tm\n"));
    CHECK(has(text, "/F1 9.25 Tf\n<0001> Tj\n/F5 9.25 Tf\n<0001> Tj\n/F1 9.25 Tf\n<0002> Tj\n"));
}

TEST_CASE("a shape is stroked with its fractional dashes and seen through its alpha") {
    drawing::Shape line{{drawing::MoveTo{{1_pt, 2_pt}}, drawing::LineTo{{3_pt, 4_pt}}}};
    line.stroke = drawing::Stroke{{0.45}, {255, 0, 0}, {{4.5}, {2.25}}, false};
    line.alpha = 0.5;
    CHECK(operators(layout::PlacedShape{line}) ==
          "/Artifact BMC\nq\n/A500 gs\n1 0 0 RG\n0.45 w\n[4.5 2.25 ] 0 d\n1 798 m\n3 796 l\nS\nQ\nEMC\n");
}

TEST_CASE("a picture fills its box without distortion") {
    const layout::PlacedImage wide{1, {{0_pt, 0_pt}, {240_pt, 90_pt}}, {}, {}};  // 120 x 90 pixels
    CHECK(has(operators(wide), "0 710 240 90 re W n\n240 0 0 180 0 665 cm\n"));
}

TEST_CASE("numbers are written without exponent, trailing zeros or a negative zero") {
    CHECK(pdf::number(1.5) == "1.5");
    CHECK(pdf::number(100) == "100");
    CHECK(pdf::number(-0.00001) == "0");
    CHECK(pdf::number(1e-7) == "0");
}

TEST_CASE("a composed letter takes the parts it is made of along") {
    const pdf::Fonts fonts;
    pdf::Subset plain(fonts.font(5)), composed(fonts.font(5));
    CHECK(plain.code(U'a') == 1);
    CHECK(composed.code(U'Ή') == 1);
    const auto glyphs = [](const pdf::Subset& subset) {
        const std::string file = subset.file();
        return pdf::u16_at(file,
                           file.find("maxp") == std::string::npos ? 0 : pdf::u32_at(file, file.find("maxp") + 8) + 4);
    };
    CHECK(glyphs(plain) == 2);
    CHECK(glyphs(composed) == 5);  // a letter, an accent made of another accent
}

TEST_CASE("what belongs to an element is marked content of its own, the rest an artifact (ISO 32000-1, 14.6)") {
    layout::Pages pages;
    pages.size = {200_pt, 200_pt};
    pages.structure = {
        {"H1", layout::artifact, {}}, {"Figure", layout::artifact, "a strand"}, {"P", layout::artifact, {}}};
    layout::Page page;
    const auto text = [](const char* words, layout::ElementIndex element) {
        layout::PlacedText one{{10_pt, 20_pt}, words, layout::Face::regular, 9_pt, {}, 30_pt};
        one.element = element;
        return one;
    };
    page.items = {text("head", 0), text("head, second line", 0), text("page 1", layout::artifact), text("label", 1)};
    pages.pages.push_back(page);
    pdf::Typesetting typesetting;
    const pdf::Content content = pdf::page_content(pages.pages.front(), pages, typesetting);
    CHECK(content.marked == std::vector<layout::ElementIndex>{0, 1});
    CHECK(content.operators.find("/H1 <</MCID 0>> BDC") == 0);
    CHECK(content.operators.find("/Artifact BMC") != std::string::npos);
    CHECK(content.operators.find("/Figure <</MCID 1>> BDC") != std::string::npos);
    const std::string file = pdf::render_pdf(pages, {"t", "a", "s"}).bytes;
    CHECK(file.find("/Type /StructTreeRoot") != std::string::npos);
    CHECK(file.find("/Alt (a strand)") != std::string::npos);
    CHECK(file.find("/S /P\n") == std::string::npos);  // nothing stands in it
    CHECK(file.find("/Marked true") != std::string::npos);
}
