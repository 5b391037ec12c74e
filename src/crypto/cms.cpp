// The form, from RFC 5652: ContentInfo { signedData, [0] SignedData { 1, {sha256}, {data}, [0] certificates,
// { SignerInfo { 1, issuer and serial, sha256, [0] signed attributes, algorithm, signature } } } }.
// With a timestamp, [1] { timeStampToken, { token } } follows the signature.
// The certificates are a SET OF, so DER wants them in the order of their bytes (X.690, 11.6); which is the signer's and
// which lead from it to its root, the signed attribute signing-certificate-v2 says, in that order.
// All of it follows from the content's digest, the certificates, the signature and the token. So a CMS is examined by
// writing it again from these and comparing the bytes: nothing in it can then differ without being noticed.
#include "crypto/cms.hpp"

#include <openssl/err.h>

#include <algorithm>

#include "crypto/chain.hpp"
#include "crypto/der.hpp"
#include "crypto/digest.hpp"
#include "crypto/keys.hpp"
#include "crypto/oids.hpp"

namespace rigdeed::crypto {
namespace {

using der::element;

std::string text_of(const Bytes& bytes) { return std::string(as_text(bytes)); }

std::string_view view_of(const Digest& digest) {
    return {reinterpret_cast<const char*>(digest.bytes.data()), digest.bytes.size()};
}

// What a CMS needs of a certificate.
struct Certificate {
    std::string der;
    std::string issuer;
    std::string serial;
    std::string name;  // issuer and serial number
    Digest digest;
    KeyKind kind = KeyKind::other;
};

// The signer's first, then upwards.
using Chain = std::vector<Certificate>;

// DER's order of a SET OF.
template <class List>
std::string in_der_order(List pieces) {
    std::sort(pieces.begin(), pieces.end(), [](std::string_view a, std::string_view b) {
        return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) {
            return static_cast<unsigned char>(x) < static_cast<unsigned char>(y);
        });
    });
    std::string all;
    for (const std::string_view piece : pieces) all += piece;
    return all;
}

Certificate certificate_of(const X509* certificate) {
    const Bytes der = der_of(certificate, i2d_X509);
    return {text_of(der),
            text_of(der_of(X509_get_issuer_name(certificate), i2d_X509_NAME)),
            text_of(der_of(X509_get0_serialNumber(certificate), i2d_ASN1_INTEGER)),
            name_of(certificate),
            sha256(der),
            kind_of(X509_get0_pubkey(certificate))};
}

std::string attribute(std::string_view kind, std::string_view value) {
    return element(der::sequence, element(der::oid, kind) + element(der::set, value));
}

// RFC 5035: each certificate's SHA-256 (the default, so not named), its issuer and serial number.
std::string signing_certificate(const Chain& chain) {
    std::string identities;
    for (const Certificate& one : chain) {
        const std::string names = element(der::sequence, element(der::context4, one.issuer));
        identities += element(der::sequence,
                              element(der::octets, view_of(one.digest)) + element(der::sequence, names + one.serial));
    }
    return element(der::sequence, element(der::sequence, identities));
}

std::string signed_attributes(const Chain& chain, const Digest& content) {
    return in_der_order(std::array{attribute(oid::content_type, element(der::oid, oid::data)),
                                   attribute(oid::message_digest, element(der::octets, view_of(content))),
                                   attribute(oid::signing_certificate_v2, signing_certificate(chain))});
}

std::string whole(const Chain& chain, std::string_view attributes, std::string_view signature, std::string_view token) {
    const Certificate& certificate = chain.front();
    std::vector<std::string_view> certificates;
    for (const Certificate& one : chain) certificates.push_back(one.der);
    const std::string unsigned_part =
        token.empty() ? std::string() : element(der::context1, attribute(oid::timestamp, token));
    const std::string sha256_name = element(der::sequence, element(der::oid, oid::sha256));
    const std::string algorithm = certificate.kind == KeyKind::rsa
                                      ? element(der::sequence, element(der::oid, oid::rsa) + element(der::null, {}))
                                      : element(der::sequence, element(der::oid, oid::ecdsa_with_sha256));
    const std::string signer_info =
        element(der::sequence, element(der::integer, der::version_1) + certificate.name + sha256_name +
                                   element(der::context0, attributes) + algorithm + element(der::octets, signature) +
                                   unsigned_part);
    const std::string signed_data =
        element(der::sequence, element(der::integer, der::version_1) + element(der::set, sha256_name) +
                                   element(der::sequence, element(der::oid, oid::data)) +
                                   element(der::context0, in_der_order(certificates)) + element(der::set, signer_info));
    return element(der::sequence, element(der::oid, oid::signed_data) + element(der::context0, signed_data));
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
    if (!info || info->size() != 2 || (*info)[0].content != oid::signed_data || (*info)[1].tag != der::context0)
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
        if (!fields || fields->size() != 2 || (*fields)[0].content != oid::message_digest) continue;
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
    if (unsigned_part.tag != der::context1 || !fields || fields->size() != 2 || (*fields)[0].content != oid::timestamp)
        return std::nullopt;
    const auto token = der::only((*fields)[1].content, der::sequence);
    return token ? std::optional(token->whole) : std::nullopt;
}

// Every certificate carried; nothing if one cannot be read.
std::vector<CertificateOwner> read_certificates(const std::vector<der::Element>& carried) {
    std::vector<CertificateOwner> read;
    for (const der::Element& one : carried) {
        read.push_back(parse_named(one.whole));
        if (!read.back()) return {};
    }
    return read;
}

