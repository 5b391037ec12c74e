#include "crypto/cms.hpp"

#include <doctest/doctest.h>

#include "crypto/digest.hpp"
#include "crypto/opened_cms.hpp"
#include "crypto/sample_signer.hpp"

using namespace rigdeed;
using crypto::CmsFault;
using crypto::der::element;
using sample::Opened;

namespace {

const Digest content = crypto::sha256("the content");

std::string good() { return std::string(as_text(crypto::make_cms(sample::ann(), content))); }
CmsFault fault_of(std::string_view der) { return crypto::examine_cms(der, content).fault; }

}  // namespace

TEST_CASE("a signature is accepted for its own content and no other") {
    const std::string cms = good();
    const crypto::CmsFinding finding = crypto::examine_cms(cms, content);
    CHECK(finding.fault == CmsFault::none);
    CHECK(finding.what.empty());
    CHECK(finding.certificate->fingerprint == sample::ann().certificate().fingerprint);
    CHECK(crypto::examine_cms(cms, crypto::sha256("other content")).fault == CmsFault::digest);
}

TEST_CASE("an RSA signature comes out the same each time") { CHECK(good() == good()); }

TEST_CASE("a signature opened and closed without a change is the same") { CHECK(Opened(good()).closed() == good()); }

TEST_CASE("an EC signature is accepted, and never with its higher s") {
    const Bytes file = sample::ec_file(sample::Curve::p256);
    const crypto::Signer eve = crypto::load_signer(as_text(file), sample::passphrase);
    for (int i = 0; i < 20; ++i) {
        const Bytes cms = crypto::make_cms(eve, content);
        CHECK(fault_of(as_text(cms)) == CmsFault::none);
        Opened opened{std::string(as_text(cms))};
        const auto octets = crypto::der::only(opened.signer[5], crypto::der::octets);
        const auto numbers = crypto::der::elements(crypto::der::only(octets->content, crypto::der::sequence)->content);
        const std::string_view s = (*numbers)[1].content;
        CHECK((s.size() < 32 || static_cast<unsigned char>(s[0]) <= 0x7F));
    }
}

TEST_CASE("two signers are refused") {
    Opened cms(good());
    cms.more_signers = cms.info();
    CHECK(fault_of(cms.closed()) == CmsFault::signers);
}

TEST_CASE("no signer is refused") {
    Opened cms(good());
    cms.signer.clear();
    CHECK(fault_of(cms.closed()) != CmsFault::none);
}

TEST_CASE("content inside the signature is refused") {
    Opened cms(good());
    const auto kind = crypto::der::only(cms.data[2], crypto::der::sequence);
    const std::string inside = element(crypto::der::context0, element(crypto::der::octets, "the content"));
    cms.data[2] = element(crypto::der::sequence, std::string(kind->content) + inside);
    CHECK(fault_of(cms.closed()) == CmsFault::content);
}

TEST_CASE("a second certificate is refused") {
    Opened cms(good());
    cms.data[3] = element(crypto::der::context0, std::string(as_text(sample::ann().certificate().der)) +
                                                     std::string(as_text(sample::another_ann().certificate().der)));
    CHECK(fault_of(cms.closed()) == CmsFault::certificates);
}

TEST_CASE("another certificate of the same name is refused") {
    Opened cms(good());
    cms.data[3] = element(crypto::der::context0, as_text(sample::another_ann().certificate().der));
    CHECK(fault_of(cms.closed()) == CmsFault::form);
}

TEST_CASE("an unsigned attribute is refused") {
    Opened cms(good());
    cms.signer.push_back(element(crypto::der::context1, cms.signer[3].substr(4)));
    CHECK(fault_of(cms.closed()) == CmsFault::unsigned_part);
}

TEST_CASE("a missing, doubled or added signed attribute is refused") {
    const std::string cms = good();
    const Opened opened(cms);
    const auto list = crypto::der::elements(crypto::der::elements(opened.signer[3])->front().content);
    for (std::size_t i = 0; i < list->size(); ++i) {
        std::string without, doubled;
        for (std::size_t k = 0; k < list->size(); ++k) {
            if (k != i) without += (*list)[k].whole;
            doubled += (*list)[k].whole;
            if (k == i) doubled += (*list)[k].whole;
        }
        Opened changed = opened;
        changed.signer[3] = element(crypto::der::context0, without);
        CHECK(fault_of(changed.closed()) == CmsFault::form);
        changed.signer[3] = element(crypto::der::context0, doubled);
        CHECK(fault_of(changed.closed()) == CmsFault::form);
    }
}

TEST_CASE("another algorithm or its parameters are refused") {
    Opened cms(good());
    cms.signer[4] = element(crypto::der::sequence, element(crypto::der::oid, "\x2A\x86\x48\x86\xF7\x0D\x01\x01\x0B"));
    CHECK(fault_of(cms.closed()) == CmsFault::form);
    cms = Opened(good());
    cms.data[1] = element(crypto::der::set, "");
    CHECK(fault_of(cms.closed()) == CmsFault::form);
}

TEST_CASE("another signer's signature under the certificate is refused") {
    Opened cms(good());
    cms.signer[5] = Opened(std::string(as_text(crypto::make_cms(sample::another_ann(), content)))).signer[5];
    CHECK(fault_of(cms.closed()) == CmsFault::signature);
}

TEST_CASE("no bit of a signature may differ, none be missing, none be added") {
    for (const bool ec : {false, true}) {
        const Bytes file = sample::ec_file(sample::Curve::p256);
        const crypto::Signer eve = crypto::load_signer(as_text(file), sample::passphrase);
        const std::string cms = ec ? std::string(as_text(crypto::make_cms(eve, content))) : good();
        std::size_t accepted = 0;
        for (std::size_t bit = 0; bit < 8 * cms.size(); ++bit) {
            std::string changed = cms;
            changed[bit / 8] = static_cast<char>(changed[bit / 8] ^ (1 << bit % 8));
            accepted += fault_of(changed) == CmsFault::none;
        }
        for (std::size_t size = 0; size < cms.size(); ++size)
            accepted += fault_of(std::string_view(cms).substr(0, size)) == CmsFault::none;
        CHECK(accepted == 0);
        CHECK(fault_of(cms + '\0') == CmsFault::encoding);
    }
}
