#include "crypto/vouching.hpp"

#include <openssl/err.h>
#include <openssl/pem.h>

namespace rigdeed::crypto {
namespace {

using StoreOwner = std::unique_ptr<X509_STORE, Freeing<X509_STORE_free>>;
struct FreeStack {
    void operator()(STACK_OF(X509) * stack) const { sk_X509_pop_free(stack, X509_free); }
};
using StackOwner = std::unique_ptr<STACK_OF(X509), FreeStack>;
using VerifyContext = std::unique_ptr<X509_STORE_CTX, Freeing<X509_STORE_CTX_free>>;

StackOwner stack_of(const std::vector<CertificateFacts>& certificates) {
    StackOwner stack(sk_X509_new_null());
    must(stack != nullptr, "start a chain");
    for (const CertificateFacts& one : certificates) {
        CertificateOwner parsed = parse_certificate(as_text(one.der));
        must(parsed && sk_X509_push(stack.get(), parsed.get()) > 0, "add to a chain");
        (void)parsed.release();
    }
    return stack;
}

}  // namespace

std::vector<CertificateOwner> read_certificates(std::string_view pem) {
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

int vouching_error(const CertificateFacts& certificate, const std::vector<CertificateFacts>& between,
                   std::string_view pem, const std::function<void(X509_STORE_CTX*)>& settle) {
    const CertificateOwner leaf = parse_certificate(as_text(certificate.der));
    const StoreOwner store(X509_STORE_new());
    must(leaf && store, "start a chain");
    for (const CertificateOwner& one : read_certificates(pem))
        must(X509_STORE_add_cert(store.get(), one.get()) == 1, "add to a chain");
    const StackOwner carried = stack_of(between);
    const VerifyContext context(X509_STORE_CTX_new());
    must(context && X509_STORE_CTX_init(context.get(), store.get(), leaf.get(), carried.get()) == 1, "start a chain");
    X509_VERIFY_PARAM* rules = X509_STORE_CTX_get0_param(context.get());
    X509_VERIFY_PARAM_set_purpose(rules, X509_PURPOSE_ANY);
    X509_VERIFY_PARAM_set_auth_level(rules, 2);  // 112 bits: no SHA-1, no RSA below 2048 bits
    X509_VERIFY_PARAM_set_flags(rules, X509_V_FLAG_X509_STRICT);
    settle(context.get());
    const bool good = X509_verify_cert(context.get()) == 1;
    const int error = X509_STORE_CTX_get_error(context.get());
    ERR_clear_error();
    if (good) return X509_V_OK;
    // not reached: a chain that does not hold has its error
    return error == X509_V_OK ? X509_V_ERR_UNSPECIFIED : error;
}

}  // namespace rigdeed::crypto
