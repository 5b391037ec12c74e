#include "crypto/sample_signer.hpp"

#include <openssl/ec.h>
#include <openssl/evp.h>
#include <openssl/pkcs12.h>
#include <openssl/x509.h>

namespace rigdeed::sample {
namespace {

constexpr std::int64_t spring_2026 = 1'775'000'000;

// With few rounds: it is opened many times in a run.
Bytes new_file() {
    return crypto::make_signer({"Ann Rigger", "Rigger & Söhne", "GB", 10, spring_2026, crypto::NewKey::rsa3072, 10'000},
                               passphrase);
}

X509* certificate_for(EVP_PKEY* key) {
    X509* made = X509_new();
    X509_set_version(made, X509_VERSION_3);
    ASN1_INTEGER_set(X509_get_serialNumber(made), 4711);
    X509_gmtime_adj(X509_getm_notBefore(made), 0);
    X509_gmtime_adj(X509_getm_notAfter(made), 86400);
    const auto* name = reinterpret_cast<const unsigned char*>("Eve Curve");
    X509_NAME_add_entry_by_txt(X509_get_subject_name(made), "CN", MBSTRING_UTF8, name, -1, -1, 0);
    X509_set_issuer_name(made, X509_get_subject_name(made));
    X509_set_pubkey(made, key);
    X509_sign(made, key, EVP_sha256());
    return made;
}

Bytes pkcs12_of(EVP_PKEY* key, X509* certificate, const char* phrase) {
    STACK_OF(PKCS12_SAFEBAG)* bags = nullptr;
    PKCS12_add_cert(&bags, certificate);
    PKCS12_add_key(&bags, key, 0, 2048, NID_aes_256_cbc, phrase);
    STACK_OF(PKCS7)* safes = nullptr;
    PKCS12_add_safe(&safes, bags, -1, 0, nullptr);
    PKCS12* file = PKCS12_add_safes(safes, 0);
    PKCS12_set_mac(file, phrase, -1, nullptr, 0, 2048, EVP_sha256());
    unsigned char* der = nullptr;
    const int size = i2d_PKCS12(file, &der);
    Bytes bytes(der, der + size);
    OPENSSL_free(der);
    PKCS12_free(file);
    sk_PKCS7_pop_free(safes, PKCS7_free);
    sk_PKCS12_SAFEBAG_pop_free(bags, PKCS12_SAFEBAG_free);
    return bytes;
}

}  // namespace

const Bytes& ann_file() {
    static const Bytes file = new_file();
    return file;
}

const crypto::Signer& ann() {
    static const crypto::Signer signer = crypto::load_signer(as_text(ann_file()), passphrase);
    return signer;
}

const crypto::Signer& another_ann() {
    static const crypto::Signer signer = crypto::load_signer(as_text(new_file()), passphrase);
    return signer;
}

Bytes ec_file(Curve curve, const char* phrase) {
    EVP_PKEY* key = EVP_EC_gen(curve == Curve::p256 ? "P-256" : "P-384");
    X509* certificate = certificate_for(key);
    Bytes file = pkcs12_of(key, certificate, phrase);
    X509_free(certificate);
    EVP_PKEY_free(key);
    return file;
}

Bytes mismatched_file() {
    EVP_PKEY* key = EVP_EC_gen("P-256");
    EVP_PKEY* other = EVP_EC_gen("P-256");
    X509* certificate = certificate_for(other);
    Bytes file = pkcs12_of(key, certificate, passphrase);
    X509_free(certificate);
    EVP_PKEY_free(key);
    EVP_PKEY_free(other);
    return file;
}

}  // namespace rigdeed::sample
