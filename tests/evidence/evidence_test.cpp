#include "evidence/evidence.hpp"

#include <doctest/doctest.h>

#include <lcms2.h>
#include <algorithm>
#include <atomic>
#include <chrono>
#include <thread>
#include <vector>

#include <map>
#include <random>

#include "evidence/colour.hpp"
#include "evidence/exif.hpp"
#include "evidence/find_files.hpp"
#include "evidence/jpeg_structure.hpp"
#include "evidence/pixel_budget.hpp"
#include "evidence/sample_photo.hpp"
#include "evidence/scale.hpp"
#include "evidence/upright.hpp"

using namespace rigdeed;
using namespace rigdeed::sample;
using evidence::read_structure;
using evidence::Why;

namespace {
const bool quiet = [] {
    evidence::prepare_exif();
    return true;
}();

Why refusal(const Bytes& bytes) { return read_structure(bytes).trouble.why; }
Bytes bytes_of(std::string_view text) { return to_bytes(text); }

/// Facts from a block with one Exif entry.
evidence::CameraFacts facts_with(ExifEntry entry, const std::string& data = {}) {
    unsigned data_at = 0;
    (void)tiff({}, {entry}, data, data_at);
    if (!data.empty()) entry.value = data_at;
    return evidence::read_exif(tiff({}, {entry}, data, data_at));
}
constexpr unsigned ascii = 2, short_int = 3, rational = 5;
std::string numbers(unsigned above, unsigned below) {
    std::string bytes;
    for (const unsigned n : {above, below})
        for (int i = 0; i < 4; ++i) bytes += static_cast<char>(n >> (8 * i));
    return bytes;
}
}  // namespace

TEST_CASE("a JPEG says its size, and other files say what they are") {
    const auto structure = read_structure(marked_jpeg());
    CHECK_FALSE(structure.trouble.any());
    CHECK(structure.width == 64);
    CHECK(structure.height == 48);
    CHECK(refusal({}) == Why::empty);
    CHECK(refusal(bytes_of(std::string("\0\0\0\x18"
                                       "ftypheic\0\0\0\0",
                                       16))) == Why::heic);
    CHECK(refusal(bytes_of("\x89PNG\r\n\x1a\n")) == Why::png);
    CHECK(refusal(bytes_of("hello")) == Why::not_jpeg);
}

TEST_CASE("cut anywhere, a JPEG is refused") {
    const Bytes whole = marked_jpeg();
    for (std::size_t length = 0; length < whole.size(); ++length) {
        const Bytes cut(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(length));
        CHECK_MESSAGE(refusal(cut) != Why::none, length);
    }
}

TEST_CASE(
    "a photo of 108 megapixels, as some telephones take, is read and printed; with its coefficients to hold it is "
    "not") {
    const Bytes photo = jpeg(
        12000, 9000, [](int x, int, unsigned char* p) { p[0] = x < 6000 ? 60 : 180; }, 1);
    CHECK(refusal(photo) == Why::none);
    const evidence::Scaled scaled = evidence::scale_for_print(photo, 1, 900);
    REQUIRE(scaled.copy.jpeg);
    CHECK(scaled.copy.width <= 1500);
    const evidence::Cut cut = evidence::cut_for_print(photo, 1, {0.5, 0.4, 0.01}, 700);
    REQUIRE(cut.copy.jpeg);
    CHECK(cut.shown.x == doctest::Approx(0.5).epsilon(0.01));
    Bytes held = photo;
    for (std::size_t i = 0; i + 1 < held.size(); ++i)
        if (held[i] == 0xFF && held[i + 1] == 0xC0) {
            held[i + 1] = 0xC2;
            break;
        }
    CHECK(refusal(held) == Why::large_picture);
}

TEST_CASE("colours and codings that cannot be printed are refused by name") {
    CHECK(refusal(jpeg(
              32, 32, [](int, int, unsigned char* p) { p[0] = p[1] = p[2] = p[3] = 9; }, 4)) == Why::cmyk);
    Bytes huge = marked_jpeg();
    for (std::size_t i = 0; i + 9 < huge.size(); ++i)
        if (huge[i] == 0xFF && huge[i + 1] == 0xC0) {
            huge[i + 5] = huge[i + 7] = 0xFF;  // claims 65k x 65k
            break;
        }
    CHECK(refusal(huge) == Why::large_picture);
    Bytes arithmetic = marked_jpeg();
    for (std::size_t i = 0; i + 1 < arithmetic.size(); ++i)
        if (arithmetic[i] == 0xFF && arithmetic[i + 1] == 0xC0) arithmetic[i + 1] = 0xC9;
    CHECK(refusal(arithmetic) == Why::arithmetic);
}

