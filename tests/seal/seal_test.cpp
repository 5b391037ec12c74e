#include "seal/seal.hpp"

#include <doctest/doctest.h>

#include "base/error.hpp"
#include "crypto/sample_signer.hpp"
#include "pdf/sample_pages.hpp"

using namespace rigdeed;

TEST_CASE("sealing changes nothing but the byte range and the digits of the signature") {
    const pdf::RenderedPdf rendered = pdf::render_pdf(sample::small_pages(), sample::facts());
    const SignatureSlot slot = *rendered.slot;
    const std::string sealed = seal::seal(std::string(rendered.bytes), slot, sample::ann());
    REQUIRE(sealed.size() == rendered.bytes.size());
    std::size_t outside = 0;
    for (std::size_t i = 0; i < sealed.size(); ++i) {
        const bool in_range = i >= slot.byte_range && i < slot.byte_range + 36;
        const bool in_contents = i > slot.contents && i <= slot.contents + slot.hex_digits;
        outside += sealed[i] != rendered.bytes[i] && !in_range && !in_contents;
    }
    CHECK(outside == 0);
}

TEST_CASE("the same pages sealed twice with an RSA key are the same bytes") {
    const auto sealed = [] {
        pdf::RenderedPdf rendered = pdf::render_pdf(sample::full_pages(), sample::facts());
        return seal::seal(std::move(rendered.bytes), *rendered.slot, sample::ann());
    };
    CHECK(sealed() == sealed());
}

TEST_CASE("a slot that is not what it says is a bug, not a damaged file") {
    const pdf::RenderedPdf rendered = pdf::render_pdf(sample::small_pages(), sample::facts());
    SignatureSlot wrong = *rendered.slot;
    SUBCASE("byte range elsewhere") { wrong.byte_range += 1; }
    SUBCASE("contents elsewhere") { wrong.contents -= 1; }
    SUBCASE("fewer digits") { wrong.hex_digits -= 2; }
    SUBCASE("past the end") { wrong.contents = rendered.bytes.size(); }
    CHECK_THROWS_AS((void)seal::seal(std::string(rendered.bytes), wrong, sample::ann()), Error);
}
