#include "crypto/certificate.hpp"

#include <openssl/err.h>
#include <openssl/pem.h>

#include <ctime>

#include "base/date.hpp"
#include "crypto/der.hpp"
#include "crypto/digest.hpp"
#include "crypto/openssl.hpp"

namespace rigdeed::crypto {
namespace {

CertificateOwner parse_pem(std::string_view pem) {
    const BioOwner source(BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())));
    must(source != nullptr, "read from memory");
    const auto no_passphrase = [](char*, int, int, void*) { return 0; };
    return CertificateOwner(PEM_read_bio_X509(source.get(), nullptr, no_passphrase, nullptr));
}

}  // namespace

std::string name_part(const X509_NAME* name, int kind) {
    // not reached: a certificate that was read has a subject
    const int at = name == nullptr ? -1 : X509_NAME_get_index_by_NID(name, kind, -1);
    if (at < 0) return {};
    unsigned char* text = nullptr;
    const int size = ASN1_STRING_to_UTF8(&text, X509_NAME_ENTRY_get_data(X509_NAME_get_entry(name, at)));
    if (size < 0) return {};
    std::string result(reinterpret_cast<char*>(text), static_cast<std::size_t>(size));
    CRYPTO_free(text, "", 0);  // OPENSSL_free would put the name of this file into the program, as it was built
    return result;
}

std::int64_t seconds_of(const ASN1_TIME* time) {
    std::tm parts{};
    // not reached: OpenSSL reads no certificate with other times
    if (time == nullptr || ASN1_TIME_to_tm(time, &parts) != 1) return 0;
    const LocalTime utc{{parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday},
                        {parts.tm_hour * 3600 + parts.tm_min * 60 + parts.tm_sec}};
    return seconds_since_epoch(utc);
}

CertificateOwner parse_certificate(std::string_view der) {
    constexpr std::size_t largest = 65536;
    if (der.empty() || der.size() > largest) return nullptr;
    const auto* at = reinterpret_cast<const unsigned char*>(der.data());
    const auto* end = at + der.size();
    CertificateOwner read(d2i_X509(nullptr, &at, static_cast<long>(der.size())));
    if (at != end) return nullptr;
    return read;
}

CertificateOwner parse_named(std::string_view der) {
    CertificateOwner certificate = parse_certificate(der);
    ERR_clear_error();
    // not reached: a certificate that was read has an issuer and a number
    const bool named = certificate && X509_get_issuer_name(certificate.get()) != nullptr &&
                       X509_get0_serialNumber(certificate.get()) != nullptr;
    return named ? std::move(certificate) : nullptr;
}

std::string name_of(const X509* certificate) {
    return der::element(der::sequence,
                        std::string(as_text(der_of(X509_get_issuer_name(certificate), i2d_X509_NAME))) +
                            std::string(as_text(der_of(X509_get0_serialNumber(certificate), i2d_ASN1_INTEGER))));
}

CertificateFacts facts_of(const X509* certificate) {
    const X509_NAME* subject = X509_get_subject_name(certificate);
    CertificateFacts facts;
    facts.name = name_part(subject, NID_commonName);
    facts.organisation = name_part(subject, NID_organizationName);
    facts.country = name_part(subject, NID_countryName);
    facts.not_before = seconds_of(X509_get0_notBefore(certificate));
    facts.not_after = seconds_of(X509_get0_notAfter(certificate));
    // not reached: a certificate that was read has a subject
    facts.self_made = subject != nullptr && X509_NAME_cmp(subject, X509_get_issuer_name(certificate)) == 0;
    constexpr std::uint32_t signing = KU_DIGITAL_SIGNATURE | KU_NON_REPUDIATION;
    facts.may_sign = (X509_get_key_usage(const_cast<X509*>(certificate)) & signing) != 0;  // all bits, if it has none
    facts.der = der_of(certificate, i2d_X509);
    facts.fingerprint = sha256(facts.der);
    return facts;
}

std::string CertificateFacts::pem() const {
    const CertificateOwner certificate = parse_certificate(as_text(der));
    const BioOwner to(BIO_new(BIO_s_mem()));
    must(certificate && to && PEM_write_bio_X509(to.get(), certificate.get()) == 1, "write a certificate");
    char* text = nullptr;
    const long size = BIO_get_mem_data(to.get(), &text);
    return {text, static_cast<std::size_t>(size)};
}

std::optional<CertificateFacts> read_certificate(std::string_view bytes) {
    constexpr std::size_t largest = 1 << 20;
    if (bytes.size() > largest) return std::nullopt;
    CertificateOwner certificate = parse_certificate(bytes);
    if (!certificate) certificate = parse_pem(bytes);
    if (!certificate) return std::nullopt;
    return facts_of(certificate.get());
}

std::optional<Digest> read_fingerprint(std::string_view text) {
    Digest digest;
    std::size_t count = 0;
    for (const char c : text) {
        if (c == ' ' || c == ':') continue;
        const int value = c >= '0' && c <= '9'   ? c - '0'
                          : c >= 'a' && c <= 'f' ? c - 'a' + 10
                          : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                                 : -1;
        if (value < 0 || count == 2 * digest.bytes.size()) return std::nullopt;
        unsigned char& byte = digest.bytes[count / 2];
        byte = static_cast<unsigned char>(count % 2 == 0 ? value << 4 : byte | value);
        ++count;
    }
    if (count != 2 * digest.bytes.size()) return std::nullopt;
    return digest;
}

}  // namespace rigdeed::crypto
