// The form, from RFC 5652 and RFC 3161: ContentInfo { signedData, [0] SignedData { 3, {digest}, { tSTInfo, [0] TSTInfo
// }, [0] certificate, { SignerInfo { 1, issuer and serial, digest, [0] signed attributes, rsaEncryption, signature } }
// } }. What the signature does not cover follows from the certificate, and the certificate is named by its digest in a
// signed attribute. So a token is examined by writing it again, as a CMS of our own is.
#include "crypto/timestamp.hpp"

#include <openssl/err.h>
#include <openssl/rand.h>

#include "base/date.hpp"
#include "base/http.hpp"
#include "crypto/der.hpp"
#include "crypto/digest.hpp"
#include "crypto/openssl.hpp"

namespace rigdeed::crypto {
namespace {

using der::element;

constexpr std::string_view oid_signed_data{"\x2A\x86\x48\x86\xF7\x0D\x01\x07\x02", 9};
constexpr std::string_view oid_content_type{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x03", 9};
constexpr std::string_view oid_message_digest{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x04", 9};
constexpr std::string_view oid_tst_info{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x10\x01\x04", 11};
constexpr std::string_view oid_signing_certificate{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x10\x02\x0C", 11};
constexpr std::string_view oid_signing_certificate_v2{"\x2A\x86\x48\x86\xF7\x0D\x01\x09\x10\x02\x2F", 11};
constexpr std::string_view oid_sha256{"\x60\x86\x48\x01\x65\x03\x04\x02\x01", 9};
constexpr std::string_view oid_sha384{"\x60\x86\x48\x01\x65\x03\x04\x02\x02", 9};
constexpr std::string_view oid_sha512{"\x60\x86\x48\x01\x65\x03\x04\x02\x03", 9};
constexpr std::string_view oid_rsa{"\x2A\x86\x48\x86\xF7\x0D\x01\x01\x01", 9};
constexpr std::string_view version_1{"\x01", 1};
constexpr std::string_view version_3{"\x03", 1};

using Elements = std::vector<der::Element>;

Elements inside(const der::Element& one) { return der::elements(one.content).value_or(Elements{}); }

bool is(const Elements& list, std::size_t at, unsigned char tag) { return at < list.size() && list[at].tag == tag; }

std::string digest_with(const EVP_MD* kind, std::string_view bytes) {
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned size = 0;
    must(EVP_Digest(bytes.data(), bytes.size(), digest.data(), &size, kind, nullptr) == 1, "digest");
    return {reinterpret_cast<const char*>(digest.data()), size};
}

const EVP_MD* digest_named(std::string_view oid) {
    if (oid == oid_sha256) return EVP_sha256();
    if (oid == oid_sha384) return EVP_sha384();
    if (oid == oid_sha512) return EVP_sha512();
    return nullptr;
}

// The parts of a token from which all of it follows.
struct Token {
    std::string_view info;  // TSTInfo
    Elements certificates;
    std::string_view signer_name;  // issuer and serial number
    std::string_view digest;       // the object identifier of its kind
    std::string_view attributes;
    std::string_view signature;
};

std::optional<Token> parts_of(std::string_view bytes) {
    const auto outer = der::only(bytes, der::sequence);
    const Elements info = outer ? inside(*outer) : Elements{};
    if (info.size() != 2 || info[0].content != oid_signed_data) return std::nullopt;
    const Elements wrapped = inside(info[1]);
    const Elements data = wrapped.size() == 1 ? inside(wrapped[0]) : Elements{};
    if (data.size() < 5 || data.size() > 6 || !is(data, 3, der::context0)) return std::nullopt;
    const Elements content = inside(data[2]), signers = inside(data.back());
    if (content.size() != 2 || content[0].content != oid_tst_info || signers.size() != 1) return std::nullopt;
    const auto octets = der::only(content[1].content, der::octets);
    const Elements signer = inside(signers[0]);
    if (!octets || signer.size() < 6 || !is(signer, 1, der::sequence) || !is(signer, 3, der::context0) ||
        !is(signer, 5, der::octets))
        return std::nullopt;
    const Elements digest = inside(signer[2]);
    if (!is(digest, 0, der::oid)) return std::nullopt;
    return Token{octets->content,   inside(data[3]),   signer[1].whole,
                 digest[0].content, signer[3].content, signer[5].content};
}

std::string whole(const Token& token, std::string_view certificate) {
    const std::string digest = element(der::sequence, element(der::oid, token.digest));
    const std::string signer =
        element(der::sequence, element(der::integer, version_1) + std::string(token.signer_name) + digest +
                                   element(der::context0, token.attributes) +
                                   element(der::sequence, element(der::oid, oid_rsa) + element(der::null, {})) +
                                   element(der::octets, token.signature));
    const std::string content = element(
        der::sequence, element(der::oid, oid_tst_info) + element(der::context0, element(der::octets, token.info)));
    const std::string data =
        element(der::sequence, element(der::integer, version_3) + element(der::set, digest) + content +
                                   element(der::context0, certificate) + element(der::set, signer));
    return element(der::sequence, element(der::oid, oid_signed_data) + element(der::context0, data));
}

std::string name_of(const X509* certificate) {
    return element(der::sequence,
                   std::string(as_text(der_of(X509_get_issuer_name(certificate), i2d_X509_NAME))) +
                       std::string(as_text(der_of(X509_get0_serialNumber(certificate), i2d_ASN1_INTEGER))));
}

bool is_readable(const X509* certificate) {
    return certificate != nullptr && X509_get_issuer_name(certificate) != nullptr &&
           X509_get0_serialNumber(certificate) != nullptr;
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
    const auto newer = attribute(attributes, oid_signing_certificate_v2);
    const auto value = newer ? newer : attribute(attributes, oid_signing_certificate);
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

// 20261125151500Z, with or without a fraction of the second (RFC 3161, 2.4.2).
std::optional<std::int64_t> seconds_of(std::string_view time) {
    if (time.size() < 15 || time.back() != 'Z') return std::nullopt;
    const std::string_view fraction = time.substr(14, time.size() - 15);
    if (!fraction.empty() && (fraction.size() < 2 || fraction[0] != '.' ||
                              fraction.find_first_not_of("0123456789", 1) != std::string_view::npos))
        return std::nullopt;
    const auto number = [&](std::size_t at, std::size_t count) {
        return read_digits(time.substr(at, count)).value_or(-1);
    };
    const int hour = number(8, 2), minute = number(10, 2), second = number(12, 2);
    const LocalTime utc{{number(0, 4), number(4, 2), number(6, 2)}, {hour * 3600 + minute * 60 + second}};
    if (!exists(utc.date) || hour < 0 || hour > 23 || minute < 0 || minute > 59 || second < 0 || second > 59)
        return std::nullopt;
    return seconds_since_epoch(utc);
}

struct Info {
    std::string_view imprint;
    std::int64_t at = 0;
    std::optional<std::string_view> nonce;
};

std::optional<Info> read_info(std::string_view bytes) {
    constexpr unsigned char generalized_time = 0x18;
    const auto outer = der::only(bytes, der::sequence);
    const Elements fields = outer ? inside(*outer) : Elements{};
    if (fields.size() < 5 || fields[0].whole != element(der::integer, version_1) || !is(fields, 2, der::sequence) ||
        !is(fields, 4, generalized_time))
        return std::nullopt;
    const Elements imprint = inside(fields[2]);
    if (imprint.size() != 2 || !is(imprint, 0, der::sequence) || !is(imprint, 1, der::octets)) return std::nullopt;
    const Elements kind = inside(imprint[0]);
    const auto at = seconds_of(fields[4].content);
    if (kind.empty() || kind[0].content != oid_sha256 || !at) return std::nullopt;
    Info info{imprint[1].content, *at, {}};
    for (std::size_t i = 5; i < fields.size(); ++i)
        if (fields[i].tag == der::integer) info.nonce = fields[i].content;
    return info;
}

// RFC 3161, 2.3: extended key usage is critical, and timeStamping alone.
bool is_for_timestamps(X509* certificate) {
    const int at = X509_get_ext_by_NID(certificate, NID_ext_key_usage, -1);
    return at >= 0 && X509_EXTENSION_get_critical(X509_get_ext(certificate, at)) == 1 &&
           X509_get_extended_key_usage(certificate) == XKU_TIMESTAMP;
}

bool fits(EVP_PKEY* key, const EVP_MD* kind, std::string_view message, std::string_view signature) {
    const auto data = [](std::string_view text) { return reinterpret_cast<const unsigned char*>(text.data()); };
    const DigestContext context(EVP_MD_CTX_new());
    const bool good =
        context && EVP_DigestVerifyInit(context.get(), nullptr, kind, nullptr, key) == 1 &&
        EVP_DigestVerify(context.get(), data(signature), signature.size(), data(message), message.size()) == 1;
    ERR_clear_error();
    return good;
}

}  // namespace

TimestampFinding examine_timestamp(std::string_view bytes, const Digest& stamped) {
    const auto token = parts_of(bytes);
    if (!token) return {"the timestamp is not a token in DER", {}};
    if (token->certificates.size() != 1) return {"the timestamp does not carry exactly one certificate", {}};
    const std::string_view der = token->certificates[0].whole;
    const CertificateOwner certificate = parse_certificate(der);
    ERR_clear_error();
    if (!is_readable(certificate.get())) return {"the timestamp's certificate cannot be read", {}};
    Timestamp timestamp{0, facts_of(certificate.get())};
    if (token->signer_name != name_of(certificate.get()) || whole(*token, der) != bytes)
        return {"the timestamp is not encoded the one way we write it", {}};
    const auto info = read_info(token->info);
    if (!info) return {"the timestamp's content cannot be read", {}};
    if (info->imprint != std::string_view(reinterpret_cast<const char*>(stamped.bytes.data()), stamped.bytes.size()))
        return {"the timestamp is for another signature", {}};
    EVP_PKEY* key = X509_get0_pubkey(certificate.get());
    const EVP_MD* kind = digest_named(token->digest);
    if (kind == nullptr || kind_of(key) != KeyKind::rsa)
        return {"the timestamp is signed in a way we do not verify: RSA with SHA-256, 384 or 512 it must be", {}};
    const auto content = attribute(token->attributes, oid_content_type);
    const auto digest = attribute(token->attributes, oid_message_digest);
    if (!content || content->content != oid_tst_info || !digest || digest->content != digest_with(kind, token->info))
        return {"the timestamp's content is not what was signed", {}};
    if (!names_certificate(token->attributes, der)) return {"the timestamp is by another certificate", {}};
    if (!fits(key, kind, element(der::set, token->attributes), token->signature))
        return {"the timestamp's signature does not fit its certificate's key", {}};
    if (!is_for_timestamps(certificate.get())) return {"the timestamp's certificate is not for timestamps alone", {}};
    timestamp.at = info->at;
    if (!timestamp.authority.valid_at(info->at))
        return {"the timestamp's certificate was not valid at the time it states", {}};
    return {{}, std::move(timestamp)};
}

TimestampRequest make_timestamp_request(const Digest& stamped) {
    TimestampRequest request{stamped, Bytes(8), {}};
    must(RAND_bytes(request.nonce.data(), static_cast<int>(request.nonce.size())) == 1, "draw a random number");
    request.nonce[0] = static_cast<unsigned char>((request.nonce[0] & 0x7F) | 0x40);  // positive, in its shortest form
    const std::string_view digest(reinterpret_cast<const char*>(stamped.bytes.data()), stamped.bytes.size());
    const std::string imprint =
        element(der::sequence, element(der::sequence, element(der::oid, oid_sha256) + element(der::null, {})) +
                                   element(der::octets, digest));
    request.der = to_bytes(element(der::sequence, element(der::integer, version_1) + imprint +
                                                      element(der::integer, as_text(request.nonce)) + "\x01\x01\xFF"));
    return request;
}

Bytes read_timestamp_response(std::string_view response, const TimestampRequest& request) {
    const auto outer = der::only(response, der::sequence);
    const Elements fields = outer ? inside(*outer) : Elements{};
    const Elements status = is(fields, 0, der::sequence) ? inside(fields[0]) : Elements{};
    if (!is(status, 0, der::integer) || status[0].content.size() != 1)
        throw Error("the timestamp server's answer is not a timestamp response");
    if (status[0].content[0] != 0 && status[0].content[0] != 1)
        throw Error("the timestamp server did not grant the timestamp: status " +
                    std::to_string(static_cast<unsigned char>(status[0].content[0])));
    const auto token = fields.size() == 2 ? parts_of(fields[1].whole) : std::nullopt;
    if (!token) throw Error("the timestamp server's answer holds no token that can be read");
    const auto info = read_info(token->info);
    if (!info || info->nonce != as_text(request.nonce))
        throw Error("the timestamp server's answer is for another request: its nonce is not ours");
    for (const der::Element& one : token->certificates) {
        const CertificateOwner certificate = parse_certificate(one.whole);
        ERR_clear_error();
        if (!is_readable(certificate.get()) || name_of(certificate.get()) != token->signer_name) continue;
        const std::string made = whole(*token, one.whole);
        const TimestampFinding finding = examine_timestamp(made, request.stamped);
        if (!finding.timestamp) throw Error("the timestamp server's answer is refused: " + finding.what);
        return to_bytes(made);
    }
    throw Error("the timestamp server's answer lacks its certificate");
}

Bytes ask_timestamp(const std::string& url, const Digest& stamped) {
    const TimestampRequest request = make_timestamp_request(stamped);
    try {
        return read_timestamp_response(http_post(url, "application/timestamp-query", as_text(request.der)), request);
    } catch (Error& error) {
        error.where = url;
        if (error.hint.empty()) error.hint = "nothing was written; --timestamp-optional goes on without a timestamp";
        throw;
    }
}

}  // namespace rigdeed::crypto