TEST_CASE("a file with thousands of scans is refused before it is decoded") {
    Bytes many = jpeg(
        64, 64, [](int x, int y, unsigned char* p) { p[0] = p[1] = p[2] = static_cast<unsigned char>(x * y); }, 3,
        true);
    CHECK(refusal(many) == Why::none);
    std::size_t first = 0;
    while (!(many[first] == 0xFF && many[first + 1] == 0xDA)) ++first;
    const Bytes scan{0xFF, 0xDA, 0, 8, 1, 1, 0, 0, 0, 0};
    for (int i = 0; i < 200; ++i)
        many.insert(many.begin() + static_cast<std::ptrdiff_t>(first), scan.begin(), scan.end());
    CHECK(refusal(many) == Why::scans);
}

TEST_CASE("a scan bomb, many scans over many pixels, is refused before it is decoded") {
    Bytes bomb = jpeg(
        64, 64, [](int x, int y, unsigned char* p) { p[0] = p[1] = p[2] = static_cast<unsigned char>(x * y); }, 3,
        true);
    std::size_t frame = 0;
    while (!(bomb[frame] == 0xFF && bomb[frame + 1] == 0xC2)) ++frame;
    bomb[frame + 5] = bomb[frame + 7] = 0x27;  // 10 000 pixels high and wide
    bomb[frame + 6] = bomb[frame + 8] = 0x10;
    std::size_t first = frame;
    while (!(bomb[first] == 0xFF && bomb[first + 1] == 0xDA)) ++first;
    const Bytes scan{0xFF, 0xDA, 0, 8, 1, 1, 0, 0, 0, 0};
    for (int i = 0; i < 12; ++i)
        bomb.insert(bomb.begin() + static_cast<std::ptrdiff_t>(first), scan.begin(), scan.end());
    CHECK(refusal(bomb) == Why::scans);
}

TEST_CASE("no more pixels are decoded at once than there is room for, and a picture larger than that alone") {
    evidence::PixelBudget budget(100);
    std::atomic<int> at_once{0}, most{0};
    const auto decode = [&](std::size_t pixels) {
        const auto share = budget.take(pixels);
        most = std::max(most.load(), ++at_once);
        std::this_thread::sleep_for(std::chrono::milliseconds(2));
        --at_once;
    };
    {
        std::vector<std::jthread> threads;
        for (int i = 0; i < 6; ++i) threads.emplace_back([&] { decode(60); });
    }
    CHECK(most == 1);
    decode(1000);
    const auto one = budget.take(50), other = budget.take(50);
    CHECK(at_once == 0);
}

TEST_CASE("damage inside the picture is found by decoding") {
    const Bytes whole = jpeg(256, 256, [](int x, int y, unsigned char* p) {
        p[0] = static_cast<unsigned char>(x * y);
        p[1] = static_cast<unsigned char>((x ^ y) & 255);
        p[2] = static_cast<unsigned char>(x);
    });
    CHECK_FALSE(evidence::scale_for_print(whole, 1, 0).trouble.any());
    Bytes holed = whole;
    holed.erase(holed.begin() + static_cast<std::ptrdiff_t>(holed.size() / 2),
                holed.end() - 2);  // the middle is gone, the end mark stands
    CHECK(refusal(holed) == Why::none);
    CHECK(evidence::scale_for_print(holed, 1, 0).trouble.why == Why::undecodable);
}

TEST_CASE("the print copy has just the pixels wanted, never more than the photo") {
    const Bytes photo = marked_jpeg(800, 600);
    CHECK(evidence::scale_for_print(photo, 1, 100).copy.width == 100);
    CHECK(evidence::scale_for_print(photo, 1, 101).copy.width == 101);
    CHECK(evidence::scale_for_print(photo, 1, 801).copy.width == 800);
    CHECK(!evidence::scale_for_print(photo, 1, 0).copy.jpeg);
    const auto turned = evidence::scale_for_print(photo, 6, 100).copy;
    CHECK(turned.width == 75);
    CHECK(turned.height == 100);
}

