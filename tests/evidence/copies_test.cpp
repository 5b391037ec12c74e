#include "evidence/copies.hpp"

#include <doctest/doctest.h>

#include <atomic>
#include <filesystem>

#include "base/error.hpp"
#include "evidence/print.hpp"
#include "evidence/sample_photo.hpp"
#include "evidence/scale.hpp"
#include "survey/sample.hpp"
#include "survey/temporary_survey.hpp"

using namespace rigdeed;
using namespace rigdeed::evidence;

namespace {

/// Counts what was kept: each is a picture decoded.
class Counting : public CopiesInMemory {
 public:
    void keep(const CopyKey& key, const Copy& copy) override {
        ++kept;
        CopiesInMemory::keep(key, copy);
    }
    std::atomic<int> kept = 0;
};

Bytes picture(int shade) {
    return sample::jpeg(640, 480, [=](int x, int y, unsigned char* p) {
        p[0] = static_cast<unsigned char>(x + shade), p[1] = static_cast<unsigned char>(y), p[2] = 7;
    });
}

/// A survey of one fitting with the photos F and C.
struct Scene {
    sample::TemporarySurvey folder{sample::text_of("fixtures/complete/survey.xml")};
    survey::Survey survey =
        sample::with("",
                     "<fitting id=\"f\" kind=\"mast-step\" station=\"deck\" height=\"1 m\"><seen pass=\"up\" "
                     "at=\"09:00\" far=\"F\" close=\"C\"/></fitting>");
    Scene() {
        folder.photo("F", picture(1));
        folder.photo("C", picture(2));
        survey.file = folder.file().string();
    }
    ForPrint print{{{"F", 300}, {"C", 600}}, {{"C", {0.5, 0.4, 0.1}}}, 700};
};

}  // namespace

TEST_CASE("a copy made once is not made again, nor the photo read") {
    const Scene scene;
    Counting copies;
    const Evidence first = gather_evidence(scene.survey, scene.print, {2, {}, &copies, nullptr});
    CHECK(copies.kept == 3);
    const Evidence known = without_copies(first);
    CHECK_FALSE(known.find("C")->print.jpeg);
    std::filesystem::remove(scene.folder.file().parent_path() / "photos" / "C.jpg");
    const Evidence second = gather_evidence(scene.survey, scene.print, {1, {}, &copies, &known});
    CHECK(copies.kept == 3);
    CHECK(second.find("C")->print.jpeg == first.find("C")->print.jpeg);
    CHECK(second.find("C")->detail.jpeg == first.find("C")->detail.jpeg);
    CHECK(second.find("C")->detail_of == first.find("C")->detail_of);
}

TEST_CASE("another size is made from the same photo, and from no other") {
    Scene scene;
    Counting copies;
    const Evidence known = without_copies(gather_evidence(scene.survey, scene.print, {1, {}, &copies, nullptr}));
    scene.print.sizes["F"] = 310;  // the same eighth of the picture
    (void)gather_evidence(scene.survey, scene.print, {1, {}, &copies, &known});
    CHECK(copies.kept == 3);
    scene.print.sizes["F"] = 100;
    CHECK(gather_evidence(scene.survey, scene.print, {1, {}, &copies, &known}).find("F")->print.width == 160);
    CHECK(copies.kept == 4);
    scene.print.sizes["F"] = 640;
    scene.folder.photo("F", picture(9));
    CHECK_THROWS_AS((void)gather_evidence(scene.survey, scene.print, {1, {}, &copies, &known}), Error);
}

TEST_CASE("what is found in the store is what a fresh run makes") {
    const Scene scene;
    Counting copies;
    const Evidence kept = gather_evidence(scene.survey, scene.print, {1, {}, &copies, nullptr});
    const Evidence again = gather_evidence(scene.survey, scene.print, {1, {}, &copies, nullptr});
    const Evidence fresh = gather_evidence(scene.survey, scene.print, {1, {}, nullptr, nullptr});
    CHECK(copies.kept == 3);
    for (const Photo& photo : fresh.photos) {
        CHECK(*photo.print.jpeg == *kept.find(photo.name)->print.jpeg);
        CHECK(*photo.print.jpeg == *again.find(photo.name)->print.jpeg);
    }
}

TEST_CASE("keys differ in each of their parts") {
    CopyKey key{{}, 100, std::nullopt, "build"};
    CopiesInMemory copies;
    copies.keep(key, {});
    CHECK(copies.find(key));
    CopyKey other = key;
    other.original.bytes[31] = 1;
    CHECK_FALSE(copies.find(other));
    other = key, other.side = 101;
    CHECK_FALSE(copies.find(other));
    other = key, other.mark = survey::Mark{0.5, 0.5, 0.1};
    CHECK_FALSE(copies.find(other));
    other = key, other.build = "another";
    CHECK_FALSE(copies.find(other));
}

TEST_CASE("a copy gets just the side that is asked for, and the same bytes alone and among others") {
    const std::vector<int> sides{640, 639, 300, 81, 80, 79, 1};
    const auto together = scale_for_print(picture(0), 1, sides, {});
    REQUIRE(together.size() == sides.size());
    for (std::size_t i = 0; i < sides.size(); ++i) {
        const PrintCopy copy = scale_for_print(picture(0), 1, sides[i]).copy;
        CHECK(copy.width == sides[i]);
        CHECK(*copy.jpeg == *together[i].copy.jpeg);
    }
    CHECK(scale_for_print(picture(0), 1, 5000).copy.width == 640);
}

TEST_CASE("what is printed where nothing must give way is the next larger eighth") {
    Photo photo;
    photo.width = 640;
    photo.height = 480;
    for (const int wanted : {1, 79, 80, 81, 300, 639, 640, 5000}) {
        CHECK(side_of(photo, {wanted, nullptr, 0, false, false}) == printed_side(640, wanted));
        CHECK(side_of(photo, {wanted, nullptr, 0, true, false}) == std::min(640, wanted));
    }
}
