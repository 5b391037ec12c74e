// Sizes, kinds and forms at the edges of what is read: certificates, authorities, signer files, timestamps' times.
#include <doctest/doctest.h>

#include <openssl/core_names.h>
#include <openssl/evp.h>
#include <openssl/param_build.h>
#include <openssl/pem.h>
#include <openssl/rsa.h>

#include <ctime>
#include <memory>

#include "base/error.hpp"
#include "crypto/authority.hpp"
#include "crypto/certificate.hpp"
#include "crypto/keys.hpp"
#include "crypto/openssl.hpp"
#include "crypto/sample_authority.hpp"
#include "crypto/sample_chain.hpp"
#include "crypto/sample_signer.hpp"
#include "crypto/timestamp.hpp"

using namespace rigdeed;
using sample::Identity;
using sample::Kind;

namespace {

crypto::CertificateFacts facts_of(const Identity& one) { return *crypto::read_certificate(as_text(one.der())); }

std::string fault_of(const std::string& file, const std::string& passphrase) {
    try {
        (void)crypto::load_signer(file, passphrase);
    } catch (const Error& error) { return error.what(); }
    return {};
}

using Key = std::unique_ptr<EVP_PKEY, decltype(&EVP_PKEY_free)>;
using Memory = std::unique_ptr<BIO, decltype(&BIO_free_all)>;

/// A private key in PEM, under a passphrase if there is one.
std::string key_pem(EVP_PKEY* key, const std::string& passphrase) {
    const Memory to(BIO_new(BIO_s_mem()), BIO_free_all);
    PEM_write_bio_PKCS8PrivateKey(to.get(), key, passphrase.empty() ? nullptr : EVP_aes_256_cbc(),
                                  passphrase.empty() ? nullptr : passphrase.data(), static_cast<int>(passphrase.size()),
                                  nullptr, nullptr);
    char* text = nullptr;
    const long size = BIO_get_mem_data(to.get(), &text);
    return {text, static_cast<std::size_t>(size)};
}

/// The same modulus with another exponent, as a public key.
Key with_exponent(const EVP_PKEY* key, unsigned long exponent) {
    BIGNUM* modulus = nullptr;
    EVP_PKEY_get_bn_param(key, OSSL_PKEY_PARAM_RSA_N, &modulus);
    BIGNUM* number = BN_new();
    BN_set_word(number, exponent);
    OSSL_PARAM_BLD* parts = OSSL_PARAM_BLD_new();
    OSSL_PARAM_BLD_push_BN(parts, OSSL_PKEY_PARAM_RSA_N, modulus);
    OSSL_PARAM_BLD_push_BN(parts, OSSL_PKEY_PARAM_RSA_E, number);
    OSSL_PARAM* list = OSSL_PARAM_BLD_to_param(parts);
    EVP_PKEY_CTX* context = EVP_PKEY_CTX_new_from_name(nullptr, "RSA", nullptr);
    EVP_PKEY* made = nullptr;
    EVP_PKEY_fromdata_init(context);
    EVP_PKEY_fromdata(context, &made, EVP_PKEY_PUBLIC_KEY, list);
    EVP_PKEY_CTX_free(context);
    OSSL_PARAM_free(list);
    OSSL_PARAM_BLD_free(parts);
    BN_free(number);
    BN_free(modulus);
    return {made, EVP_PKEY_free};
}

/// With the exponent 3, and its private half.
Key weak_rsa() {
    EVP_PKEY_CTX* context = EVP_PKEY_CTX_new_from_name(nullptr, "RSA", nullptr);
    BIGNUM* three = BN_new();
    BN_set_word(three, 3);
    EVP_PKEY* made = nullptr;
    EVP_PKEY_keygen_init(context);
    EVP_PKEY_CTX_set_rsa_keygen_bits(context, 2048);
    EVP_PKEY_CTX_set1_rsa_keygen_pubexp(context, three);
    EVP_PKEY_keygen(context, &made);
    EVP_PKEY_CTX_free(context);
    BN_free(three);
    return {made, EVP_PKEY_free};
}

/// The answer of a server, with some of its bytes exchanged for as many others.
std::string refusal_of(const std::string& from, const std::string& to, bool last = false, bool fraction = false) {
    const auto request = crypto::make_timestamp_request(Digest{});
    std::string answer(
        as_text(sample::timestamp_answer(request.der, sample::stamped_at, sample::Clock::rsa2048, 256, fraction)));
    const std::size_t at = last ? answer.rfind(from) : answer.find(from);
    REQUIRE(at != std::string::npos);
    answer.replace(at, from.size(), to);
    try {
        (void)crypto::read_timestamp_response(answer, request);
    } catch (const Error& error) { return error.what(); }
    return "accepted";
}

}  // namespace

