#include "evidence/heif.hpp"
#include "evidence/give_way.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include "base/error.hpp"
#include "base/file.hpp"
#include "crypto/digest.hpp"
#include "evidence/copies.hpp"
#include "evidence/resample.hpp"
#include "evidence/sample_heif.hpp"
#include "evidence/sample_photo.hpp"
#include "evidence/scale.hpp"
#include "survey/sample.hpp"
#include "survey/temporary_survey.hpp"

using namespace rigdeed;
using namespace rigdeed::evidence;

namespace {

// Another colour in each corner: whichever way it is turned, it looks different.
void paint(int x, int y, unsigned char* rgb) {
    const bool left = x < 64, top = y < 48;
    rgb[0] = left ? 220 : 30;
    rgb[1] = top ? 200 : 40;
    rgb[2] = left == top ? 60 : 180;
}

Raster stored() {
    Raster raster = rgb_raster(128, 96);
    for (int y = 0; y < 96; ++y)
        for (int x = 0; x < 128; ++x) paint(x, y, raster.row(y) + static_cast<std::ptrdiff_t>(x) * 3);
    return raster;
}

Photo taken(const Bytes& bytes, const Wanted& wanted = {128, nullptr, 0}) {
    prepare_heif();
    Photo photo;
    take_heifs_apart({{&bytes, wanted, &photo}});
    return photo;
}

double mean_difference(const Raster& a, const Raster& b) {
    REQUIRE(a.pixels.size() == b.pixels.size());
    double sum = 0;
    for (std::size_t i = 0; i < a.pixels.size(); ++i) sum += std::abs(a.pixels[i] - b.pixels[i]);
    return sum / static_cast<double>(a.pixels.size());
}

// Little-endian TIFF with orientation 6 and a time, as a telephone writes it beside the container's own turn.
Bytes exif_turned() {
    const std::string entry_orientation("\x12\x01\x03\0\x01\0\0\0\x06\0\0\0", 12);
    const std::string entry_time("\x32\x01\x02\0\x14\0\0\0\x26\0\0\0", 12);
    const std::string tiff = std::string("II*\0\x08\0\0\0\x02\0", 10) + entry_orientation + entry_time +
                             std::string(4, '\0') + std::string("2026:10:03 09:14:05\0", 20);
    return to_bytes(tiff);
}

void put(Bytes& file, std::size_t at, std::uint32_t value) {
    for (std::size_t i = 0; i < 4; ++i) file[at + i] = static_cast<unsigned char>(value >> (24 - 8 * i));
}

std::size_t place_of(const Bytes& file, std::string_view box) {
    const std::size_t at = as_text(file).find(box);
    REQUIRE(at != std::string_view::npos);
    return at;
}

}  // namespace

TEST_CASE("a HEIC stands upright by its container's rule, whichever of the eight ways it is stored") {
    for (int orientation = 1; orientation <= 8; ++orientation) {
        CAPTURE(orientation);
        const Photo photo = taken(sample::heic(128, 96, paint, {static_cast<heif_orientation>(orientation), {}}));
        REQUIRE(photo.usable());
        const Raster expected = upright(stored(), orientation);
        CHECK(photo.width == expected.width);
        CHECK(photo.height == expected.height);
        const auto printed = decode_rgb(*photo.print.jpeg);
        REQUIRE(printed);
        CHECK(mean_difference(*printed, expected) < 5);
    }
}

TEST_CASE("what Exif says of the turn of a HEIC is not done a second time; its other facts are read") {
    const Photo photo = taken(sample::heic(128, 96, paint, {heif_orientation_normal, exif_turned()}));
    REQUIRE(photo.usable());
    CHECK(photo.width == 128);
    CHECK(photo.facts.orientation == 1);
    REQUIRE(photo.facts.changed);
    CHECK(photo.facts.changed->date.iso() == "2026-10-03");
}

