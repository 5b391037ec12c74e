#include "verify/photos.hpp"

#include <doctest/doctest.h>

#include "crypto/digest.hpp"

using namespace rigdeed;
using verify::PhotoState;

namespace {

std::string entry(const char* file, const char* content) {
    return std::string("<photo name=\"x\" file=\"") + file + "\" sha256=\"" + crypto::sha256(content).hex() + "\"/>";
}

std::vector<verify::RegisteredPhoto> photo_register(const std::string& entries) {
    const auto read = verify::read_register("<photo-register xmlns=\"urn:rigdeed:photos:1\" survey=\"1\">" + entries +
                                            "</photo-register>");
    REQUIRE(read);
    return *read;
}

verify::FolderFile file(const char* path, const char* content) { return {path, crypto::sha256(content)}; }

}  // namespace

TEST_CASE("a photo is found by its content, whatever its name") {
    const auto known = photo_register(entry("a.jpg", "A") + entry("b.jpg", "B"));
    const auto finding = verify::compare_photos(known, {file("renamed.jpg", "A"), file("b.jpg", "B")});
    CHECK(finding.all_found());
    CHECK(finding.photos[0].found_as == "renamed.jpg");
    CHECK(finding.photos[1].found_as == "b.jpg");
    CHECK(finding.unknown.empty());
}

TEST_CASE("of two copies the one with its own name is told") {
    const auto finding =
        verify::compare_photos(photo_register(entry("b.jpg", "B")), {file("a.jpg", "B"), file("b.jpg", "B")});
    CHECK(finding.photos[0].found_as == "b.jpg");
    CHECK(finding.unknown.empty());
}

TEST_CASE("a photo that is missing, one that is altered, and a file that nothing names are told apart") {
    const auto known = photo_register(entry("a.jpg", "A") + entry("b.jpg", "B"));
    const auto finding = verify::compare_photos(known, {file("b.jpg", "other"), file("c.jpg", "C")});
    CHECK_FALSE(finding.all_found());
    CHECK(finding.photos[0].state == PhotoState::missing);
    CHECK(finding.photos[1].state == PhotoState::altered);
    CHECK(finding.count(PhotoState::altered) == 1);
    CHECK(finding.unknown == std::vector<std::string>{"c.jpg"});
}

TEST_CASE("a photo exchanged for another of the register is found, and its name is no excuse") {
    const auto known = photo_register(entry("a.jpg", "A") + entry("b.jpg", "B"));
    const auto finding = verify::compare_photos(known, {file("a.jpg", "B"), file("b.jpg", "B")});
    CHECK(finding.photos[0].state == PhotoState::altered);
    CHECK(finding.photos[1].state == PhotoState::found);
}

TEST_CASE("a photo that the report was issued without is not asked for") {
    const auto finding = verify::compare_photos(photo_register("<photo name=\"A1\" unusable=\"missing\"/>"), {});
    CHECK(finding.all_found());
    CHECK(finding.photos[0].state == PhotoState::never_had);
}

TEST_CASE("what has not the form of a register is none") {
    const auto framed = [](const std::string& entries) { return "<photo-register>" + entries + "</photo-register>"; };
    CHECK(verify::read_register(framed(entry("a.jpg", "A"))));
    for (const std::string& text : {std::string(), std::string("<other/>"), framed("<photo/>"),
                                    framed("<photo file=\"a\" sha256=\"12\"/>"), framed("<other file=\"a\"/>")})
        CHECK_FALSE(verify::read_register(text));
    verify::PhotosFinding unusable;
    unusable.fault = "the report's photo register cannot be read";
    CHECK_FALSE(unusable.all_found());
}

TEST_CASE("what could not be read is neither found nor missing") {
    verify::PhotosFinding finding;
    finding.photos = {{"A.jpg", PhotoState::found, "A.jpg"}, {"B.jpg", PhotoState::unreadable, {}}};
    CHECK_FALSE(finding.all_found());
    CHECK(finding.count(PhotoState::missing) == 0);
    finding.photos.pop_back();
    CHECK(finding.all_found());
}
