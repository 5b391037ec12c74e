#include <doctest/doctest.h>

#include <algorithm>

#include "base/error.hpp"
#include "crypto/authority.hpp"
#include "crypto/cms.hpp"
#include "crypto/digest.hpp"
#include "crypto/opened_cms.hpp"
#include "crypto/sample_chain.hpp"
#include "crypto/sample_signer.hpp"

using namespace rigdeed;
using crypto::CmsFault;
using sample::Identity;
using sample::Kind;

namespace {

const Digest content = crypto::sha256("the content");

struct Harbour {
    Identity root = sample::identity("Harbour Root", Kind::authority);
    Identity coast = sample::identity("Coast", Kind::authority, &root);
    Identity quay = sample::identity("Quay", Kind::authority, &coast);
    Identity ada = sample::identity("Ada Sorrel", Kind::person, &quay);
    Identity other_root = sample::identity("Other Root", Kind::authority);
    Identity bo = sample::identity("Bo Teak", Kind::person, &quay);
    Identity al = sample::identity("Al Gaff", Kind::person);
};

const Harbour& harbour() {
    static const Harbour made;
    return made;
}

crypto::Signer load(const Identity& signer, const std::vector<Identity>& others) {
    return crypto::load_signer(as_text(sample::chain_pkcs12(signer, others)), sample::passphrase);
}

std::string refusal(const Identity& signer, const std::vector<Identity>& others) {
    try {
        (void)load(signer, others);
    } catch (const Error& error) { return error.message; }
    return "";
}

std::string names(const std::vector<crypto::CertificateFacts>& chain) {
    std::string all;
    for (const crypto::CertificateFacts& one : chain) all += one.name + ";";
    return all;
}

std::string sealed() {
    static const crypto::Signer ada = load(harbour().ada, {harbour().quay, harbour().coast, harbour().root});
    return std::string(as_text(crypto::make_cms(ada, content)));
}

std::vector<std::string> carried(const std::string& cms) {
    std::vector<std::string> found;
    const sample::Opened opened(cms);
    const auto field = crypto::der::only(opened.data[3], crypto::der::context0);
    const auto list = crypto::der::elements(field->content);
    for (const auto& one : *list) found.emplace_back(one.whole);
    return found;
}

// The fault of the good signature when it carries these certificates, in this order.
CmsFault fault_with(const std::vector<std::string>& certificates) {
    std::string all;
    for (const std::string& one : certificates) all += one;
    sample::Opened opened(sealed());
    opened.data[3] = crypto::der::element(crypto::der::context0, all);
    return crypto::examine_cms(opened.closed(), content).fault;
}

std::string text_of(const Identity& one) { return std::string(as_text(one.der())); }

// In the order of DER, as one who forges would take care to write them.
std::vector<std::string> sorted(std::vector<std::string> certificates) {
    std::sort(certificates.begin(), certificates.end(), [](const std::string& a, const std::string& b) {
        return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) {
            return static_cast<unsigned char>(x) < static_cast<unsigned char>(y);
        });
    });
    return certificates;
}

}  // namespace

TEST_CASE("a signer's chain is what leads to its root, in any order in the file, without the root") {
    const auto& [root, coast, quay, ada, other_root, bo, al] = harbour();
    for (const auto& others : std::vector<std::vector<Identity>>{
             {quay, coast, root}, {root, coast, quay}, {coast, quay}, {quay, coast, quay, ada, root, root}}) {
        CHECK(names(load(ada, others).chain()) == "Quay;Coast;");
        const crypto::Signer pem = crypto::load_signer(sample::chain_pem(ada, others), "");
        CHECK(pem.certificate().name == "Ada Sorrel");
        CHECK(names(pem.chain()) == "Quay;Coast;");
    }
    CHECK(names(load(ada, {quay}).chain()) == "Quay;");
    CHECK(load(ada, {}).chain().empty());
    CHECK(load(al, {}).chain().empty());
}

TEST_CASE("a certificate that is not of the signer's chain is named and refused") {
    const auto& [root, coast, quay, ada, other_root, bo, al] = harbour();
    const std::string words = "the signer file holds a certificate that is not of the signer's chain: ";
    CHECK(refusal(ada, {quay, coast, other_root}) == words + "\"Other Root\"");
    CHECK(refusal(ada, {quay, coast, root, bo}) == words + "\"Bo Teak\"");
    CHECK(refusal(ada, {coast}) == words + "\"Coast\"");
    CHECK(refusal(ada, {root}) == words + "\"Harbour Root\"");
    CHECK(refusal(ada, {quay, sample::renewed(quay, coast), coast}) == words + "\"Quay\"");
    CHECK(refusal(al, {root}) == words + "\"Harbour Root\"");
    CHECK_THROWS_AS((void)crypto::load_signer(sample::chain_pem(ada, {bo}), ""), Error);
}

TEST_CASE("who has the issuer's name, but not its key or no right to issue, has not issued") {
    const auto& [root, coast, quay, ada, other_root, bo, al] = harbour();
    const Identity impostor = sample::identity("Quay", Kind::authority, &coast);
    CHECK_FALSE(refusal(ada, {impostor, coast}).empty());
    const Identity person = sample::identity("Cy Spar", Kind::person, &root);
    const Identity below = sample::identity("Di Boom", Kind::person, &person);
    CHECK_FALSE(refusal(below, {person, root}).empty());
}

