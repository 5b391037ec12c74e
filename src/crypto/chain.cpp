#include "crypto/chain.hpp"

#include <openssl/err.h>

#include <algorithm>

#include "base/text.hpp"

namespace rigdeed::crypto {
namespace {

bool holds(const std::vector<std::size_t>& list, std::size_t one) {
    return std::find(list.begin(), list.end(), one) != list.end();
}

// Leaves one of each.
void leave_single(const X509* certificate, std::vector<CertificateOwner>& others) {
    std::vector<CertificateOwner> kept;
    for (CertificateOwner& one : others) {
        const auto is_it = [&](const CertificateOwner& other) { return X509_cmp(other.get(), one.get()) == 0; };
        if (X509_cmp(certificate, one.get()) == 0 || std::any_of(kept.begin(), kept.end(), is_it)) continue;
        kept.push_back(std::move(one));
    }
    others = std::move(kept);
}

}  // namespace

bool is_self_made(const X509* certificate) {
    return X509_NAME_cmp(X509_get_subject_name(certificate), X509_get_issuer_name(certificate)) == 0;
}

bool has_issued(X509* issuer, X509* certificate) {
    EVP_PKEY* key = X509_get0_pubkey(issuer);
    const bool issued = key != nullptr && X509_check_ca(issuer) == 1 &&
                        X509_check_issued(issuer, certificate) == X509_V_OK && X509_verify(certificate, key) == 1;
    ERR_clear_error();
    return issued;
}

std::vector<std::size_t> path_from(X509* certificate, const std::vector<CertificateOwner>& others) {
    std::vector<std::size_t> path;
    X509* top = certificate;
    while (path.size() < most_between && !is_self_made(top)) {
        std::size_t next = 0;
        while (next < others.size() &&
               (holds(path, next) || is_self_made(others[next].get()) || !has_issued(others[next].get(), top)))
            ++next;
        if (next == others.size()) break;
        path.push_back(next);
        top = others[next].get();
    }
    return path;
}

std::vector<CertificateOwner> chain_from(X509* certificate, std::vector<CertificateOwner> others) {
    leave_single(certificate, others);
    const std::vector<std::size_t> path = path_from(certificate, others);
    X509* top = path.empty() ? certificate : others[path.back()].get();
    for (std::size_t i = 0; i < others.size(); ++i) {
        X509* one = others[i].get();
        if (holds(path, i) || (is_self_made(one) && !is_self_made(top) && has_issued(one, top))) continue;
        throw Error(
            "the signer file holds a certificate that is not of the signer's chain: " + in_quotes(facts_of(one).name),
            {}, "export it again with the signer's own certificate and those that lead to its root");
    }
    std::vector<CertificateOwner> chain;
    for (const std::size_t i : path) chain.push_back(std::move(others[i]));
    return chain;
}

}  // namespace rigdeed::crypto
