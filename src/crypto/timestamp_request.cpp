#include <openssl/rand.h>

#include "base/http.hpp"
#include "base/text.hpp"
#include "crypto/oids.hpp"
#include "crypto/timestamp.hpp"
#include "crypto/timestamp_token.hpp"

namespace rigdeed::crypto {
namespace {

using der::element;

// RFC 3161, 2.4.2: PKIStatus and PKIFailureInfo.
std::string status_words(unsigned char status) {
    switch (status) {
        case 2: return "it rejects the request";
        case 3: return "the request is waiting";
        case 4: return "a revocation of its certificate is imminent";
        case 5: return "its certificate has been revoked";
        default: return "status " + std::to_string(status);
    }
}

std::string failure_words(std::string_view bits) {
    struct Failure {
        std::size_t bit;
        const char* words;
    };
    constexpr Failure failures[]{
        {0, "it does not know the algorithm"},         {2, "it does not allow this request"},
        {5, "it could not read the request"},          {14, "its clock is not available"},
        {15, "it does not keep the policy asked for"}, {16, "it does not know an extension"},
        {17, "what it should add is not available"},   {25, "its system failed"},
    };
    std::vector<std::string> found;
    for (const auto& [bit, words] : failures)  // the first byte tells how many bits of the last are unused
        if (1 + bit / 8 < bits.size() && (static_cast<unsigned char>(bits[1 + bit / 8]) & 0x80 >> bit % 8) != 0)
            found.emplace_back(words);
    return join(found, "; ");
}

[[noreturn]] void refuse(const Elements& status) {
    std::string words = status_words(static_cast<unsigned char>(status[0].content[0]));
    for (const der::Element& one : status) {
        if (one.tag == der::bit_string)
            if (const std::string failure = failure_words(one.content); !failure.empty()) words += "; " + failure;
        if (one.tag == der::sequence)
            for (const der::Element& text : inside(one))
                if (text.tag == der::utf8) words += "; " + in_quotes(text.content.substr(0, 200));
    }
    throw Error("the timestamp server did not grant the timestamp: " + words);
}

}  // namespace

TimestampRequest make_timestamp_request(const Digest& stamped) {
    TimestampRequest request{stamped, Bytes(8), {}};
    must(RAND_bytes(request.nonce.data(), static_cast<int>(request.nonce.size())) == 1, "draw a random number");
    request.nonce[0] = static_cast<unsigned char>((request.nonce[0] & 0x7F) | 0x40);  // positive, in its shortest form
    const std::string_view digest(reinterpret_cast<const char*>(stamped.bytes.data()), stamped.bytes.size());
    const std::string imprint =
        element(der::sequence, element(der::sequence, element(der::oid, oid::sha256) + element(der::null, {})) +
                                   element(der::octets, digest));
    request.der = to_bytes(element(der::sequence, element(der::integer, der::version_1) + imprint +
                                                      element(der::integer, as_text(request.nonce)) + "\x01\x01\xFF"));
    return request;
}

Bytes read_timestamp_response(std::string_view response, const TimestampRequest& request) {
    const auto outer = der::only(response, der::sequence);
    const Elements fields = outer ? inside(*outer) : Elements{};
    const Elements status = is(fields, 0, der::sequence) ? inside(fields[0]) : Elements{};
    if (!is(status, 0, der::integer) || status[0].content.size() != 1)
        throw Error("the timestamp server's answer is not a timestamp response");
    if (status[0].content[0] != 0 && status[0].content[0] != 1) refuse(status);
    const auto token = fields.size() == 2 ? token_of(fields[1].whole) : std::nullopt;
    if (!token) throw Error("the timestamp server's answer holds no token that can be read");
    const auto info = read_info(token->info);
    if (!info) throw Error("the timestamp server's answer holds a timestamp that cannot be read");
    if (info->nonce != as_text(request.nonce))
        throw Error("the timestamp server's answer is for another request: its nonce is not ours");
    for (const der::Element& one : token->certificates) {
        const CertificateOwner certificate = parse_named(one.whole);
        if (!certificate || name_of(certificate.get()) != token->signer_name) continue;
        const KeyKind kind = kind_of(X509_get0_pubkey(certificate.get()));
        if (kind != KeyKind::other && digest_named(token->digest) != nullptr &&
            !is_name_for(token->algorithm, kind, token->digest))
            throw Error(std::string("the timestamp server's answer is signed in a way we do not verify: ") +
                        ways_we_verify);
        const Bytes signature = with_lower_s(X509_get0_pubkey(certificate.get()), token->signature);
        const std::string made = write_token(*token, one.whole, kind, as_text(signature));
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
