// What a report shows of its originals: the signer can put any picture into it and name that in its record; only the
// originals tell.
#include "reopen/originals.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "base/build.hpp"
#include "base/resources.hpp"
#include "crypto/digest.hpp"
#include "evidence/sample_photo.hpp"
#include "evidence/scale.hpp"
#include "record/record.hpp"
#include "reopen/forger.hpp"
#include "reopen/issued_sample.hpp"
#include "verify/sample_report.hpp"

using namespace rigdeed;
using reopen::CopyState;
using sample::issued;
using sample::replaced;

namespace {

const std::string photos = std::string(RIGDEED_SOURCE_DIR) + "/fixtures/complete/photos";

std::vector<reopen::CopyFinding> compared(const std::string& report, const std::string& folder = photos) {
    reopen::Opening opening;
    opening.trust.fingerprint = sample::ann().certificate().fingerprint;
    const reopen::SealedReport found = reopen::open_bytes(report, opening);
    sample::keep(report, found.verdict);
    REQUIRE(found.verdict.outcome == verify::Outcome::as_issued);
    const Folder originals(folder);
    std::vector<reopen::Original> files;
    for (const std::string& file : originals.files())
        files.push_back({crypto::sha256(originals.read(file, 1 << 30).bytes), file});
    return reopen::compare_copies(found, report, originals, files, 2);
}

std::ptrdiff_t count(const std::vector<reopen::CopyFinding>& found, CopyState state) {
    return std::count_if(found.begin(), found.end(), [&](const auto& one) { return one.state == state; });
}

// Another picture in the place of one, with a record that names it.
std::string forged(std::size_t number, const Bytes& picture) {
    const std::string before = crypto::sha256(sample::picture_in(issued(), number)).hex();
    const std::string record =
        replaced(sample::carried_in(issued(), "issue.xml"), before, crypto::sha256(picture).hex());
    return sample::with_carried(sample::with_picture(issued(), number, as_text(picture)), "issue.xml", record);
}

// The picture of that number, with `change` to each pixel of it.
Bytes painted(std::size_t number, const std::function<void(int, int, unsigned char*)>& change) {
    const Bytes before = to_bytes(sample::picture_in(issued(), number));
    auto pixels = evidence::decode_rgb(before);
    REQUIRE(pixels);
    return sample::jpeg(pixels->width, pixels->height, [&](int x, int y, unsigned char* rgb) {
        std::copy_n(pixels->row(y) + static_cast<std::ptrdiff_t>(x) * 3, 3, rgb);
        change(x, y, rgb);
    });
}

// By another build, whose copies need not be ours byte for byte.
std::string by_another_build(const std::string& report) {
    return sample::with_carried(
        report, "issue.xml",
        replaced(sample::carried_in(report, "issue.xml"), std::string(build_digest()), std::string(64, '0')));
}

}  // namespace

TEST_CASE("the pictures of a report are what its originals show, byte for byte") {
    const auto found = compared(issued());
    CHECK(found.size() == 9);
    CHECK(count(found, CopyState::same) == static_cast<std::ptrdiff_t>(found.size()));
}

TEST_CASE("a picture that its own signer put into the report and named in its record is not what the original shows") {
    const Bytes green = painted(0, [](int, int, unsigned char* rgb) { rgb[0] = 0, rgb[1] = 200, rgb[2] = 0; });
    CHECK(count(compared(forged(0, green)), CopyState::differs) == 1);
    const Bytes same_again = painted(0, [](int, int, unsigned char*) {});
    CHECK(count(compared(forged(0, same_again)), CopyState::differs) == 1);
}

TEST_CASE("pictures by another build may differ as its making does, not in what they show") {
    const Bytes same_again = painted(0, [](int, int, unsigned char*) {});
    const auto alike = compared(by_another_build(forged(0, same_again)));
    CHECK(count(alike, CopyState::alike) == 1);
    CHECK(count(alike, CopyState::differs) == 0);
    // A stroke of 2 by 8 pixels, as wide as a crack.
    const Bytes retouched = painted(0, [](int x, int y, unsigned char* rgb) {
        if (x >= 40 && x < 42 && y >= 40 && y < 48) rgb[0] = rgb[1] = rgb[2] = rgb[1] > 128 ? 10 : 245;
    });
    CHECK(count(compared(by_another_build(forged(0, retouched))), CopyState::differs) == 1);
}

TEST_CASE("where the originals are not there, nothing is said of pictures") {
    CHECK(compared(issued(), std::string(RIGDEED_SOURCE_DIR) + "/fixtures/issued").empty());
}
