#include "crypto/revocation.hpp"

#include <openssl/err.h>
#include <openssl/pem.h>

#include <algorithm>
#include <array>
#include <memory>

#include "base/date.hpp"
#include "base/text.hpp"
#include "crypto/vouching.hpp"

namespace rigdeed::crypto {
namespace {

using ListOwner = std::unique_ptr<X509_CRL, Freeing<X509_CRL_free>>;
struct FreeLists {
    void operator()(STACK_OF(X509_CRL) * stack) const { sk_X509_CRL_free(stack); }
};
using ListStack = std::unique_ptr<STACK_OF(X509_CRL), FreeLists>;
using TimeOwner = std::unique_ptr<ASN1_GENERALIZEDTIME, Freeing<ASN1_GENERALIZEDTIME_free>>;

constexpr const char* form = "it must be PEM (-----BEGIN X509 CRL-----) or DER";

ListOwner read_der(std::string_view file) {
    const auto* at = reinterpret_cast<const unsigned char*>(file.data());
    const auto* end = at + file.size();
    ListOwner list(d2i_X509_CRL(nullptr, &at, static_cast<long>(file.size())));
    return at == end ? std::move(list) : nullptr;
}

std::vector<ListOwner> read_pem(std::string_view file) {
    std::vector<ListOwner> lists;
    const BioOwner source(BIO_new_mem_buf(file.data(), static_cast<int>(file.size())));
    must(source != nullptr, "read from memory");
    const auto no_passphrase = [](char*, int, int, void*) { return 0; };
    while (ListOwner one{PEM_read_bio_X509_CRL(source.get(), nullptr, no_passphrase, nullptr)})
        lists.push_back(std::move(one));
    const bool at_end = ERR_GET_REASON(ERR_peek_last_error()) == PEM_R_NO_START_LINE;
    ERR_clear_error();
    if (!at_end) throw Error("a list of revoked certificates cannot be read", {}, form);
    return lists;
}

std::vector<ListOwner> read_lists(std::string_view file) {
    constexpr std::size_t largest = 64 << 20;
    if (file.size() > largest) throw Error("the lists of revoked certificates are larger than 64 MiB");
    std::vector<ListOwner> lists;
    if (file.find("-----BEGIN ") != std::string_view::npos) lists = read_pem(file);
    else if (ListOwner one = read_der(file)) lists.push_back(std::move(one));
    ERR_clear_error();
    if (lists.empty()) throw Error("the file holds no list of revoked certificates", {}, form);
    return lists;
}

// By one of these, as far as one has the name of the list's issuer.
bool is_by_its_namesake(X509_CRL* list, const std::vector<CertificateOwner>& authorities) {
    bool has_namesake = false;
    for (const CertificateOwner& one : authorities) {
        if (X509_NAME_cmp(X509_get_subject_name(one.get()), X509_CRL_get_issuer(list)) != 0) continue;
        has_namesake = true;
        EVP_PKEY* key = X509_get0_pubkey(one.get());
        if (key != nullptr && X509_CRL_verify(list, key) == 1) return true;
    }
    ERR_clear_error();
    return !has_namesake;
}

// Since when: an authority may know that the key was lost before it said so (RFC 5280, 5.3.2).
std::int64_t revoked_since(const X509_REVOKED* entry) {
    const std::int64_t said = seconds_of(X509_REVOKED_get0_revocationDate(entry));
    const TimeOwner lost(
        static_cast<ASN1_GENERALIZEDTIME*>(X509_REVOKED_get_ext_d2i(entry, NID_invalidity_date, nullptr, nullptr)));
    return lost ? std::min(said, seconds_of(lost.get())) : said;
}

// What OpenSSL's examination of one certificate after the other has found.
struct Finding {
    SealTime sealed;
    std::string fault;
    bool of_clock = false;  ///< a timestamp's authority, not a signer
};

// Whether what was stamped before holds though the certificate was revoked afterwards.
bool leaves_older_stamps(const X509_REVOKED* entry) {
    const std::unique_ptr<ASN1_ENUMERATED, decltype(&ASN1_ENUMERATED_free)> reason(
        static_cast<ASN1_ENUMERATED*>(X509_REVOKED_get_ext_d2i(entry, NID_crl_reason, nullptr, nullptr)),
        ASN1_ENUMERATED_free);
    if (!reason) return false;
    constexpr std::array harmless{0L, 3L, 4L, 5L};  // unspecified, affiliationChanged, superseded, cessationOfOperation
    return std::find(harmless.begin(), harmless.end(), ASN1_ENUMERATED_get(reason.get())) != harmless.end();
}

std::string whose(X509_STORE_CTX* context) {
    const auto& finding = *static_cast<const Finding*>(X509_STORE_CTX_get_app_data(context));
    if (X509_STORE_CTX_get_error_depth(context) == 0)
        return finding.of_clock ? "its authority's certificate" : "the signer's certificate";
    return "the certificate of " + in_quotes(facts_of(X509_STORE_CTX_get_current_cert(context)).name);
}

bool is_revoked_in_time(X509_STORE_CTX* context, Finding& finding) {
    X509_REVOKED* entry = nullptr;
    X509_CRL* list = X509_STORE_CTX_get0_current_crl(context);
    X509* certificate = X509_STORE_CTX_get_current_cert(context);
    // not reached: what is said to be revoked stands in the list
    if (list == nullptr || X509_CRL_get0_by_cert(list, &entry, certificate) == 0) return true;
    const std::int64_t since = revoked_since(entry);
    const bool later = since > finding.sealed.seconds;
    if (finding.of_clock) {
        if (later && leaves_older_stamps(entry)) return false;
        finding.fault = whose(context) + " was revoked on " + local_from_seconds(since).date.text();
        return true;
    }
    if (later && finding.sealed.proven) return false;
    finding.fault = whose(context) + " was revoked on " + local_from_seconds(since).date.text() +
                    (later ? ", and that the seal is older only the signer's clock says" : "");
    return true;
}

int judge_step(int good, X509_STORE_CTX* context) {
    if (good == 1) return 1;
    auto& finding = *static_cast<Finding*>(X509_STORE_CTX_get_app_data(context));
    const int error = X509_STORE_CTX_get_error(context);
    switch (error) {
        case X509_V_ERR_CERT_REVOKED: return is_revoked_in_time(context, finding) ? 0 : 1;
        case X509_V_ERR_UNABLE_TO_GET_CRL:
            if (finding.of_clock || X509_STORE_CTX_get_error_depth(context) > 0) return 1;
            finding.fault = "none of the lists of revoked certificates is by whoever issued the signer's certificate";
            return 0;
        case X509_V_ERR_CRL_SIGNATURE_FAILURE:
            finding.fault = "a list of revoked certificates is not signed by its issuer";
            return 0;
        default:
            finding.fault = std::string("the lists of revoked certificates do not clear the signer's certificate: ") +
                            X509_verify_cert_error_string(error);
            return 0;
    }
}

}  // namespace

std::vector<RevocationList> read_revocations(std::string_view file, std::string_view authorities_pem) {
    const std::vector<CertificateOwner> authorities = read_certificates(authorities_pem);
    std::vector<RevocationList> read;
    for (const ListOwner& list : read_lists(file)) {
        const std::string issuer = name_part(X509_CRL_get_issuer(list.get()), NID_commonName);
        if (!is_by_its_namesake(list.get(), authorities))
            throw Error("the list of revoked certificates by " + in_quotes(issuer) + " is not signed by it", {},
                        "fetch it again from the authority");
        const ASN1_TIME* next = X509_CRL_get0_nextUpdate(list.get());
        read.push_back({issuer, next == nullptr ? std::nullopt : std::optional(seconds_of(next))});
    }
    return read;
}

namespace {

std::string fault_by_lists(const CertificateFacts& certificate, const std::vector<CertificateFacts>& between,
                           std::string_view authorities_pem, std::string_view file, Finding finding) {
    const std::vector<ListOwner> lists = read_lists(file);
    const ListStack stack(sk_X509_CRL_new_null());
    must(stack != nullptr, "start a list");
    for (const ListOwner& one : lists) must(sk_X509_CRL_push(stack.get(), one.get()) > 0, "add to a list");
    const int error = vouching_error(certificate, between, authorities_pem, [&](X509_STORE_CTX* context) {
        // Of several lists by one issuer the newest counts, whenever that was; the dates of certificates were seen to.
        X509_VERIFY_PARAM_set_flags(X509_STORE_CTX_get0_param(context),
                                    X509_V_FLAG_CRL_CHECK | X509_V_FLAG_CRL_CHECK_ALL | X509_V_FLAG_NO_CHECK_TIME);
        X509_STORE_CTX_set0_crls(context, stack.get());
        X509_STORE_CTX_set_app_data(context, &finding);
        X509_STORE_CTX_set_verify_cb(context, judge_step);
    });
    // not reached: what fails is put into words by the step
    if (error != X509_V_OK && finding.fault.empty()) return X509_verify_cert_error_string(error);
    return finding.fault;
}

}  // namespace

std::string revocation_fault(const CertificateFacts& certificate, const std::vector<CertificateFacts>& between,
                             std::string_view authorities_pem, std::string_view file, const SealTime& sealed) {
    return fault_by_lists(certificate, between, authorities_pem, file, {sealed, {}, false});
}

std::string clock_revocation_fault(const CertificateFacts& authority, std::string_view authorities_pem,
                                   std::string_view file, std::int64_t stamped) {
    return fault_by_lists(authority, {}, authorities_pem, file, {{stamped, true}, {}, true});
}

}  // namespace rigdeed::crypto