TEST_CASE("a signature with a chain is accepted and tells it") {
    const auto finding = crypto::examine_cms(sealed(), content);
    CHECK(finding.fault == CmsFault::none);
    CHECK(finding.certificate->name == "Ada Sorrel");
    CHECK(names(finding.chain) == "Quay;Coast;");
    CHECK(carried(sealed()).size() == 3);
}

TEST_CASE("the certificates stand in the order of DER") { CHECK(carried(sealed()) == sorted(carried(sealed()))); }

TEST_CASE("a chain in any other order is refused") {
    std::vector<std::string> order = carried(sealed());
    REQUIRE(fault_with(order) == CmsFault::none);
    std::size_t others = 0;
    while (std::next_permutation(order.begin(), order.end())) {
        if (order == carried(sealed())) continue;
        ++others;
        CHECK(fault_with(order) == CmsFault::form);
    }
    CHECK(others > 0);
}

TEST_CASE("a certificate removed from a chain is noticed") {
    const std::vector<std::string> all = carried(sealed());
    for (std::size_t i = 0; i < all.size(); ++i) {
        std::vector<std::string> rest = all;
        rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
        CHECK(fault_with(rest) != CmsFault::none);
    }
    CHECK(fault_with({}) == CmsFault::certificates);
    // Also if what is left is a chain: the highest taken away, and all but the signer's own.
    CHECK(fault_with(sorted({text_of(harbour().ada), text_of(harbour().quay)})) == CmsFault::form);
    CHECK(fault_with({text_of(harbour().ada)}) == CmsFault::form);
}

TEST_CASE("a certificate added to a chain is noticed") {
    const auto& [root, coast, quay, ada, other_root, bo, al] = harbour();
    for (const Identity& more : {root, other_root, bo, sample::renewed(coast, root), sample::renewed(ada, quay)}) {
        std::vector<std::string> certificates = carried(sealed());
        certificates.push_back(text_of(more));
        CHECK(fault_with(sorted(certificates)) == CmsFault::certificates);
    }
    // One that does prolong the chain: a seal whose chain ended below it.
    const crypto::Signer shorter = load(ada, {quay});
    sample::Opened opened(std::string(as_text(crypto::make_cms(shorter, content))));
    std::string all;
    for (const std::string& one : sorted({text_of(ada), text_of(quay), text_of(coast)})) all += one;
    opened.data[3] = crypto::der::element(crypto::der::context0, all);
    CHECK(crypto::examine_cms(opened.closed(), content).fault == CmsFault::form);
}

TEST_CASE("a certificate doubled in a chain is noticed") {
    for (const std::string& twice : carried(sealed())) {
        std::vector<std::string> certificates = carried(sealed());
        certificates.push_back(twice);
        CHECK(fault_with(sorted(certificates)) == CmsFault::certificates);
    }
}

TEST_CASE("a certificate of a chain swapped for another of the same name is noticed") {
    const auto& [root, coast, quay, ada, other_root, bo, al] = harbour();
    // With the same key it does lead upwards: only that the signature names it by its digest tells.
    CHECK(fault_with(sorted({text_of(ada), text_of(quay), text_of(sample::renewed(coast, root))})) == CmsFault::form);
    CHECK(fault_with(sorted({text_of(ada), text_of(sample::renewed(quay, coast)), text_of(coast)})) == CmsFault::form);
    CHECK(fault_with(sorted({text_of(sample::renewed(ada, quay)), text_of(quay), text_of(coast)})) == CmsFault::form);
    const Identity impostor = sample::identity("Coast", Kind::authority, &root);
    CHECK(fault_with(sorted({text_of(ada), text_of(quay), text_of(impostor)})) == CmsFault::certificates);
    CHECK(fault_with(sorted({text_of(bo), text_of(quay), text_of(coast)})) == CmsFault::form);
}

TEST_CASE("no bit of a signature with a chain may differ, none be missing") {
    const std::string cms = sealed();
    std::size_t accepted = 0;
    for (std::size_t bit = 0; bit < 8 * cms.size(); bit += 3) {
        std::string changed = cms;
        changed[bit / 8] = static_cast<char>(changed[bit / 8] ^ (1 << bit % 8));
        accepted += crypto::examine_cms(changed, content).fault == CmsFault::none;
    }
    for (std::size_t size = 0; size < cms.size(); ++size)
        accepted += crypto::examine_cms(std::string_view(cms).substr(0, size), content).fault == CmsFault::none;
    CHECK(accepted == 0);
}

TEST_CASE("a chain leads to the root it is by and to no other, and is needed for that") {
    const auto finding = crypto::examine_cms(sealed(), content);
    const auto pem = [](const Identity& one) { return crypto::read_certificate(as_text(one.der()))->pem(); };
    const std::int64_t now = finding.certificate->not_before + 60;
    const auto fault = [&](const std::vector<crypto::CertificateFacts>& between, const std::string& authorities,
                           std::int64_t at) {
        return crypto::authority_fault(*finding.certificate, between, authorities, at);
    };
    const auto& [root, coast, quay, ada, other_root, bo, al] = harbour();
    CHECK(fault(finding.chain, pem(root), now).empty());
    CHECK(fault({}, pem(root) + pem(coast) + pem(quay), now).empty());
    CHECK_FALSE(fault({}, pem(root), now).empty());
    CHECK_FALSE(fault(finding.chain, pem(other_root), now).empty());
    CHECK_FALSE(fault(finding.chain, pem(coast), now).empty());  // not a root
    CHECK(fault(finding.chain, pem(root), now + 2 * 86400).find("expired") != std::string::npos);
    CHECK(fault(finding.chain, pem(root), now - 86400).find("not valid yet") != std::string::npos);
}