// The certificate by which the signature is, then those that lead from it to its root; nothing if there is none.
std::vector<CertificateOwner> chain_of(std::vector<CertificateOwner> carried, std::string_view signer_name) {
    const auto signer = std::find_if(carried.begin(), carried.end(),
                                     [&](const CertificateOwner& one) { return name_of(one.get()) == signer_name; });
    if (signer == carried.end()) return {};
    std::vector<CertificateOwner> chain;
    chain.push_back(std::move(*signer));
    carried.erase(signer);
    for (const std::size_t next : path_from(chain.front().get(), carried)) chain.push_back(std::move(carried[next]));
    return chain;
}

CmsFinding with_fault(CmsFinding finding, CmsFault fault, std::string what) {
    finding.fault = fault;
    finding.what = std::move(what);
    return finding;
}

// What is wrong with the signature; `x509` is the chain, the signer's certificate first.
CmsFinding examine_signer(std::string_view bytes, const Digest& content, const std::vector<der::Element>& fields,
                          const std::vector<CertificateOwner>& x509, const CmsFinding& finding) {
    const auto token = fields.size() == 7 ? timestamp_token(fields[6]) : std::string_view();
    if (fields.size() > 7 || !token)
        return with_fault(finding, CmsFault::unsigned_part, "the signature carries attributes that nothing signs");
    const auto digest = message_digest(fields[3]);
    if (!digest)
        return with_fault(finding, CmsFault::form, "the signature does not name the digest of the content once");
    if (*digest != view_of(content)) return with_fault(finding, CmsFault::digest, "the content is not what was signed");

    Chain chain;
    for (const CertificateOwner& one : x509) chain.push_back(certificate_of(one.get()));
    if (!is_for_signers(chain.front().kind))
        return with_fault(finding, CmsFault::key, "the certificate's key is of a kind we do not verify with");
    const std::string attributes = signed_attributes(chain, content);
    const std::string_view signature = fields[5].content;
    if (whole(chain, attributes, signature, *token) != bytes)
        return with_fault(finding, CmsFault::form, "the signature is not encoded the one way we write it");
    EVP_PKEY* key = X509_get0_pubkey(x509.front().get());
    if (!is_signed_by(key, EVP_sha256(), element(der::set, attributes), signature))
        return with_fault(finding, CmsFault::signature, "the signature does not fit the certificate's key");

    CmsFinding good = with_fault(finding, CmsFault::none, {});
    for (std::size_t i = 1; i < x509.size(); ++i) good.chain.push_back(facts_of(x509[i].get()));
    good.signature = to_bytes(signature);
    good.token = to_bytes(*token);
    if (token->empty()) return good;
    TimestampFinding stamped = examine_timestamp(*token, sha256(signature));
    if (!stamped.timestamp) return with_fault(finding, CmsFault::timestamp, stamped.what);
    good.timestamp = std::move(stamped.timestamp);
    return good;
}

}  // namespace

Bytes make_cms(const Signer& signer, const Digest& content, const Stamp& stamp) {
    const Signer::Keys& keys = signer.keys();
    Chain chain{certificate_of(keys.certificate.get())};
    for (const CertificateOwner& one : keys.chain) chain.push_back(certificate_of(one.get()));
    const std::string attributes = signed_attributes(chain, content);
    const Bytes signature = sign(keys.key.get(), element(der::set, attributes));
    const Bytes token = stamp ? stamp(sha256(signature)) : Bytes();
    return to_bytes(whole(chain, attributes, as_text(signature), as_text(token)));
}

bool is_cms_of(std::string_view der, const Digest& content, const std::vector<Bytes>& certificates,
               std::string_view signature, std::string_view token) {
    Chain chain;
    CertificateOwner signer;
    for (const Bytes& bytes : certificates) {
        CertificateOwner certificate = parse_named(as_text(bytes));
        if (!certificate) return false;
        chain.push_back(certificate_of(certificate.get()));
        if (!signer) signer = std::move(certificate);
    }
    if (chain.empty() || !is_for_signers(chain.front().kind)) return false;
    const std::string attributes = signed_attributes(chain, content);
    return whole(chain, attributes, signature, token) == der &&
           is_signed_by(X509_get0_pubkey(signer.get()), EVP_sha256(), element(der::set, attributes), signature);
}

CmsFinding examine_cms(std::string_view der, const Digest& content) {
    CmsFinding finding;
    const auto parts = parts_of(der);
    if (!parts) return with_fault(finding, CmsFault::encoding, "the signature is not a CMS in DER");
    if (parts->content_info.size() != 1)
        return with_fault(finding, CmsFault::content, "the signature carries content of its own");
    const std::size_t count = parts->certificates.size();
    if (count == 0 || count > 1 + most_between)
        return with_fault(finding, CmsFault::certificates, "the signature does not carry a certificate and its chain");
    std::vector<CertificateOwner> carried = read_certificates(parts->certificates);
    if (carried.empty())
        return with_fault(finding, CmsFault::certificates, "a certificate in the signature cannot be read");
    finding.certificate = facts_of(carried.front().get());
    if (parts->signers.size() != 1)
        return with_fault(finding, CmsFault::signers, "the signature does not have exactly one signer");
    const auto fields = der::elements(parts->signers[0].content);
    if (!fields || fields->size() < 6 || (*fields)[3].tag != der::context0 || (*fields)[5].tag != der::octets)
        return with_fault(finding, CmsFault::form, "the signer's part of the signature has not the form we write");
    const std::vector<CertificateOwner> chain = chain_of(std::move(carried), (*fields)[1].whole);
    if (chain.empty())
        return with_fault(finding, CmsFault::form, "the signature lacks the certificate it names as the signer's");
    finding.certificate = facts_of(chain.front().get());
    if (chain.size() != count)
        return with_fault(finding, CmsFault::certificates,
                          "the signature carries a certificate that is not of its signer's chain");
    return examine_signer(der, content, *fields, chain, finding);
}

}  // namespace rigdeed::crypto
