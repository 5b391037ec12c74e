#pragma once

#include <openssl/bio.h>
#include <openssl/evp.h>
#include <openssl/pkcs12.h>
#include <openssl/x509.h>
#include <openssl/x509v3.h>

#include <memory>
#include <string>

#include "base/bytes.hpp"
#include "base/error.hpp"
#include "crypto/certificate.hpp"

/// OpenSSL's objects with an owner. For the sources of this folder only.
namespace rigdeed::crypto {

template <auto Free>
struct Freeing {
    template <class T>
    void operator()(T* object) const {
        Free(object);
    }
};

using BioOwner = std::unique_ptr<BIO, Freeing<BIO_free_all>>;
using KeyOwner = std::unique_ptr<EVP_PKEY, Freeing<EVP_PKEY_free>>;
using CertificateOwner = std::unique_ptr<X509, Freeing<X509_free>>;
using Pkcs12Owner = std::unique_ptr<PKCS12, Freeing<PKCS12_free>>;
using DigestContext = std::unique_ptr<EVP_MD_CTX, Freeing<EVP_MD_CTX_free>>;

/// Throws Error if OpenSSL failed where it has no reason to but memory.
inline void must(bool success, const char* what) {
    if (!success) throw Error(std::string("OpenSSL could not ") + what);
}

/// The DER form by one of OpenSSL's i2d functions.
template <class T, class Encode>
[[nodiscard]] Bytes der_of(const T* object, Encode encode) {
    const int size = encode(object, nullptr);
    must(size > 0, "encode an object");
    Bytes bytes(static_cast<std::size_t>(size));
    unsigned char* at = bytes.data();
    must(encode(object, &at) == size, "encode an object");
    return bytes;
}

/// A certificate from exactly these DER bytes; null if they are anything else.
[[nodiscard]] CertificateOwner parse_certificate(std::string_view der);
/// The same, if it has issuer and serial number.
[[nodiscard]] CertificateOwner parse_named(std::string_view der);
/// Issuer and serial number, as a CMS names its signer (RFC 5652, 10.2.4).
[[nodiscard]] std::string name_of(const X509* certificate);
/// A part of a name, in UTF-8; empty if it has none of that kind.
[[nodiscard]] std::string name_part(const X509_NAME* name, int kind);
/// Since 1970-01-01 UTC; 0 for what is no time.
[[nodiscard]] std::int64_t seconds_of(const ASN1_TIME* time);
[[nodiscard]] CertificateFacts facts_of(const X509* certificate);

/// The keys we verify with: RSA of 2048 to 8192 bits with an exponent of 65537 or more, and EC on P-256 or P-384.
enum class KeyKind { rsa, p256, p384, other };
[[nodiscard]] KeyKind kind_of(const EVP_PKEY* key);
/// Those we sign with.
[[nodiscard]] constexpr bool is_for_signers(KeyKind kind) { return kind == KeyKind::rsa || kind == KeyKind::p256; }

/// RSA PKCS#1 v1.5 or ECDSA with the lower s, both over SHA-256 of `message`.
[[nodiscard]] Bytes sign(EVP_PKEY* key, std::string_view message);
/// Accepts what sign() makes, and the same over another digest, in exactly one form.
[[nodiscard]] bool is_signed_by(EVP_PKEY* key, const EVP_MD* digest, std::string_view message,
                                std::string_view signature);
/// The signature with the lower of its two values for s; as it is, if it is none of an EC key.
[[nodiscard]] Bytes with_lower_s(const EVP_PKEY* key, std::string_view signature);

}  // namespace rigdeed::crypto