TEST_CASE("what is too large to be a certificate or a signer file is none") {
    const std::string large(2 << 20, 'x');
    CHECK_FALSE(crypto::read_certificate(large));
    CHECK_FALSE(crypto::read_certificate(std::string(66'000, '0')));
    CHECK(fault_of(large, "x").starts_with("not a signer file"));
    CHECK(fault_of("-----BEGIN " + large, "x").starts_with("not a signer file"));
    CHECK_THROWS_AS(crypto::check_authorities(std::string(5 << 20, 'x')), Error);
    CHECK_THROWS_AS(crypto::check_authorities("-----BEGIN CERTIFICATE-----\nnone\n-----END CERTIFICATE-----\n"), Error);
}

TEST_CASE("fingerprints are of hexadecimal digits and nothing else") {
    const std::string good(64, 'a');
    CHECK(crypto::read_fingerprint(good));
    for (const char c : {'!', '/', '@', 'G', '`', 'g', '~'}) {
        std::string bad = good;
        bad[7] = c;
        CAPTURE(bad);
        CHECK_FALSE(crypto::read_fingerprint(bad));
    }
    CHECK_FALSE(crypto::read_fingerprint(good + "0"));
    CHECK_FALSE(crypto::read_fingerprint(good.substr(1)));
}

TEST_CASE("a thousand authorities are read, and no more; what may not issue vouches for nobody") {
    const Identity root = sample::identity("Root", Kind::authority),
                   person = sample::identity("Person", Kind::person, &root);
    const Identity child = sample::identity("Child", Kind::person, &person);
    const std::int64_t now = std::time(nullptr);
    const std::string pem = facts_of(root).pem();
    std::string many;
    const Identity stray = sample::identity("Stray", Kind::authority);
    for (int i = 0; i < 1000; ++i) many += facts_of(stray).pem();
    CHECK_FALSE(crypto::authority_fault(facts_of(person), {}, many + pem, now).empty());
    CHECK(crypto::authority_fault(facts_of(person), {}, pem + many, now).empty());
    CHECK_FALSE(crypto::authority_fault(facts_of(child), {}, pem + facts_of(person).pem(), now).empty());
    CHECK_FALSE(crypto::authority_fault(facts_of(child), {facts_of(person)}, pem, now).empty());
    CHECK(crypto::authority_fault(facts_of(person), {}, pem, now + 3 * 86400) ==
          "a certificate had expired when the report was sealed");
    CHECK(crypto::authority_fault(facts_of(person), {}, pem, now - 3 * 86400) ==
          "a certificate was not valid yet when the report was sealed");
    crypto::CertificateFacts no_signer = facts_of(person);
    no_signer.may_sign = false;
    CHECK(crypto::signer_fault(no_signer, {}, pem, now) == "the signer's certificate is not for signatures");
}

TEST_CASE("an authority vouches for no signer whose certificate is an authority's or for another purpose") {
    const Identity root = sample::identity("Root", Kind::authority);
    const std::string pem = facts_of(root).pem();
    const auto fault = [&](Kind kind, const std::string& purposes) {
        const crypto::CertificateFacts facts = facts_of(sample::identity("Signer", kind, &root, purposes));
        return crypto::signer_fault(facts, {}, pem, facts.not_before + 60);
    };
    for (const char* good : {"", "emailProtection", "1.3.6.1.5.5.7.3.36", "anyExtendedKeyUsage", "clientAuth",
                             "1.3.6.1.4.1.311.10.3.12", "serverAuth,clientAuth", "critical,emailProtection"})
        CHECK_MESSAGE(fault(Kind::person, good).empty(), good);
    for (const char* bad : {"serverAuth", "OCSPSigning", "critical,timeStamping", "codeSigning", "1.2.3.4.5",
                            "serverAuth,codeSigning", "1.3.6.1.5.5.7.3.360"})
        CHECK_MESSAGE(
            fault(Kind::person, bad) == "the signer's certificate is for another purpose than the signing of documents",
            bad);
    CHECK(fault(Kind::signing_authority, "") ==
          "the signer's certificate is an authority's, for other certificates and not for documents");
    CHECK(fault(Kind::authority, "") == "the signer's certificate is not for signatures");
    const crypto::CertificateFacts& own = sample::ann().certificate();  // as `signer new` makes them
    CHECK(crypto::signer_fault(own, {}, own.pem(), own.not_before + 60).empty());
}

TEST_CASE("a chain longer than any has no end, and is told") {
    std::vector<Identity> path{sample::identity("Root", Kind::authority)};
    for (int i = 0; i < 14; ++i)
        path.push_back(sample::identity("Between " + std::to_string(i), Kind::authority, &path.back()));
    const Identity end = sample::identity("End", Kind::person, &path.back());
    CHECK_FALSE(fault_of(sample::chain_pem(end, path), "").empty());
}

TEST_CASE("PEM signer files: passphrases, keys without certificates, certificates of another") {
    const Identity root = sample::identity("Root", Kind::authority), ada = sample::identity("Ada", Kind::person, &root);
    const Key key(EVP_EC_gen("P-256"), EVP_PKEY_free), weak(EVP_EC_gen("P-521"), EVP_PKEY_free);
    const std::string pem = facts_of(ada).pem();
    CHECK(fault_of(key_pem(key.get(), ""), "") == "the signer file does not hold a private key and its certificate");
    CHECK(fault_of(key_pem(key.get(), "right") + pem, "wrong") == "the passphrase does not open the signer file");
    CHECK(fault_of(key_pem(key.get(), "right") + pem, std::string(2000, 'x')) ==
          "the passphrase does not open the signer file");
    CHECK(fault_of(key_pem(key.get(), "right") + pem, "right") ==
          "the private key in the signer file does not belong to its certificate");
    CHECK(fault_of(key_pem(weak.get(), "") + pem, "") ==
          "the private key in the signer file does not belong to its certificate");
    CHECK(fault_of(pem, "") == "the signer file does not hold a private key and its certificate");
    CHECK(fault_of(sample::chain_pem(ada, {}), "").empty());
    CHECK(fault_of(sample::chain_pem(root, {}), "") == "the certificate in the signer file is not for signatures");
}

TEST_CASE("RSA keys with an exponent that is even or below 65537 sign nothing and verify nothing") {
    const Key good(EVP_PKEY_Q_keygen(nullptr, nullptr, "RSA", std::size_t{2048}), EVP_PKEY_free);
    CHECK(crypto::kind_of(good.get()) == crypto::KeyKind::rsa);
    for (const unsigned long exponent : {1UL, 3UL, 17UL, 65535UL, 65536UL, 65538UL, 65537UL, 65539UL}) {
        CAPTURE(exponent);
        const bool is_strong = exponent == 65537 || exponent == 65539;
        CHECK((crypto::kind_of(with_exponent(good.get(), exponent).get()) == crypto::KeyKind::rsa) == is_strong);
    }
    const Key weak = weak_rsa();
    REQUIRE(weak);
    const Bytes signature = crypto::sign(weak.get(), "message");
    CHECK_FALSE(crypto::is_signed_by(weak.get(), EVP_sha256(), "message", as_text(signature)));
    CHECK(crypto::is_signed_by(good.get(), EVP_sha256(), "message", as_text(crypto::sign(good.get(), "message"))));
}

TEST_CASE("keys of other kinds sign nothing and verify nothing") {
    const Key edwards(EVP_PKEY_Q_keygen(nullptr, nullptr, "ED25519"), EVP_PKEY_free);
    REQUIRE(edwards);
    CHECK(crypto::kind_of(edwards.get()) == crypto::KeyKind::other);
    CHECK(crypto::kind_of(nullptr) == crypto::KeyKind::other);
    CHECK_FALSE(crypto::is_signed_by(edwards.get(), EVP_sha256(), "message", std::string(64, 'x')));
}

TEST_CASE("a server that is not there is named, with what to do") {
    try {
        (void)crypto::ask_timestamp("http://127.0.0.1:1/", Digest{});
        FAIL("somebody answers there");
    } catch (const Error& error) {
        CHECK(error.where == "http://127.0.0.1:1/");
        CHECK_FALSE(error.hint.empty());
    }
    CHECK_THROWS_AS((void)crypto::ask_timestamp("ftp://127.0.0.1/", Digest{}), Error);
}

TEST_CASE("an authority may name its certificate by SHA-512 or in the older way") {
    const auto request = crypto::make_timestamp_request(Digest{});
    const Bytes answer =
        sample::timestamp_answer(request.der, sample::stamped_at, sample::Clock::rsa2048, 256, false, 512);
    const Bytes token = crypto::read_timestamp_response(as_text(answer), request);
    CHECK(crypto::examine_timestamp(as_text(token), Digest{}).timestamp);
    // The older attribute names it by SHA-1 (RFC 2634), as many authorities still do beside the signature itself.
    const Bytes older =
        sample::timestamp_answer(request.der, sample::stamped_at, sample::Clock::rsa2048, 256, false, 160);
    CHECK_NOTHROW((void)crypto::read_timestamp_response(as_text(older), request));
    // Another name in its place: the certificate is not the one meant.
    std::string other(as_text(answer));
    const std::size_t at = other.find("\x04\x40");  // the one OCTET STRING of 64 bytes
    REQUIRE(at != std::string::npos);
    other[at + 5] = static_cast<char>(other[at + 5] ^ 1);
    CHECK_THROWS_AS((void)crypto::read_timestamp_response(other, request), Error);
}

TEST_CASE("a timestamp's time is a time of UTC, its certificate its own") {
    const std::string unreadable = "the timestamp server's answer holds a timestamp that cannot be read";
    const std::string time = "20260528202640Z";  // sample::stamped_at
    CHECK(refusal_of(time, "20260528202640X") == unreadable);
    CHECK(refusal_of(time, "20260528202699Z") == unreadable);
    CHECK(refusal_of(time, "20260528206140Z") == unreadable);
    CHECK(refusal_of(time, "20260528242640Z") == unreadable);
    CHECK(refusal_of(time, "20261328202640Z") == unreadable);
    CHECK(refusal_of(time, "2026052820264.Z") == unreadable);
    CHECK(refusal_of(time, "20260528202641Z").starts_with("the timestamp server's answer is refused"));
    const std::string fraction = "20260528202640.5Z";
    CHECK(refusal_of(fraction, fraction, false, true) == "accepted");
    CHECK(refusal_of(fraction, "20260528202640,5Z", false, true) == unreadable);
    CHECK(refusal_of(fraction, "20260528202640.xZ", false, true) == unreadable);
    CHECK(refusal_of("Tide Clock", "Tide Clocc", true) == "the timestamp server's answer lacks its certificate");
}
