// The form, from RFC 5652: ContentInfo { signedData, [0] SignedData { 1, {sha256}, {data}, [0] certificate,
// { SignerInfo { 1, issuer and serial, sha256, [0] signed attributes, algorithm, signature } } } }.
// With a timestamp, [1] { timeStampToken, { token } } follows the signature.
// All of it follows from the content's digest, the certificate, the signature and the token. So a CMS is examined by
// writing it again from these and comparing the bytes: nothing in it can then differ without being noticed.
#include "crypto/cms.hpp"

#include <openssl/err.h>

#include <algorithm>

#include "crypto/der.hpp"
#include "crypto/digest.hpp"
#include "crypto/keys.hpp"

namespace rigdeed::crypto {
namespace {

using der::element;

constexpr std::string_view oid_data{"\x2A\x86\x48\x86\xF7\x0D\x01\x07\x01", 9};
constexpr std::string_view oid_signed_data{"\x2A\x86\x48\x86\xF7\x0D\x01\x07\x02", 9};
constexpr std::string_view oid_content_type{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x03", 9};
constexpr std::string_view oid_message_digest{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x04", 9};
constexpr std::string_view oid_signing_certificate_v2{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x10\x02\x2F", 11};
constexpr std::string_view oid_timestamp{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x10\x02\x0E", 11};
constexpr std::string_view oid_sha256{"\x60\x86\x48\x01\x65\x03\x04\x02\x01", 9};
constexpr std::string_view oid_rsa{"\x2A\x86\x48\x86\xF7\x0D\x01\x01\x01", 9};
constexpr std::string_view oid_ecdsa_with_sha256{"\x2A\x86\x48\xCE\x3D\x04\x03\x02", 8};
constexpr std::string_view version_1{"\x01", 1};

std::string text_of(const Bytes& bytes) { return std::string(as_text(bytes)); }

std::string_view view_of(const Digest& digest) {
    return {reinterpret_cast<const char*>(digest.bytes.data()), digest.bytes.size()};
}

// What a CMS needs of a certificate.
struct Certificate {
    std::string der;
    std::string issuer;
    std::string serial;
    Digest digest;
    KeyKind kind = KeyKind::other;
};

Certificate certificate_of(const X509* certificate, const CertificateFacts& facts) {
    return {text_of(facts.der), text_of(der_of(X509_get_issuer_name(certificate), i2d_X509_NAME)),
            text_of(der_of(X509_get0_serialNumber(certificate), i2d_ASN1_INTEGER)), facts.fingerprint,
            kind_of(X509_get0_pubkey(certificate))};
}

std::string attribute(std::string_view kind, std::string_view value) {
    return element(der::sequence, element(der::oid, kind) + element(der::set, value));
}

// RFC 5035: the certificate's SHA-256 (the default, so not named), its issuer and serial number.
std::string signing_certificate(const Certificate& certificate) {
    const std::string names = element(der::sequence, element(der::context4, certificate.issuer));
    const std::string identity =
        element(der::octets, view_of(certificate.digest)) + element(der::sequence, names + certificate.serial);
    return element(der::sequence, element(der::sequence, element(der::sequence, identity)));
}

std::string signed_attributes(const Certificate& certificate, const Digest& content) {
    std::array attributes{attribute(oid_content_type, element(der::oid, oid_data)),
                          attribute(oid_message_digest, element(der::octets, view_of(content))),
                          attribute(oid_signing_certificate_v2, signing_certificate(certificate))};
    std::sort(attributes.begin(), attributes.end(), [](const std::string& a, const std::string& b) {
        return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) {
            return static_cast<unsigned char>(x) < static_cast<unsigned char>(y);
        });
    });
    return attributes[0] + attributes[1] + attributes[2];
}

std::string whole(const Certificate& certificate, std::string_view attributes, std::string_view signature,
                  std::string_view token) {
    const std::string unsigned_part =
        token.empty() ? std::string() : element(der::context1, attribute(oid_timestamp, token));
    const std::string sha256_name = element(der::sequence, element(der::oid, oid_sha256));
    const std::string algorithm = certificate.kind == KeyKind::rsa
                                      ? element(der::sequence, element(der::oid, oid_rsa) + element(der::null, {}))
                                      : element(der::sequence, element(der::oid, oid_ecdsa_with_sha256));
    const std::string signer_info =
        element(der::sequence, element(der::integer, version_1) +
                                   element(der::sequence, certificate.issuer + certificate.serial) + sha256_name +
                                   element(der::context0, attributes) + algorithm + element(der::octets, signature) +
                                   unsigned_part);
    const std::string signed_data =
        element(der::sequence, element(der::integer, version_1) + element(der::set, sha256_name) +
                                   element(der::sequence, element(der::oid, oid_data)) +
                                   element(der::context0, certificate.der) + element(der::set, signer_info));
    return element(der::sequence, element(der::oid, oid_signed_data) + element(der::context0, signed_data));
}

// The parts of a CMS that the examination looks at one by one.
struct Parts {
    std::vector<der::Element> content_info;  // of the encapsulated content
    std::vector<der::Element> certificates;
    std::vector<der::Element> signers;
};

std::optional<Parts> parts_of(std::string_view bytes) {
    const auto outer = der::only(bytes, der::sequence);
    if (!outer) return std::nullopt;
    const auto info = der::elements(outer->content);
    if (!info || info->size() != 2 || (*info)[0].content != oid_signed_data || (*info)[1].tag != der::context0)
        return std::nullopt;
    const auto data = der::only((*info)[1].content, der::sequence);
    const auto fields = data ? der::elements(data->content) : std::nullopt;
    if (!fields || fields->size() < 4 || (*fields)[2].tag != der::sequence || fields->back().tag != der::set)
        return std::nullopt;
    const auto content_info = der::elements((*fields)[2].content);
    const auto signers = der::elements(fields->back().content);
    const bool has_certificates = fields->size() == 5 && (*fields)[3].tag == der::context0;
    const auto certificates = has_certificates ? der::elements((*fields)[3].content) : std::vector<der::Element>{};
    if (!content_info || !signers || !certificates) return std::nullopt;
    return Parts{*content_info, *certificates, *signers};
}

// The value of the message-digest attribute, if there is exactly one attribute of that kind.
std::optional<std::string_view> message_digest(const der::Element& attributes) {
    const auto list = der::elements(attributes.content);
    std::optional<std::string_view> found;
    if (!list) return std::nullopt;
    for (const der::Element& one : *list) {
        const auto fields = der::elements(one.content);
        if (!fields || fields->size() != 2 || (*fields)[0].content != oid_message_digest) continue;
        const auto value = der::only((*fields)[1].content, der::octets);
        if (!value || found) return std::nullopt;
        found = value->content;
    }
    return found;
}

// The token, if the unsigned part is a timestamp alone.
std::optional<std::string_view> timestamp_token(const der::Element& unsigned_part) {
    const auto list = der::elements(unsigned_part.content);
    const auto fields = list && list->size() == 1 ? der::elements((*list)[0].content) : std::nullopt;
    if (unsigned_part.tag != der::context1 || !fields || fields->size() != 2 || (*fields)[0].content != oid_timestamp)
        return std::nullopt;
    const auto token = der::only((*fields)[1].content, der::sequence);
    return token ? std::optional(token->whole) : std::nullopt;
}

CmsFinding examine_signer(std::string_view bytes, const Digest& content, const der::Element& signer,
                          CmsFinding finding) {
    const auto fault = [&](CmsFault kind, const char* what) {
        finding.fault = kind;
        finding.what = what;
        return finding;
    };
    const auto fields = der::elements(signer.content);
    if (!fields || fields->size() < 6 || (*fields)[3].tag != der::context0 || (*fields)[5].tag != der::octets)
        return fault(CmsFault::form, "the signer's part of the signature has not the form we write");
    const auto token = fields->size() == 7 ? timestamp_token((*fields)[6]) : std::string_view();
    if (fields->size() > 7 || !token)
        return fault(CmsFault::unsigned_part, "the signature carries attributes that nothing signs");
    const auto digest = message_digest((*fields)[3]);
    if (!digest) return fault(CmsFault::form, "the signature does not name the digest of the content once");
    if (*digest != view_of(content)) return fault(CmsFault::digest, "the content is not what was signed");

    const CertificateOwner x509 = parse_certificate(as_text(finding.certificate->der));
    const Certificate certificate = certificate_of(x509.get(), *finding.certificate);
    if (certificate.kind == KeyKind::other)
        return fault(CmsFault::key, "the certificate's key is of a kind we do not verify with");
    const std::string attributes = signed_attributes(certificate, content);
    const std::string_view signature = (*fields)[5].content;
    if (whole(certificate, attributes, signature, *token) != bytes)
        return fault(CmsFault::form, "the signature is not encoded the one way we write it");
    if (!is_signed_by(X509_get0_pubkey(x509.get()), element(der::set, attributes), signature))
        return fault(CmsFault::signature, "the signature does not fit the certificate's key");
    if (!token->empty()) {
        TimestampFinding stamped = examine_timestamp(*token, sha256(signature));
        if (!stamped.timestamp) return fault(CmsFault::timestamp, stamped.what.c_str());
        finding.timestamp = std::move(stamped.timestamp);
    }
    return fault(CmsFault::none, "");
}

}  // namespace

Bytes make_cms(const Signer& signer, const Digest& content, const Stamp& stamp) {
    const Signer::Keys& keys = signer.keys();
    const Certificate certificate = certificate_of(keys.certificate.get(), keys.facts);
    const std::string attributes = signed_attributes(certificate, content);
    const Bytes signature = sign(keys.key.get(), element(der::set, attributes));
    const Bytes token = stamp ? stamp(sha256(signature)) : Bytes();
    return to_bytes(whole(certificate, attributes, as_text(signature), as_text(token)));
}

CmsFinding examine_cms(std::string_view der, const Digest& content) {
    const auto parts = parts_of(der);
    if (!parts) return {CmsFault::encoding, "the signature is not a CMS in DER", {}};
    if (parts->content_info.size() != 1) return {CmsFault::content, "the signature carries content of its own", {}};
    if (parts->certificates.size() != 1)
        return {CmsFault::certificates, "the signature does not carry exactly one certificate", {}};
    const CertificateOwner x509 = parse_certificate(parts->certificates[0].whole);
    ERR_clear_error();
    if (!x509 || X509_get_issuer_name(x509.get()) == nullptr || X509_get0_serialNumber(x509.get()) == nullptr)
        return {CmsFault::certificates, "the certificate in the signature cannot be read", {}};
    const CmsFinding begun{CmsFault::signers, "the signature does not have exactly one signer", facts_of(x509.get())};
    if (parts->signers.size() != 1) return begun;
    return examine_signer(der, content, parts->signers[0], begun);
}

}  // namespace rigdeed::crypto
