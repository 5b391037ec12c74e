// What the signature of a token does not cover follows from the certificate, and the certificate is named by its digest
// in a signed attribute. So a token is examined by writing it again, as a CMS of our own is. That is why the
// authority's own certificate is the only one in it: those between it and its root are named nowhere that is signed.
#include "crypto/timestamp.hpp"

#include "crypto/oids.hpp"
#include "crypto/timestamp_token.hpp"

namespace rigdeed::crypto {
namespace {

using der::element;

std::string digest_with(const EVP_MD* kind, std::string_view bytes) {
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned size = 0;
    must(EVP_Digest(bytes.data(), bytes.size(), digest.data(), &size, kind, nullptr) == 1, "digest");
    return {reinterpret_cast<const char*>(digest.data()), size};
}

// The value of the one attribute of this kind.
std::optional<der::Element> attribute(std::string_view attributes, std::string_view kind) {
    std::optional<der::Element> found;
    for (const der::Element& one : der::elements(attributes).value_or(Elements{})) {
        const Elements fields = inside(one);
        if (fields.size() != 2 || fields[0].content != kind) continue;
        const Elements values = inside(fields[1]);
        if (found || values.size() != 1 || fields[1].tag != der::set) return std::nullopt;
        found = values[0];
    }
    return found;
}

// RFC 2634 and RFC 5035: the first certificate named, by its digest.
bool names_certificate(std::string_view attributes, std::string_view certificate) {
    const auto newer = attribute(attributes, oid::signing_certificate_v2);
    const auto value = newer ? newer : attribute(attributes, oid::signing_certificate);
    const Elements lists = value ? inside(*value) : Elements{};
    const Elements identities = lists.empty() ? Elements{} : inside(lists[0]);
    const Elements fields = identities.empty() ? Elements{} : inside(identities[0]);
    if (is(fields, 0, der::octets))
        return fields[0].content == digest_with(newer ? EVP_sha256() : EVP_sha1(), certificate);
    if (!newer || !is(fields, 0, der::sequence) || !is(fields, 1, der::octets)) return false;
    const Elements kind = inside(fields[0]);
    const EVP_MD* named = kind.empty() ? nullptr : digest_named(kind[0].content);
    return named != nullptr && fields[1].content == digest_with(named, certificate);
}

// RFC 3161, 2.3: extended key usage is critical, and timeStamping alone.
bool is_for_timestamps(X509* certificate) {
    const int at = X509_get_ext_by_NID(certificate, NID_ext_key_usage, -1);
    return at >= 0 && X509_EXTENSION_get_critical(X509_get_ext(certificate, at)) == 1 &&
           X509_get_extended_key_usage(certificate) == XKU_TIMESTAMP;
}

bool is_our_way(const EVP_PKEY* key, const EVP_MD* digest) {
    constexpr int largest_rsa = 4096;
    const KeyKind kind = kind_of(key);
    return digest != nullptr && kind != KeyKind::other &&
           (kind != KeyKind::rsa || EVP_PKEY_get_bits(key) <= largest_rsa);
}

// What is wrong with what a token says, once its form and its certificate are known.
std::string content_fault(const Token& token, X509* certificate, std::string_view der) {
    EVP_PKEY* key = X509_get0_pubkey(certificate);
    const EVP_MD* kind = digest_named(token.digest);
    if (!is_our_way(key, kind))
        return std::string("the timestamp is signed in a way we do not verify: ") + ways_we_verify;
    const auto content = attribute(token.attributes, oid::content_type);
    const auto digest = attribute(token.attributes, oid::message_digest);
    if (!content || content->content != oid::tst_info || !digest || digest->content != digest_with(kind, token.info))
        return "the timestamp's content is not what was signed";
    if (!names_certificate(token.attributes, der)) return "the timestamp is by another certificate";
    if (!is_signed_by(key, kind, element(der::set, token.attributes), token.signature))
        return "the timestamp's signature does not fit its certificate's key";
    if (!is_for_timestamps(certificate)) return "the timestamp's certificate is not for timestamps alone";
    return {};
}

}  // namespace

TimestampFinding examine_timestamp(std::string_view bytes, const Digest& stamped) {
    const auto token = token_of(bytes);
    if (!token) return {"the timestamp is not a token in DER", {}};
    if (token->certificates.size() != 1) return {"the timestamp does not carry exactly one certificate", {}};
    const std::string_view der = token->certificates[0].whole;
    const CertificateOwner certificate = parse_named(der);
    if (!certificate) return {"the timestamp's certificate cannot be read", {}};
    const KeyKind kind = kind_of(X509_get0_pubkey(certificate.get()));
    if (token->signer_name != name_of(certificate.get()) || write_token(*token, der, kind, token->signature) != bytes)
        return {"the timestamp is not encoded the one way we write it", {}};
    const auto info = read_info(token->info);
    if (!info) return {"the timestamp's content cannot be read", {}};
    if (info->imprint != std::string_view(reinterpret_cast<const char*>(stamped.bytes.data()), stamped.bytes.size()))
        return {"the timestamp is for another signature", {}};
    if (std::string fault = content_fault(*token, certificate.get(), der); !fault.empty()) return {fault, {}};
    Timestamp timestamp{info->at, info->accuracy, facts_of(certificate.get())};
    if (!timestamp.authority.valid_at(info->at))
        return {"the timestamp's certificate was not valid at the time it states", {}};
    return {{}, std::move(timestamp)};
}

}  // namespace rigdeed::crypto
