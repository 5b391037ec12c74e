#include "crypto/authority.hpp"

#include <openssl/err.h>

#include <algorithm>
#include <array>
#include <ctime>
#include <iterator>
#include <vector>

#include "crypto/vouching.hpp"

namespace rigdeed::crypto {
namespace {

using UsesOwner = std::unique_ptr<EXTENDED_KEY_USAGE, Freeing<EXTENDED_KEY_USAGE_free>>;

// Purposes of which one at least fits a person who signs a document: RFC 5280, 4.2.1.12; RFC 9336; and what was used
// before that had a name.
constexpr std::string_view signing_purposes[]{
    "2.5.29.37.0",             // any
    "1.3.6.1.5.5.7.3.2",       // clientAuth
    "1.3.6.1.5.5.7.3.4",       // emailProtection
    "1.3.6.1.5.5.7.3.36",      // documentSigning
    "1.3.6.1.4.1.311.10.3.12"  // documents, before RFC 9336
};

bool is_signing_purpose(const ASN1_OBJECT* purpose) {
    std::array<char, 64> text{};
    OBJ_obj2txt(text.data(), static_cast<int>(text.size()), purpose, 1);
    return std::find(std::begin(signing_purposes), std::end(signing_purposes), text.data()) !=
           std::end(signing_purposes);
}

// Whether its extended key usage, if it has one, leaves room for the signing of documents.
bool has_purpose(const X509* certificate) {
    int found = -1;
    const UsesOwner uses(
        static_cast<EXTENDED_KEY_USAGE*>(X509_get_ext_d2i(certificate, NID_ext_key_usage, &found, nullptr)));
    if (!uses) return found == -1;  // there is none; else it cannot be read, or is there twice
    for (int i = 0; i < sk_ASN1_OBJECT_num(uses.get()); ++i)
        if (is_signing_purpose(sk_ASN1_OBJECT_value(uses.get(), i))) return true;
    return false;
}

// Why whoever vouches for this certificate does not do so for a person's signature.
std::string use_fault(const CertificateFacts& certificate) {
    if (!certificate.may_sign) return "the signer's certificate is not for signatures";
    const CertificateOwner leaf = parse_certificate(as_text(certificate.der));
    must(leaf != nullptr, "read a certificate");
    const bool is_authority = (X509_get_extension_flags(leaf.get()) & EXFLAG_CA) != 0;
    const bool fits = has_purpose(leaf.get());
    ERR_clear_error();
    if (is_authority) return "the signer's certificate is an authority's, for other certificates and not for documents";
    return fits ? std::string() : "the signer's certificate is for another purpose than the signing of documents";
}

std::string words_for(int error) {
    switch (error) {
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
    if (read_certificates(pem).empty())
        throw Error("the authorities' file holds no certificate", {}, "it must be PEM: -----BEGIN CERTIFICATE-----");
}

std::string authority_fault(const CertificateFacts& certificate, const std::vector<CertificateFacts>& between,
                            std::string_view pem, std::int64_t at_seconds) {
    return words_for(vouching_error(certificate, between, pem, [&](X509_STORE_CTX* context) {
        X509_VERIFY_PARAM_set_time(X509_STORE_CTX_get0_param(context), static_cast<std::time_t>(at_seconds));
    }));
}

std::string signer_fault(const CertificateFacts& certificate, const std::vector<CertificateFacts>& between,
                         std::string_view pem, std::int64_t at_seconds) {
    std::string fault = use_fault(certificate);
    return fault.empty() ? authority_fault(certificate, between, pem, at_seconds) : fault;
}

}  // namespace rigdeed::crypto