TEST_CASE("the part round a mark is cut from the original pixels, upright, and moved where it reaches beyond") {
    const Bytes jpeg = sample::marked_jpeg(640, 480);  // left half red, right half blue
    const evidence::Cut left = evidence::cut_for_print(jpeg, 1, {0.25, 0.4, 0.1}, 700);
    CHECK_FALSE(left.trouble.any());
    CHECK(left.copy.width == 128);  // 2 x 0.1 of 640, all of them
    CHECK(left.copy.height == 128);
    CHECK(left.shown.x == doctest::Approx(0.25));
    CHECK(left.shown.radius == doctest::Approx(0.1));
    const evidence::Cut corner = evidence::cut_for_print(jpeg, 1, {0.98, 0.02, 0.1}, 700);
    CHECK(corner.shown.x == doctest::Approx(0.9));
    CHECK(corner.shown.y == doctest::Approx(0.1));
    const evidence::Cut turned = evidence::cut_for_print(jpeg, 6, {0.5, 0.5, 0.25}, 700);  // upright it is 480 wide
    CHECK(turned.copy.width == 240);
    const evidence::Cut large = evidence::cut_for_print(jpeg, 1, {0.5, 0.4, 3}, 700);
    CHECK(large.copy.width == 480);  // no larger than the photo
    CHECK(large.shown.radius == doctest::Approx(0.375));
    CHECK(evidence::cut_for_print(Bytes(jpeg.begin(), jpeg.begin() + 300), 1, {0.5, 0.5, 0.1}, 700).trouble.any());
}

TEST_CASE("the print copy carries no metadata") {
    Bytes photo = marked_jpeg(800, 600);
    unsigned at = 0;
    const std::string exif = std::string("Exif\0\0", 6) + tiff({}, {{0x9209, short_int, 1, 0x19}}, "GPS-SECRET", at);
    const std::size_t length = exif.size() + 2;
    std::string segment{'\xFF', '\xE1', static_cast<char>(length >> 8), static_cast<char>(length & 255)};
    segment += exif;
    photo.insert(photo.begin() + 2, segment.begin(), segment.end());
    CHECK(read_structure(photo).exif.find("GPS-SECRET") != std::string_view::npos);
    const auto copy = evidence::scale_for_print(photo, 1, 400).copy;
    CHECK(as_text(*copy.jpeg).find("Exif") == std::string_view::npos);
    CHECK(as_text(*copy.jpeg).find("SECRET") == std::string_view::npos);
}

TEST_CASE(
    "all eight orientations stand upright (CIPA DC-008, tag 0x0112: where row 0 and column 0 of the file are seen)") {
    // a b      The 2 x 3 picture as it should stand, and as a camera stores it under each orientation.
    // c d
    // e f
    const std::map<int, std::pair<int, std::string>> stored{{1, {2, "abcdef"}}, {2, {2, "badcfe"}}, {3, {2, "fedcba"}},
                                                            {4, {2, "efcdab"}}, {5, {3, "acebdf"}}, {6, {3, "bdface"}},
                                                            {7, {3, "fdbeca"}}, {8, {3, "ecafdb"}}};
    for (const auto& [orientation, picture] : stored) {
        CAPTURE(orientation);
        evidence::Raster raster;
        raster.resize(picture.first, 6 / picture.first, 1);
        std::copy(picture.second.begin(), picture.second.end(), raster.pixels.begin());
        const evidence::Raster seen = evidence::upright(raster, orientation);
        CHECK(seen.width == 2);
        CHECK(std::string(seen.pixels.begin(), seen.pixels.end()) == "abcdef");
    }
}

TEST_CASE("flash by its bits (CIPA DC-008, tag 0x9209)") {
    const auto fired = facts_with({0x9209, short_int, 1, 0x19}).flash;
    REQUIRE(fired);
    CHECK(fired->fired());
    CHECK(facts_with({0x9209, short_int, 1, 0x5F}).flash->fired());
    CHECK(!facts_with({0x9209, short_int, 1, 0x10}).flash->fired());
    CHECK(facts_with({0x9209, short_int, 1, 0x20}).flash->absent());
    CHECK(!facts_with({0x9209, short_int, 1, 0xFFFF}).flash);
    CHECK(!facts_with({0x9209, ascii, 4, 0x00534559}).flash);  // "YES" as text
}

TEST_CASE("orientation 0, 9 and nonsense are not recorded") {
    for (const unsigned value : {0U, 9U, 36865U}) {
        unsigned at = 0;
        CHECK(!evidence::read_exif(tiff({{0x0112, short_int, 1, value}}, {}, "", at)).orientation);
    }
    unsigned at = 0;
    CHECK(evidence::read_exif(tiff({{0x0112, short_int, 1, 6}}, {}, "", at)).orientation == 6);
}

