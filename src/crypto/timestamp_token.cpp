// The form, from RFC 5652 and RFC 3161: ContentInfo { signedData, [0] SignedData { 3, {digest}, { tSTInfo, [0] TSTInfo
// }, [0] certificate, { SignerInfo { 1, issuer and serial, digest, [0] signed attributes, algorithm, signature } } } }.
#include "crypto/timestamp_token.hpp"

#include <array>

#include "base/date.hpp"
#include "crypto/oids.hpp"

namespace rigdeed::crypto {
namespace {

using der::element;

constexpr std::string_view version_3{"\x03", 1};

// A digest, and what signatures over it are called.
struct DigestKind {
    std::string_view name;
    const EVP_MD* (*digest)();
    std::string_view rsa;
    std::string_view ecdsa;
};
constexpr DigestKind digests[]{
    {oid::sha256, EVP_sha256, oid::rsa_with_sha256, oid::ecdsa_with_sha256},
    {oid::sha384, EVP_sha384, oid::rsa_with_sha384, oid::ecdsa_with_sha384},
    {oid::sha512, EVP_sha512, oid::rsa_with_sha512, oid::ecdsa_with_sha512},
};

const DigestKind* find_digest(std::string_view name) {
    for (const DigestKind& one : digests)
        if (one.name == name) return &one;
    return nullptr;
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

// An extension that must be understood (RFC 5280, 4.2); we understand none.
bool has_critical(const der::Element& extensions) {
    for (const der::Element& one : inside(extensions))
        if (is(inside(one), 1, der::boolean)) return true;
    return false;
}

// A whole number of at most four bytes that is not negative; nothing if it is none.
std::optional<std::int64_t> small_number(std::string_view content) {
    if (content.empty() || content.size() > 4 || (static_cast<unsigned char>(content[0]) & 0x80) != 0)
        return std::nullopt;
    std::int64_t value = 0;
    for (const char byte : content) value = value << 8 | static_cast<unsigned char>(byte);
    return value;
}

// Accuracy ::= SEQUENCE { seconds, millis [0], micros [1] }, each optional (RFC 3161, 2.4.2).
std::optional<std::int64_t> accuracy_of(const der::Element& element) {
    const auto parts = der::elements(element.content);
    if (!parts) return std::nullopt;
    std::int64_t seconds = 0, more = 0;
    int last = -1;
    for (const der::Element& part : *parts) {
        const int place = part.tag == der::integer ? 0 : part.tag == 0x80 ? 1 : part.tag == 0x81 ? 2 : -1;
        const auto number = small_number(part.content);
        if (place <= last || !number || (place > 0 && (*number < 1 || *number > 999))) return std::nullopt;
        last = place;
        if (place == 0) seconds = *number;
        else more = 1;
    }
    return seconds + more;
}

// What may follow the time: accuracy, ordering, nonce, the authority's name, extensions; each once, in this order.
bool read_options(const Elements& fields, TimestampInfo& info) {
    constexpr std::array order{der::sequence, der::boolean, der::integer, der::context0, der::context1};
    std::size_t place = 0;
    for (std::size_t i = 5; i < fields.size(); ++i) {
        while (place < order.size() && fields[i].tag != order[place]) ++place;
        if (place++ == order.size()) return false;
        if (fields[i].tag == der::sequence) {
            const auto accuracy = accuracy_of(fields[i]);
            if (!accuracy) return false;
            info.accuracy = *accuracy;
        }
        if (fields[i].tag == der::integer) info.nonce = fields[i].content;
        if (fields[i].tag == der::context1 && has_critical(fields[i])) return false;
    }
    return true;
}

}  // namespace

Elements inside(const der::Element& one) { return der::elements(one.content).value_or(Elements{}); }

bool is(const Elements& list, std::size_t at, unsigned char tag) { return at < list.size() && list[at].tag == tag; }

std::optional<Token> token_of(std::string_view bytes) {
    const auto outer = der::only(bytes, der::sequence);
    const Elements info = outer ? inside(*outer) : Elements{};
    if (info.size() != 2 || info[0].content != oid::signed_data) return std::nullopt;
    const Elements wrapped = inside(info[1]);
    const Elements data = wrapped.size() == 1 ? inside(wrapped[0]) : Elements{};
    if (data.size() < 5 || data.size() > 6 || !is(data, 3, der::context0)) return std::nullopt;
    const Elements content = inside(data[2]), signers = inside(data.back());
    if (content.size() != 2 || content[0].content != oid::tst_info || signers.size() != 1) return std::nullopt;
    const auto octets = der::only(content[1].content, der::octets);
    const Elements signer = inside(signers[0]);
    if (!octets || signer.size() < 6 || !is(signer, 1, der::sequence) || !is(signer, 3, der::context0) ||
        !is(signer, 5, der::octets))
        return std::nullopt;
    const Elements digest = inside(signer[2]), algorithm = inside(signer[4]);
    if (!is(digest, 0, der::oid) || !is(algorithm, 0, der::oid)) return std::nullopt;
    return Token{octets->content,   inside(data[3]),      signer[1].whole,  digest[0].content,
                 signer[3].content, algorithm[0].content, signer[5].content};
}

std::string write_token(const Token& token, std::string_view certificate, KeyKind kind, std::string_view signature) {
    const std::string digest = element(der::sequence, element(der::oid, token.digest));
    const DigestKind* known = find_digest(token.digest);
    const std::string algorithm =
        kind == KeyKind::rsa
            ? element(der::sequence, element(der::oid, oid::rsa) + element(der::null, {}))
            : element(der::sequence, element(der::oid, known == nullptr ? token.algorithm : known->ecdsa));
    const std::string signer = element(
        der::sequence, element(der::integer, der::version_1) + std::string(token.signer_name) + digest +
                           element(der::context0, token.attributes) + algorithm + element(der::octets, signature));
    const std::string content = element(
        der::sequence, element(der::oid, oid::tst_info) + element(der::context0, element(der::octets, token.info)));
    const std::string data =
        element(der::sequence, element(der::integer, version_3) + element(der::set, digest) + content +
                                   element(der::context0, certificate) + element(der::set, signer));
    return element(der::sequence, element(der::oid, oid::signed_data) + element(der::context0, data));
}

std::optional<TimestampInfo> read_info(std::string_view bytes) {
    const auto outer = der::only(bytes, der::sequence);
    const Elements fields = outer ? inside(*outer) : Elements{};
    if (fields.size() < 5 || fields[0].whole != element(der::integer, der::version_1) ||
        !is(fields, 2, der::sequence) || !is(fields, 4, der::generalized_time))
        return std::nullopt;
    const Elements imprint = inside(fields[2]);
    if (imprint.size() != 2 || !is(imprint, 0, der::sequence) || !is(imprint, 1, der::octets)) return std::nullopt;
    const Elements kind = inside(imprint[0]);
    const auto at = seconds_of(fields[4].content);
    if (kind.empty() || kind[0].content != oid::sha256 || !at) return std::nullopt;
    TimestampInfo info{imprint[1].content, *at, 0, {}};
    if (!read_options(fields, info)) return std::nullopt;
    return info;
}

const EVP_MD* digest_named(std::string_view name) {
    const DigestKind* found = find_digest(name);
    return found == nullptr ? nullptr : found->digest();
}

bool is_name_for(std::string_view algorithm, KeyKind kind, std::string_view digest) {
    const DigestKind* known = find_digest(digest);
    if (known == nullptr || kind == KeyKind::other) return false;
    if (kind == KeyKind::rsa) return algorithm == oid::rsa || algorithm == known->rsa;
    return algorithm == known->ecdsa;
}

}  // namespace rigdeed::crypto
