#include "crypto/sample_authority.hpp"

#include <openssl/ec.h>
#include <openssl/rsa.h>
#include <openssl/ts.h>
#include <openssl/x509v3.h>

#include <ctime>
#include <map>

namespace rigdeed::sample {
namespace {

void extend(X509* certificate, int kind, const char* value) {
    X509_EXTENSION* extension = X509V3_EXT_conf_nid(nullptr, nullptr, kind, value);
    X509_add_ext(certificate, extension, -1);
    X509_EXTENSION_free(extension);
}

X509* certificate_for(EVP_PKEY* key) {
    X509* made = X509_new();
    X509_set_version(made, X509_VERSION_3);
    ASN1_INTEGER_set(X509_get_serialNumber(made), 12);
    std::time_t when = stamped_at;
    X509_time_adj_ex(X509_getm_notBefore(made), -1, 0, &when);
    X509_time_adj_ex(X509_getm_notAfter(made), 1, 0, &when);
    const auto* name = reinterpret_cast<const unsigned char*>("Tide Clock");
    X509_NAME_add_entry_by_txt(X509_get_subject_name(made), "CN", MBSTRING_UTF8, name, -1, -1, 0);
    X509_set_issuer_name(made, X509_get_subject_name(made));
    X509_set_pubkey(made, key);
    extend(made, NID_key_usage, "critical,digitalSignature");
    extend(made, NID_ext_key_usage, "critical,timeStamping");
    X509_sign(made, key, EVP_sha256());
    return made;
}

struct Keys {
    EVP_PKEY* key = nullptr;
    X509* certificate = nullptr;

    Keys() = default;
    Keys(const Keys&) = delete;
    Keys& operator=(const Keys&) = delete;
    ~Keys() {
        EVP_PKEY_free(key);
        X509_free(certificate);
    }
};

// Made once in a run.
const Keys& keys_of(Clock clock) {
    static std::map<Clock, Keys> made;
    Keys& keys = made[clock];
    if (keys.key == nullptr) {
        keys.key = clock == Clock::rsa2048 ? EVP_RSA_gen(2048)
                                           : EVP_EC_gen(clock == Clock::p256   ? "P-256"
                                                        : clock == Clock::p384 ? "P-384"
                                                                               : "P-521");
        keys.certificate = certificate_for(keys.key);
    }
    return keys;
}

ASN1_INTEGER* next_serial(TS_resp_ctx*, void*) {
    ASN1_INTEGER* serial = ASN1_INTEGER_new();
    ASN1_INTEGER_set(serial, 77);
    return serial;
}

int tell_time(TS_resp_ctx*, void* at, long* seconds, long* microseconds) {
    *seconds = static_cast<long>(*static_cast<std::int64_t*>(at));
    *microseconds = 0;
    return 1;
}

int tell_half_a_second_more(TS_resp_ctx* context, void* at, long* seconds, long* microseconds) {
    const int told = tell_time(context, at, seconds, microseconds);
    *microseconds = 500'000;
    return told;
}

}  // namespace

Bytes timestamp_answer(const Bytes& request, std::int64_t at, Clock clock, int digest_bits, bool with_fraction,
                       int name_bits, int accuracy) {
    const Keys& keys = keys_of(clock);
    TS_RESP_CTX* context = TS_RESP_CTX_new();
    TS_RESP_CTX_set_signer_cert(context, keys.certificate);
    TS_RESP_CTX_set_signer_key(context, keys.key);
    TS_RESP_CTX_set_signer_digest(context, digest_bits == 512   ? EVP_sha512()
                                           : digest_bits == 384 ? EVP_sha384()
                                           : digest_bits == 160 ? EVP_sha1()
                                                                : EVP_sha256());
    TS_RESP_CTX_set_ess_cert_id_digest(context, name_bits == 512   ? EVP_sha512()
                                                : name_bits == 160 ? EVP_sha1()
                                                                   : EVP_sha256());
    TS_RESP_CTX_add_md(context, EVP_sha256());
    ASN1_OBJECT* policy = OBJ_txt2obj("1.2.3.4.1", 1);
    TS_RESP_CTX_set_def_policy(context, policy);
    ASN1_OBJECT_free(policy);
    TS_RESP_CTX_set_serial_cb(context, next_serial, nullptr);
    TS_RESP_CTX_set_time_cb(context, with_fraction ? tell_half_a_second_more : tell_time, &at);
    if (accuracy > 0) TS_RESP_CTX_set_accuracy(context, accuracy, 0, 0);
    if (with_fraction) TS_RESP_CTX_set_clock_precision_digits(context, 3);
    BIO* from = BIO_new_mem_buf(request.data(), static_cast<int>(request.size()));
    TS_RESP* response = TS_RESP_create_response(context, from);
    unsigned char* der = nullptr;
    const int size = i2d_TS_RESP(response, &der);
    Bytes bytes(der, der + (size > 0 ? size : 0));
    OPENSSL_free(der);
    TS_RESP_free(response);
    BIO_free(from);
    TS_RESP_CTX_free(context);
    return bytes;
}

}  // namespace rigdeed::sample
