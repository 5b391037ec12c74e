#include "crypto/signer.hpp"

#include <doctest/doctest.h>

#include "base/error.hpp"
#include "crypto/sample_signer.hpp"

using namespace rigdeed;

TEST_CASE("a new signer is who was asked for, for as long as was asked for") {
    const crypto::CertificateFacts& facts = sample::ann().certificate();
    CHECK(facts.name == "Ann Rigger");
    CHECK(facts.organisation == "Rigger & Söhne");
    CHECK(facts.country == "GB");
    CHECK(facts.self_made);
    CHECK(facts.not_before == 1'775'000'000);
    CHECK((facts.not_after - facts.not_before) / 86400 == 3652);
    CHECK(facts.valid_at(facts.not_before));
    CHECK_FALSE(facts.valid_at(facts.not_after + 1));
}

TEST_CASE("a signer does not open with a wrong passphrase") {
    for (const char* wrong : {"", "Correct horse", "correct horse "})
        CHECK_THROWS_WITH_AS((void)crypto::load_signer(as_text(sample::ann_file()), wrong),
                             "the passphrase does not open the signer file", Error);
}

TEST_CASE("bytes that are no PKCS#12 file are refused") {
    for (const char* bytes : {"", "x", "-----BEGIN CERTIFICATE-----\n"})
        CHECK_THROWS_AS((void)crypto::load_signer(bytes, "secret"), Error);
    const std::string_view file = as_text(sample::ann_file());
    CHECK_THROWS_AS((void)crypto::load_signer(file.substr(0, file.size() / 2), sample::passphrase), Error);
}

TEST_CASE("a signer file with any byte changed is refused or the same signer") {
    const std::string file(as_text(sample::ann_file()));
    for (std::size_t at = 0; at < file.size(); at += 97) {
        std::string changed = file;
        changed[at] = static_cast<char>(changed[at] ^ 1);
        bool harmless = true;
        try {
            const crypto::Signer signer = crypto::load_signer(changed, sample::passphrase);
            harmless = signer.certificate().fingerprint == sample::ann().certificate().fingerprint;
        } catch (const Error&) {}
        CHECK(harmless);
    }
}

TEST_CASE("a foreign signer on P-256 is taken, one on another curve is not") {
    const Bytes good = sample::ec_file(sample::Curve::p256), other = sample::ec_file(sample::Curve::p384);
    CHECK(crypto::load_signer(as_text(good), sample::passphrase).certificate().name == "Eve Curve");
    CHECK_THROWS_WITH_AS((void)crypto::load_signer(as_text(other), sample::passphrase),
                         "the key in the signer file is of a kind we do not sign with", Error);
}

TEST_CASE("a key that does not belong to the certificate is refused") {
    const Bytes file = sample::mismatched_file();
    CHECK_THROWS_AS((void)crypto::load_signer(as_text(file), sample::passphrase), Error);
}

TEST_CASE("wishes for a signer that do not fit are refused before a key is made") {
    const std::string good = "secret words";
    CHECK_THROWS_AS((void)crypto::make_signer({"", "", "", 10, 0}, good), Error);
    CHECK_THROWS_AS((void)crypto::make_signer({"Ann\nRigger", "", "", 10, 0}, good), Error);
    CHECK_THROWS_AS((void)crypto::make_signer({std::string(65, 'a'), "", "", 10, 0}, good), Error);
    CHECK_THROWS_AS((void)crypto::make_signer({"Ann", std::string(65, 'a'), "", 10, 0}, good), Error);
    CHECK_THROWS_AS((void)crypto::make_signer({"Ann", "", "uk", 10, 0}, good), Error);
    CHECK_THROWS_AS((void)crypto::make_signer({"Ann", "", "GB", 0, 0}, good), Error);
    CHECK_THROWS_AS((void)crypto::make_signer({"Ann", "", "GB", 10, 0}, ""), Error);
}

TEST_CASE("a new passphrase has eight characters or more, in whatever script; one of old files may be shorter") {
    const crypto::NewSigner wanted{"Ann", "", "", 10, 0, crypto::NewKey::p256, 1000};
    for (const char* shorter : {"", "a", "seven77", "ключ", "äöüäöüä"})
        CHECK_THROWS_AS((void)crypto::make_signer(wanted, shorter), Error);
    for (const char* enough : {"eight888", "ключключ", "\xFF\xFE\xFD\xFC\xFB\xFA\xF9\xF8"})
        CHECK_NOTHROW((void)crypto::make_signer(wanted, enough));
    CHECK(crypto::load_signer(as_text(sample::ec_file(sample::Curve::p256, "old")), "old").certificate().name ==
          "Eve Curve");
}

TEST_CASE("key, certificate and MAC of a new signer are behind 600 000 rounds each") {
    const Bytes file = crypto::make_signer({"Ann", "", "", 10, 0, crypto::NewKey::p256}, "secret words");
    const std::string_view bytes = as_text(file);
    constexpr std::string_view rounds{"\x02\x03\x09\x27\xC0", 5};  // INTEGER 600000
    std::size_t count = 0;
    for (std::size_t at = bytes.find(rounds); at != std::string_view::npos; at = bytes.find(rounds, at + 1)) ++count;
    CHECK(count == 3);
    CHECK(crypto::load_signer(bytes, "secret words").certificate().name == "Ann");
}

TEST_CASE("a certificate reads back from PEM and from DER, and from nothing else") {
    const crypto::CertificateFacts& facts = sample::ann().certificate();
    CHECK(crypto::read_certificate(facts.pem())->fingerprint == facts.fingerprint);
    CHECK(crypto::read_certificate(as_text(facts.der))->fingerprint == facts.fingerprint);
    CHECK_FALSE(crypto::read_certificate(""));
    CHECK_FALSE(crypto::read_certificate(std::string(as_text(facts.der)) + "x"));
    CHECK_FALSE(crypto::read_certificate(as_text(sample::ann_file())));
}

TEST_CASE("a fingerprint may be written with blanks and colons and in either case") {
    const Digest digest = sample::ann().certificate().fingerprint;
    std::string colons;
    for (std::size_t i = 0; i < 64; i += 2) colons += (i > 0 ? ":" : "") + digest.hex().substr(i, 2);
    for (char& c : colons) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    CHECK(crypto::read_fingerprint(colons) == digest);
    CHECK(crypto::read_fingerprint(digest.grouped()) == digest);
    CHECK_FALSE(crypto::read_fingerprint(digest.hex().substr(1)));
    CHECK_FALSE(crypto::read_fingerprint(digest.hex() + "0"));
    CHECK_FALSE(crypto::read_fingerprint("x" + digest.hex().substr(1)));
}