TEST_CASE("digest and size are of the file itself, and the copies of the sizes wanted") {
    const Bytes file = sample::heic(256, 192, [](int x, int y, unsigned char* rgb) {
        rgb[0] = static_cast<unsigned char>(x), rgb[1] = static_cast<unsigned char>(y), rgb[2] = 90;
    });
    const survey::Mark mark{0.5, 0.4, 0.125};
    const Photo photo = taken(file, {64, &mark, 32});
    REQUIRE(photo.usable());
    CHECK(photo.sha256 == crypto::sha256(file));
    CHECK(photo.size == file.size());
    CHECK(std::max(photo.print.width, photo.print.height) == printed_side(256, 64));
    CHECK(photo.detail.width == 32);
    REQUIRE(photo.detail_of);
    CHECK(photo.detail_of->radius == doctest::Approx(0.125));
    auto detail = decode_rgb(*photo.detail.jpeg);
    REQUIRE(detail);  // its middle is the mark's
    CHECK(std::abs(detail->row(16)[16 * 3] - 128) < 8);
    CHECK(std::abs(detail->row(16)[16 * 3 + 1] - 102) < 8);
}

TEST_CASE("hostile HEIC files are refused and hurt nobody") {
    const Bytes good = sample::heic(128, 96, paint, {heif_orientation_rotate_90_cw, exif_turned()});
    std::vector<Bytes> hostile;
    for (std::size_t part = 0; part < 24; ++part)
        hostile.emplace_back(good.begin(), good.begin() + static_cast<std::ptrdiff_t>(good.size() * part / 24));
    Bytes huge = good;  // says 60 000 by 60 000
    put(huge, place_of(huge, "ispe") + 8, 60000);
    put(huge, place_of(huge, "ispe") + 12, 60000);
    hostile.push_back(huge);
    Bytes endless = good;
    put(endless, place_of(endless, "iprp") - 4, 0xFFFFFFFF);
    hostile.push_back(endless);
    Bytes deep(good.begin(), good.begin() + 24);  // boxes within boxes, each as long as all
    for (int i = 0; i < 20000; ++i)
        for (const char c : std::string("\0\xFF\xFF\xFFipco", 8)) deep.push_back(static_cast<unsigned char>(c));
    hostile.push_back(deep);
    prepare_heif();
    for (const Bytes& file : hostile) {
        Photo photo;
        if (file.size() > 12) take_heifs_apart({{&file, {128, nullptr, 0}, &photo}});
        CHECK_FALSE(photo.usable());
        CHECK(photo.trouble.any());
    }
    // What a flipped bit leaves readable is as large as it says, or refused.
    for (std::size_t at = 0; at < good.size(); at += good.size() / 60) {
        Bytes flipped = good;
        flipped[at] ^= 0x10;
        const Photo photo = taken(flipped);
        CHECK(photo.usable() == (photo.print.jpeg != nullptr));
    }
}

TEST_CASE("a HEIC in the photo folder is taken like any photo, and not again once its copies are there") {
    const sample::TemporarySurvey folder(sample::text_of("fixtures/complete/survey.xml"));
    survey::Survey survey = sample::with("",
                                         "<fitting id=\"f\" kind=\"mast-step\" station=\"deck\" height=\"1 m\"><seen "
                                         "pass=\"up\" at=\"09:00\" far=\"F\" close=\"C\"/></fitting>");
    survey.file = folder.file().string();
    folder.photo("C", sample::jpeg(128, 96, paint));
    const auto at = folder.file().parent_path() / "photos" / "F.HEIC";
    const Bytes file = sample::heic(128, 96, paint);
    write_file(at, as_text(file));
    CopiesInMemory copies;
    const ForPrint print{{{"F", 64}, {"C", 64}}, {}, 0};
    const Evidence evidence = gather_evidence(survey, print, {2, {}, &copies, nullptr});
    REQUIRE(evidence.find("F")->usable());
    CHECK(evidence.find("F")->print.jpeg != nullptr);
    CHECK(evidence.unused.empty());
    const Evidence known = without_copies(evidence);
    const Evidence larger = gather_evidence(survey, {{{"F", 128}, {"C", 64}}, {}, 0}, {2, {}, &copies, &known});
    CHECK(larger.find("F")->print.width == 128);
    std::filesystem::remove(at);
    CHECK(gather_evidence(survey, print, {2, {}, &copies, &known}).find("F")->print.width == 64);
    write_file(at, as_text(sample::heic(64, 48, paint)));
    CHECK_THROWS_AS((void)gather_evidence(survey, {{{"F", 32}, {"C", 64}}, {}, 0}, {2, {}, &copies, &known}), Error);
}