TEST_CASE("times that a camera left empty are not recorded") {
    const auto taken = [](const std::string& text) {
        return facts_with({0x9003, ascii, 20, 0}, text + std::string(20 - text.size(), '\0')).taken;
    };
    CHECK(taken("2026:10:03 13:04:05") == LocalTime{{2026, 10, 3}, {13 * 3600 + 4 * 60 + 5}});
    for (const char* text : {"0000:00:00 00:00:00", "                   ", "    :  :     :  :  ", "2026:02:30 10:00:00",
                             "2026:10:03 24:00:00", "2026-10-03 13:04:05", ""})
        CHECK_MESSAGE(!taken(text), text);
    CHECK(taken("2038:01:20 00:00:00"));
}

TEST_CASE("a distance of zero, infinity or 0/0 is not recorded") {
    const auto distance = [](unsigned above, unsigned below) {
        return facts_with({0x9206, rational, 1, 0}, numbers(above, below)).distance;
    };
    CHECK(distance(300, 1000)->value == doctest::Approx(300));
    CHECK(!distance(0, 1));
    CHECK(!distance(0, 0));
    CHECK(!distance(1, 0));
    CHECK(!distance(0xFFFFFFFF, 1));
    CHECK(!distance(0xFFFFFFFF, 0xFFFFFFFF));
}

TEST_CASE("a damaged Exif block gives no facts and no failure") {
    unsigned at = 0;
    const std::string good = tiff({{0x0112, short_int, 1, 6}}, {{0x9209, short_int, 1, 0x19}}, "", at);
    for (std::size_t i = 0; i < good.size(); ++i)
        for (const unsigned char bits :
             {static_cast<unsigned char>(0x01), static_cast<unsigned char>(0x80), static_cast<unsigned char>(0xFF)}) {
            std::string bad = good;
            bad[i] = static_cast<char>(static_cast<unsigned char>(bad[i]) ^ bits);
            (void)evidence::read_exif(bad);
        }
    for (std::size_t length = 0; length < good.size(); ++length) (void)evidence::read_exif(good.substr(0, length));
    CHECK(!evidence::read_exif("nonsense").flash);
}

TEST_CASE("photo scale from distance, focal length and pixels (photogrammetry)") {
    evidence::Photo photo;
    photo.width = 4000;
    photo.height = 3000;
    CHECK(!photo.scale());
    photo.facts.distance = Millimetres{300};
    photo.facts.focal_35mm = 26;
    CHECK(photo.scale()->value == doctest::Approx(0.104).epsilon(0.005));  // 0.30 m, 26 mm, 4000 px: 0.104 mm/px
    photo.width = 3000;
    photo.height = 4000;
    CHECK(photo.scale()->value == doctest::Approx(0.104).epsilon(0.005));
}

TEST_CASE("the survey's clock offset gives true time, across midnight too") {
    evidence::Photo photo;
    photo.facts.taken = LocalTime{{2026, 10, 3}, {86390}};
    survey::Photos photos;
    photos.camera_clock = 130;
    CHECK(photo.true_time(photos) == LocalTime{{2026, 10, 4}, {120}});
    photos.cameras.push_back({0, "Another", 7});
    CHECK(photo.true_time(photos) == LocalTime{{2026, 10, 4}, {120}});
    photos.cameras.push_back({0, photo.facts.camera, -86400});
    CHECK(photo.true_time(photos)->date.day == 2);
}

TEST_CASE("a name finds its file, whatever the ending and its case") {
    const auto find = [](const std::string& name, const std::vector<std::string>& files) {
        return evidence::find_files({name}, files);
    };
    CHECK(find("A1", {"A1.JPG"}).photos[0].file == "A1.JPG");
    CHECK(find("a1", {"A1.JPG"}).photos[0].file == "A1.JPG");
    CHECK(find("A1.jpg", {"A1.jpg"}).photos[0].file == "A1.jpg");
    CHECK(find("A1", {"A1.JPG", "A1.CR2"}).photos[0].file == "A1.JPG");
    CHECK(find("A1", {"A1.JPG", "A1.CR2"}).unused.empty());
    CHECK(find("A1", {"A10.JPG"}).photos[0].state == evidence::State::missing);
    CHECK(find("A1", {"A10.JPG"}).unused == std::vector<std::string>{"A10.JPG"});
    CHECK(find("A1", {"A1.jpg", "A1.jpeg"}).photos[0].state == evidence::State::ambiguous);
    CHECK(find("A1", {"A1.jpg", "notes.txt", "Thumbs.db"}).unused.empty());
    CHECK(find("up/A1", {"up/A1.jpg", "A1.jpg"}).photos[0].file == "up/A1.jpg");
    CHECK(find("A1", {"A1.heic"}).photos[0].file == "A1.heic");
}

