#include "crypto/authority.hpp"

#include <openssl/err.h>
#include <openssl/pem.h>
#include <openssl/x509_vfy.h>

#include <ctime>
#include <vector>

#include "crypto/openssl.hpp"

namespace rigdeed::crypto {
namespace {

using StoreOwner = std::unique_ptr<X509_STORE, Freeing<X509_STORE_free>>;
struct FreeStack {
    void operator()(STACK_OF(X509) * stack) const { sk_X509_pop_free(stack, X509_free); }
};
using StackOwner = std::unique_ptr<STACK_OF(X509), FreeStack>;
using VerifyContext = std::unique_ptr<X509_STORE_CTX, Freeing<X509_STORE_CTX_free>>;

std::vector<CertificateOwner> read_all(std::string_view pem) {
    constexpr std::size_t largest = 4 << 20, most = 1000;
    std::vector<CertificateOwner> found;
    if (pem.size() > largest) return found;
    const BioOwner source(BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())));
    must(source != nullptr, "read from memory");
    const auto no_passphrase = [](char*, int, int, void*) { return 0; };
    while (found.size() < most) {
        CertificateOwner one(PEM_read_bio_X509(source.get(), nullptr, no_passphrase, nullptr));
        if (!one) break;
        found.push_back(std::move(one));
    }
    ERR_clear_error();
    return found;
}

std::string words_for(int error) {
    switch (error) {
        // not reached: only faults are put into words
        case X509_V_OK: return {};
        case X509_V_ERR_CERT_HAS_EXPIRED: return "a certificate had expired when the report was sealed";
        case X509_V_ERR_CERT_NOT_YET_VALID: return "a certificate was not valid yet when the report was sealed";
        case X509_V_ERR_UNABLE_TO_GET_ISSUER_CERT:
        case X509_V_ERR_UNABLE_TO_GET_ISSUER_CERT_LOCALLY:
        case X509_V_ERR_UNABLE_TO_VERIFY_LEAF_SIGNATURE:
        case X509_V_ERR_DEPTH_ZERO_SELF_SIGNED_CERT:
        case X509_V_ERR_SELF_SIGNED_CERT_IN_CHAIN:
            return "the signer's certificate is not by one of the authorities named";
        case X509_V_ERR_INVALID_CA: return "the signer's certificate is by a certificate that may not issue any";
        default: return std::string("the signer's certificate is not trusted: ") + X509_verify_cert_error_string(error);
    }
}

}  // namespace

void check_authorities(std::string_view pem) {
    if (read_all(pem).empty())
        throw Error("the authorities' file holds no certificate", {}, "it must be PEM: -----BEGIN CERTIFICATE-----");
}

std::string authority_fault(const CertificateFacts& certificate, const std::vector<CertificateFacts>& between,
                            std::string_view pem, std::int64_t at_seconds) {
    if (!certificate.may_sign) return "the signer's certificate is not for signatures";
    const CertificateOwner leaf = parse_certificate(as_text(certificate.der));
    const StoreOwner store(X509_STORE_new());
    must(leaf && store, "start a chain");
    const std::vector<CertificateOwner> authorities = read_all(pem);
    for (const CertificateOwner& one : authorities)
        must(X509_STORE_add_cert(store.get(), one.get()) == 1, "add to a chain");
    const StackOwner carried(sk_X509_new_null());
    must(carried != nullptr, "start a chain");
    for (const CertificateFacts& one : between) {
        CertificateOwner parsed = parse_certificate(as_text(one.der));
        must(parsed && sk_X509_push(carried.get(), parsed.get()) > 0, "add to a chain");
        (void)parsed.release();
    }
    const VerifyContext context(X509_STORE_CTX_new());
    must(context && X509_STORE_CTX_init(context.get(), store.get(), leaf.get(), carried.get()) == 1, "start a chain");
    X509_VERIFY_PARAM* rules = X509_STORE_CTX_get0_param(context.get());
    X509_VERIFY_PARAM_set_time(rules, static_cast<std::time_t>(at_seconds));
    X509_VERIFY_PARAM_set_purpose(rules, X509_PURPOSE_ANY);
    X509_VERIFY_PARAM_set_auth_level(rules, 2);  // 112 bits: no SHA-1, no RSA below 2048 bits
    X509_VERIFY_PARAM_set_flags(rules, X509_V_FLAG_X509_STRICT);
    const bool good = X509_verify_cert(context.get()) == 1;
    const int error = X509_STORE_CTX_get_error(context.get());
    ERR_clear_error();
    if (good) return {};
    // not reached: a chain that does not hold has its error
    return words_for(error == X509_V_OK ? X509_V_ERR_UNSPECIFIED : error);
}

}  // namespace rigdeed::crypto