TEST_CASE("a HEIC that gives way is decoded once for all its sizes, and none is guessed") {
    const sample::TemporarySurvey folder(sample::text_of("fixtures/complete/survey.xml"));
    survey::Survey survey = sample::with("",
                                         "<fitting id=\"f\" kind=\"mast-step\" station=\"deck\" height=\"1 m\"><seen "
                                         "pass=\"up\" at=\"09:00\" far=\"F\" close=\"C\"/></fitting>");
    survey.file = folder.file().string();
    const auto photos = folder.file().parent_path() / "photos";
    const auto speckled = [](int x, int y, unsigned char* rgb) {
        for (int i = 0; i < 3; ++i) rgb[i] = static_cast<unsigned char>((x * 37 + y * 91 + i * 50) % 251);
    };
    write_file(photos / "F.HEIC", as_text(sample::heic(400, 300, speckled)));
    write_file(photos / "C.HEIC", as_text(sample::heic(300, 400, speckled)));
    CopiesInMemory copies;
    ForPrint print{{{"F", 256}, {"C", 256}}, {}, 0};
    print.giving_way = {"F", "C"};
    const Evidence evidence = gather_evidence(survey, print, {2, {}, &copies, nullptr});
    const auto giving = giving_way(evidence, print, copies);
    REQUIRE(giving.size() == 2);
    const Evidence known = without_copies(evidence);
    std::filesystem::remove(photos / "F.HEIC");  // whatever is printed from here on was made before
    std::filesystem::remove(photos / "C.HEIC");
    for (const GivingWay& one : giving) {
        CHECK(one.sizes.size() > 5);
        for (const GivingWay::Size& size : one.sizes) {
            ForPrint again;
            again.exact[one.name] = size.side;
            const Evidence small = gather_evidence(survey, again, {2, {}, &copies, &known});
            const PrintCopy& copy = small.find(one.name)->print;
            REQUIRE(copy.jpeg != nullptr);
            CHECK(copy.jpeg->size() == size.bytes);
            CHECK(std::max(copy.width, copy.height) == size.side);
            CHECK((copy.width < copy.height) == (one.name == "C"));
            CHECK(decode_rgb(*copy.jpeg).has_value());
        }
    }
    CHECK(sides_within(giving, largest(giving) / 2));
}

TEST_CASE("a picture in fewer pixels has the mean of what each stands for") {
    Raster raster = rgb_raster(3, 2);
    for (std::size_t i = 0; i < raster.pixels.size(); ++i) raster.pixels[i] = static_cast<unsigned char>(10 * i);
    CHECK(shrunk(raster, 3, 2).pixels == raster.pixels);
    const Raster one = shrunk(raster, 1, 1);
    CHECK(one.pixels == std::vector<unsigned char>{75, 85, 95});  // of 0 30 60 90 120 150, and so on
    const Raster two = shrunk(raster, 2, 1);                      // each stands for a column and a half
    CHECK(two.pixels[0] == 55);                                   // (0 + 90 + (30 + 120) / 2) / 3
}

TEST_CASE("the brightness of a HEIC comes out of its child in the size that is wanted") {
    const Bytes file = sample::heic(128, 96, paint);
    prepare_heif();
    Photo photo;
    Raster grey;
    take_heifs_apart({{&file, {}, &photo, 64, &grey}});
    REQUIRE(photo.usable());
    CHECK(grey.width == 64);
    CHECK(grey.height == 48);
    CHECK(grey.channels == 1);
    CHECK(std::abs(grey.row(5)[5] - (77 * 220 + 150 * 200 + 29 * 60) / 256) < 6);
}