TEST_CASE("a name finds its file whether an accent is one character or two; what lies elsewhere is offered") {
    const auto find = [](const std::string& name, const std::vector<std::string>& files) {
        return evidence::find_files({name}, files);
    };
    CHECK(find("Want\u00FC", {"Wantu\u0308.jpg"}).photos[0].file == "Wantu\u0308.jpg");
    CHECK(find("Wantu\u0308", {"Want\u00FC.JPG"}).photos[0].file == "Want\u00FC.JPG");
    CHECK(find("Wantu\u0308", {"Want\u00FC.JPG"}).unused.empty());
    const auto offered = find("P0101", {"100CARD/P0101.JPG", "100CARD/P0102.JPG"}).photos[0];
    CHECK(offered.state == evidence::State::missing);
    CHECK(offered.trouble.files == std::vector<std::string>{"100CARD/P0101.JPG"});
    CHECK(find("P0103", {"100CARD/P0101.JPG"}).photos[0].trouble.files.empty());
}

TEST_CASE("a photo with anything changed in it is refused, or still a picture of its size") {
    const Bytes whole = jpeg(200, 120, [](int x, int y, unsigned char* p) {
        p[0] = static_cast<unsigned char>(x * y);
        p[1] = static_cast<unsigned char>(x + y);
        p[2] = static_cast<unsigned char>(x);
    });
    std::mt19937 random(7);
    const auto below = [&](std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
    std::size_t refused = 0;
    for (int round = 0; round < 2000; ++round) {
        Bytes changed = whole;
        for (std::size_t k = below(4) + 1; k > 0; --k)
            changed[below(changed.size())] = static_cast<unsigned char>(below(256));
        if (below(3) == 0) changed.resize(below(changed.size()) + 1);
        const auto structure = read_structure(changed);
        if (structure.trouble.any()) {
            ++refused;
            continue;
        }
        const auto scaled = evidence::scale_for_print(changed, static_cast<int>(below(10)), 50);
        CHECK((scaled.copy.jpeg != nullptr) != scaled.trouble.any());
        refused += scaled.trouble.any() ? 1U : 0U;
        if (scaled.copy.jpeg) CHECK_FALSE(read_structure(*scaled.copy.jpeg).trouble.any());
    }
    CHECK(refused > 500);
    CHECK(refused < 2000);
}

TEST_CASE("a picture of a wider gamut is turned into sRGB (check values: IEC 61966-2-1 and SMPTE EG 432-1 primaries)") {
    // Display P3 from its primaries: full P3 red lies outside sRGB and is clipped; half green moves by a known amount.
    const cmsCIExyY white{0.3127, 0.3290, 1};
    const cmsCIExyYTRIPLE primaries{{0.680, 0.320, 1}, {0.265, 0.690, 1}, {0.150, 0.060, 1}};
    const cmsFloat64Number srgb_curve[5] = {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
    cmsToneCurve* curve = cmsBuildParametricToneCurve(nullptr, 4, srgb_curve);
    cmsToneCurve* curves[3] = {curve, curve, curve};
    cmsHPROFILE p3 = cmsCreateRGBProfile(&white, &primaries, curves);
    cmsUInt32Number size = 0;
    cmsSaveProfileToMem(p3, nullptr, &size);
    Bytes profile(size);
    cmsSaveProfileToMem(p3, profile.data(), &size);
    cmsCloseProfile(p3);
    cmsFreeToneCurve(curve);

    evidence::Raster raster;
    raster.resize(3, 1, 3);
    raster.pixels = {255, 255, 255, 128, 128, 128, 200, 100, 50};
    evidence::to_srgb(raster, profile);
    for (std::size_t i = 0; i < 6; ++i) CHECK(std::abs(raster.pixels[i] - (i < 3 ? 255 : 128)) <= 1);  // greys stay
    // P3 (200, 100, 50) in sRGB is (215, 93, 31): linear light by the matrix from P3 to sRGB, D65 to D65.
    CHECK(std::abs(raster.pixels[6] - 215) <= 1);
    CHECK(std::abs(raster.pixels[7] - 93) <= 1);
    CHECK(std::abs(raster.pixels[8] - 31) <= 1);

    const std::vector<unsigned char> before = raster.pixels;
    evidence::to_srgb(raster, to_bytes("no profile at all"));
    CHECK(raster.pixels == before);
}
