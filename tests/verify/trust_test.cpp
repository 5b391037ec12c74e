// Who is trusted: fingerprint, certificate, authorities for the signer and for the time, together and against each
// other.
#include <doctest/doctest.h>

#include <ctime>

#include "base/error.hpp"
#include "crypto/sample_authority.hpp"
#include "crypto/sample_chain.hpp"
#include "crypto/timestamp.hpp"
#include "pdf/sample_pages.hpp"
#include "seal/seal.hpp"
#include "verify/sample_report.hpp"
#include "verify/verify.hpp"

using namespace rigdeed;
using sample::Identity;
using verify::Outcome;
using verify::Reason;

namespace {

std::string pem_of(const Identity& one) { return crypto::read_certificate(as_text(one.der()))->pem(); }

struct Harbour {
    Identity root = sample::identity("Harbour Root", sample::Kind::authority);
    Identity quay = sample::identity("Quay Authority", sample::Kind::authority, &root);
    Identity ada = sample::identity("Ada Sorrel", sample::Kind::person, &quay);
    crypto::Signer signer = crypto::load_signer(sample::chain_pem(ada, {quay}), "");
};

const Harbour& harbour() {
    static const Harbour made;
    return made;
}

/// Sealed now, as the certificates of these tests are valid from now on.
std::string sealed(const crypto::Signer& signer, const crypto::Stamp& stamp = {}) {
    pdf::DocumentFacts facts = sample::facts();
    facts.issued = std::time(nullptr);
    pdf::RenderedPdf rendered = pdf::render_pdf(sample::small_pages(), std::move(facts));
    return seal::seal(std::move(rendered.bytes), *rendered.slot, signer, stamp);
}

Bytes stamp(const Digest& signature) {
    const auto request = crypto::make_timestamp_request(signature);
    return crypto::read_timestamp_response(as_text(sample::timestamp_answer(request.der)), request);
}

verify::Trust trusting(std::optional<Digest> fingerprint, std::string authorities, std::string time_authorities = {}) {
    verify::Trust trust;
    trust.fingerprint = fingerprint;
    trust.authorities = std::move(authorities);
    trust.time_authorities = std::move(time_authorities);
    return trust;
}

}  // namespace

TEST_CASE("a certificate and a fingerprint that are of one signer go together") {
    verify::Trust trust = trusting(sample::ann().certificate().fingerprint, {});
    trust.certificate = sample::ann().certificate().pem();
    CHECK(verify::verify(sample::sealed_report(), trust).outcome == Outcome::as_issued);
    trust.fingerprint = Digest{};
    CHECK_THROWS_AS((void)verify::verify(sample::sealed_report(), trust), Error);
}

TEST_CASE(
    "a root vouches for a signer through the chain, alone or with the fingerprint; another signer it cannot save") {
    const std::string report = sealed(harbour().signer), root = pem_of(harbour().root);
    const verify::Verdict by_root = verify::verify(report, trusting(std::nullopt, root));
    CHECK(by_root.outcome == Outcome::as_issued);
    CHECK(by_root.signer_vouched_for);
    CHECK(by_root.summary == "as issued by a signer that an authority named vouches for");
    const Digest fingerprint = harbour().signer.certificate().fingerprint;
    CHECK(verify::verify(report, trusting(fingerprint, root)).summary == "as issued by the expected signer");
    // Before any of these certificates was made nobody vouches for anything.
    pdf::DocumentFacts early = sample::facts();
    early.issued = 1'000'000'000;
    pdf::RenderedPdf rendered = pdf::render_pdf(sample::small_pages(), std::move(early));
    const std::string before = seal::seal(std::move(rendered.bytes), *rendered.slot, harbour().signer);
    CHECK(verify::verify(before, trusting(std::nullopt, root)).reason == Reason::not_vouched_for);
    CHECK(verify::verify(report, trusting(fingerprint, {})).outcome == Outcome::as_issued);
    CHECK(verify::verify(report, trusting(sample::ann().certificate().fingerprint, root)).reason ==
          Reason::other_signer);
    CHECK(verify::verify(report, trusting(std::nullopt, pem_of(harbour().ada))).reason == Reason::not_vouched_for);
    const Identity stray = sample::identity("Stray Root", sample::Kind::authority);
    CHECK(verify::verify(report, trusting(std::nullopt, pem_of(stray))).reason == Reason::not_vouched_for);
}

TEST_CASE("a timestamp whose clock may be far off counts for nothing, and is told") {
    const auto by_clock = [](int accuracy) {
        return sealed(sample::ann(), [accuracy](const Digest& signature) {
            const auto request = crypto::make_timestamp_request(signature);
            return crypto::read_timestamp_response(
                as_text(sample::timestamp_answer(request.der, sample::stamped_at, sample::Clock::rsa2048, 256, false,
                                                 256, accuracy)),
                request);
        });
    };
    const std::string good = by_clock(2), bad = by_clock(315'360'000);
    const std::string clock = verify::verify(good, {}).timestamp->authority.pem();
    const Digest ann = sample::ann().certificate().fingerprint;
    CHECK(verify::verify(good, trusting(ann, {}, clock)).timestamp_vouched_for);
    CHECK(verify::verify(good, {}).timestamp->accuracy == 2);
    const verify::Verdict doubted = verify::verify(bad, trusting(ann, {}, clock));
    CHECK_FALSE(doubted.timestamp_vouched_for);
    CHECK(doubted.timestamp_remark == "by its own word the authority's clock may be off by 315360000 seconds");
}

TEST_CASE("a timestamp older than the date that the report gives itself is told") {
    CHECK(verify::verify(sealed(sample::ann(), stamp), {}).timestamp_remark ==
          "it is older than the date that the report gives itself");
}

TEST_CASE("a timestamp counts only if an authority named vouches for it") {
    const std::string report = sealed(sample::ann(), stamp);
    const verify::Verdict alone = verify::verify(report, {});
    REQUIRE(alone.intact());
    REQUIRE(alone.timestamp);
    CHECK_FALSE(alone.timestamp_vouched_for);
    CHECK(alone.timestamp->at == sample::stamped_at);
    const std::string clock = alone.timestamp->authority.pem();
    const Digest ann = sample::ann().certificate().fingerprint;
    CHECK(verify::verify(report, trusting(ann, {}, clock)).timestamp_vouched_for);
    CHECK(verify::verify(report, trusting(std::nullopt, clock)).timestamp_vouched_for);
    CHECK(verify::verify(report, trusting(std::nullopt, clock)).reason == Reason::not_vouched_for);
    const verify::Verdict other = verify::verify(report, trusting(ann, {}, pem_of(harbour().root)));
    CHECK(other.outcome == Outcome::as_issued);
    CHECK_FALSE(other.timestamp_vouched_for);
    CHECK_FALSE(verify::verify(sample::sealed_report(), trusting(ann, {}, clock)).timestamp_vouched_for);
}
