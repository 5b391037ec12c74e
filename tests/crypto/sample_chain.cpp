#include "crypto/sample_chain.hpp"

#include <openssl/ec.h>
#include <openssl/pem.h>
#include <openssl/pkcs12.h>
#include <openssl/x509v3.h>

#include "crypto/sample_signer.hpp"

namespace rigdeed::sample {

struct Identity::Parts {
    EVP_PKEY* key = nullptr;
    X509* certificate = nullptr;
    std::string name;
    Kind kind = Kind::person;

    Parts() = default;
    Parts(const Parts&) = delete;
    Parts& operator=(const Parts&) = delete;
    ~Parts() {
        EVP_PKEY_free(key);
        X509_free(certificate);
    }
};

namespace {

void extend(X509* certificate, X509* issuer, int kind, const char* value) {
    X509V3_CTX context;
    X509V3_set_ctx_nodb(&context);
    X509V3_set_ctx(&context, issuer, certificate, nullptr, nullptr, 0);
    X509_EXTENSION* extension = X509V3_EXT_conf_nid(nullptr, &context, kind, value);
    X509_add_ext(certificate, extension, -1);
    X509_EXTENSION_free(extension);
}

Identity certified(EVP_PKEY* key, const std::string& name, Kind kind, const Identity* issuer,
                   const std::string& purposes = {}) {
    static long serial = 100;
    auto parts = std::make_shared<Identity::Parts>();
    parts->key = key;
    parts->name = name;
    parts->kind = kind;
    parts->certificate = X509_new();
    X509* made = parts->certificate;
    X509_set_version(made, X509_VERSION_3);
    ASN1_INTEGER_set(X509_get_serialNumber(made), ++serial);
    X509_gmtime_adj(X509_getm_notBefore(made), 0);
    X509_gmtime_adj(X509_getm_notAfter(made), 86400);
    X509_NAME_add_entry_by_txt(X509_get_subject_name(made), "CN", MBSTRING_UTF8,
                               reinterpret_cast<const unsigned char*>(name.c_str()), -1, -1, 0);
    X509* by = issuer == nullptr ? made : issuer->parts->certificate;
    X509_set_issuer_name(made, X509_get_subject_name(by));
    X509_set_pubkey(made, key);
    const bool is_authority = kind != Kind::person;
    extend(made, by, NID_basic_constraints, is_authority ? "critical,CA:TRUE" : "critical,CA:FALSE");
    extend(made, by, NID_key_usage,
           kind == Kind::authority ? "critical,keyCertSign,cRLSign"
           : is_authority          ? "critical,keyCertSign,cRLSign,digitalSignature"
                                   : "critical,digitalSignature");
    if (!purposes.empty()) extend(made, by, NID_ext_key_usage, purposes.c_str());
    extend(made, by, NID_subject_key_identifier, "hash");
    if (issuer != nullptr) extend(made, by, NID_authority_key_identifier, "keyid:always");
    X509_sign(made, issuer == nullptr ? key : issuer->parts->key, EVP_sha256());
    return {parts};
}

std::string text_of(BIO* from) {
    char* text = nullptr;
    const long size = BIO_get_mem_data(from, &text);
    std::string result(text, static_cast<std::size_t>(size));
    BIO_free(from);
    return result;
}

}  // namespace

Bytes Identity::der() const {
    unsigned char* der = nullptr;
    const int size = i2d_X509(parts->certificate, &der);
    Bytes bytes(der, der + size);
    OPENSSL_free(der);
    return bytes;
}

Identity identity(const std::string& name, Kind kind, const Identity* issuer, const std::string& purposes) {
    return certified(EVP_EC_gen("P-256"), name, kind, issuer, purposes);
}

Identity renewed(const Identity& of, const Identity& issuer) {
    EVP_PKEY_up_ref(of.parts->key);
    return certified(of.parts->key, of.parts->name, of.parts->kind, &issuer);
}

Bytes revocation_list(const Identity& by, const std::vector<Revoked>& revoked, std::int64_t issued, std::int64_t next,
                      const Identity& signed_by) {
    const auto time = [](std::int64_t seconds) { return ASN1_TIME_set(nullptr, seconds); };
    X509_CRL* list = X509_CRL_new();
    X509_CRL_set_version(list, X509_CRL_VERSION_2);
    X509_CRL_set_issuer_name(list, X509_get_subject_name(by.parts->certificate));
    ASN1_TIME *from = time(issued), *until = time(next);
    X509_CRL_set1_lastUpdate(list, from);
    X509_CRL_set1_nextUpdate(list, until);
    ASN1_TIME_free(from);
    ASN1_TIME_free(until);
    for (const Revoked& one : revoked) {
        X509_REVOKED* entry = X509_REVOKED_new();
        X509_REVOKED_set_serialNumber(entry, X509_get_serialNumber(one.identity.parts->certificate));
        ASN1_TIME* since = time(one.since);
        X509_REVOKED_set_revocationDate(entry, since);
        ASN1_TIME_free(since);
        if (one.lost) {
            ASN1_GENERALIZEDTIME* lost = ASN1_GENERALIZEDTIME_set(nullptr, *one.lost);
            X509_REVOKED_add1_ext_i2d(entry, NID_invalidity_date, lost, 0, 0);
            ASN1_GENERALIZEDTIME_free(lost);
        }
        X509_CRL_add0_revoked(list, entry);
    }
    X509_CRL_sort(list);
    X509_CRL_sign(list, signed_by.parts->key, EVP_sha256());
    unsigned char* der = nullptr;
    const int size = i2d_X509_CRL(list, &der);
    Bytes bytes(der, der + size);
    OPENSSL_free(der);
    X509_CRL_free(list);
    return bytes;
}

std::string pem_of_lists(const std::vector<Bytes>& lists) {
    BIO* to = BIO_new(BIO_s_mem());
    for (const Bytes& list : lists)
        PEM_write_bio(to, PEM_STRING_X509_CRL, "", list.data(), static_cast<long>(list.size()));
    return text_of(to);
}

Bytes chain_pkcs12(const Identity& signer, const std::vector<Identity>& others) {
    STACK_OF(X509)* list = sk_X509_new_null();
    for (const Identity& one : others) sk_X509_push(list, one.parts->certificate);
    PKCS12* file = PKCS12_create(passphrase, "signer", signer.parts->key, signer.parts->certificate, list,
                                 NID_aes_256_cbc, NID_aes_256_cbc, 2048, 2048, 0);
    unsigned char* der = nullptr;
    const int size = i2d_PKCS12(file, &der);
    Bytes bytes(der, der + size);
    OPENSSL_free(der);
    PKCS12_free(file);
    sk_X509_free(list);
    return bytes;
}

std::string chain_pem(const Identity& signer, const std::vector<Identity>& others) {
    BIO* to = BIO_new(BIO_s_mem());
    for (const Identity& one : others) PEM_write_bio_X509(to, one.parts->certificate);
    PEM_write_bio_PKCS8PrivateKey(to, signer.parts->key, nullptr, nullptr, 0, nullptr, nullptr);
    PEM_write_bio_X509(to, signer.parts->certificate);
    return text_of(to);
}

}  // namespace rigdeed::sample
