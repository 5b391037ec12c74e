#include "crypto/timestamp.hpp"

#include <doctest/doctest.h>

#include "base/error.hpp"
#include "base/http.hpp"
#include "crypto/cms.hpp"
#include "crypto/der.hpp"
#include "crypto/digest.hpp"
#include "crypto/oids.hpp"
#include "crypto/sample_authority.hpp"
#include "crypto/sample_signer.hpp"
#include "crypto/timestamp_token.hpp"

using namespace rigdeed;
using crypto::CmsFault;

namespace {

const Digest content = crypto::sha256("the content");

Bytes token_for(const Digest& stamped, sample::Clock clock = sample::Clock::rsa2048, int digest_bits = 256) {
    const auto request = crypto::make_timestamp_request(stamped);
    const Bytes answer = sample::timestamp_answer(request.der, sample::stamped_at, clock, digest_bits);
    return crypto::read_timestamp_response(as_text(answer), request);
}

// A stamped CMS; `token` is the one in it.
std::string stamped_cms(Bytes& token) {
    const auto stamp = [&](const Digest& signature) { return token = token_for(signature); };
    return std::string(as_text(crypto::make_cms(sample::ann(), content, stamp)));
}

std::string refusal(const Bytes& answer, const crypto::TimestampRequest& request) {
    try {
        (void)crypto::read_timestamp_response(as_text(answer), request);
    } catch (const Error& error) { return error.message; }
    return "";
}

}  // namespace

TEST_CASE("a timestamp is accepted for its own signature and no other") {
    const Bytes token = token_for(content);
    const auto finding = crypto::examine_timestamp(as_text(token), content);
    CHECK(finding.what.empty());
    REQUIRE(finding.timestamp);
    CHECK(finding.timestamp->at == sample::stamped_at);
    CHECK(finding.timestamp->authority.name == "Tide Clock");
    const auto other = crypto::examine_timestamp(as_text(token), crypto::sha256("another"));
    CHECK_FALSE(other.timestamp);
    CHECK(other.what == "the timestamp is for another signature");
}

TEST_CASE("authorities with RSA or ECDSA keys and with SHA-256, 384 or 512 are accepted, in one form only") {
    for (const sample::Clock clock : {sample::Clock::rsa2048, sample::Clock::p256, sample::Clock::p384})
        for (const int bits : {256, 384, 512})
            for (int i = 0; i < 8; ++i) {  // half of all ECDSA signatures come with the higher s
                const std::string token(as_text(token_for(content, clock, bits)));
                CHECK(crypto::examine_timestamp(token, content).timestamp);
                if (clock == sample::Clock::rsa2048 || i > 0) continue;
                std::size_t accepted = 0;
                for (std::size_t bit = 0; bit < 8 * token.size(); bit += 7) {  // each place of a byte in turn
                    std::string changed = token;
                    changed[bit / 8] = static_cast<char>(changed[bit / 8] ^ (1 << bit % 8));
                    accepted += crypto::examine_timestamp(changed, content).timestamp.has_value();
                }
                CHECK(accepted == 0);
            }
}

TEST_CASE("authorities with other keys or digests are refused in clear words") {
    const auto request = crypto::make_timestamp_request(content);
    const Bytes curve = sample::timestamp_answer(request.der, sample::stamped_at, sample::Clock::p521, 512);
    CHECK(refusal(curve, request).find("ECDSA on P-256 or P-384, with SHA-256, SHA-384 or SHA-512") !=
          std::string::npos);
    for (const sample::Clock clock : {sample::Clock::rsa2048, sample::Clock::p256}) {
        const Bytes sha1 = sample::timestamp_answer(request.der, sample::stamped_at, clock, 160);
        CHECK(refusal(sha1, request).find("signed in a way we do not verify") != std::string::npos);
    }
}

TEST_CASE("a stamped signature is accepted, and says when and by whom") {
    Bytes token;
    const auto finding = crypto::examine_cms(stamped_cms(token), content);
    CHECK(finding.fault == CmsFault::none);
    REQUIRE(finding.timestamp);
    CHECK(finding.timestamp->at == sample::stamped_at);
}

TEST_CASE("no byte of a stamped signature can be changed") {
    Bytes token;
    const std::string good = stamped_cms(token);
    REQUIRE(token.size() > 1000);
    REQUIRE(good.find(as_text(token)) == good.size() - token.size());
    std::size_t accepted = 0;
    for (std::size_t at = 0; at < good.size(); ++at)
        for (const unsigned flip : {0x01U, 0x20U, 0x80U, 0xFFU}) {
            std::string changed = good;
            changed[at] = static_cast<char>(static_cast<unsigned char>(changed[at]) ^ flip);
            accepted += crypto::examine_cms(changed, content).fault == CmsFault::none;
        }
    CHECK(accepted == 0);
}

TEST_CASE("a token with anything more in it is refused") {
    const Bytes token = token_for(content);
    namespace der = crypto::der;
    const auto info = der::elements(der::only(as_text(token), der::sequence)->content);
    const auto data = der::elements(der::only((*info)[1].content, der::sequence)->content);
    REQUIRE(data->size() == 5);
    const auto closed = [&](const std::string& certificates, const std::string& more, const std::string& signers) {
        const std::string fields = std::string((*data)[0].whole) + std::string((*data)[1].whole) +
                                   std::string((*data)[2].whole) + certificates + more + signers;
        return der::element(der::sequence, std::string((*info)[0].whole) +
                                               der::element(der::context0, der::element(der::sequence, fields)));
    };
    const std::string certificates((*data)[3].whole), signers((*data)[4].whole);
    REQUIRE(closed(certificates, "", signers) == as_text(token));
    const auto accepted = [](const std::string& bytes) {
        return crypto::examine_timestamp(bytes, content).timestamp.has_value();
    };
    CHECK(accepted(closed(certificates, "", signers)));
    const std::string twice = std::string((*data)[3].content) + std::string((*data)[3].content);
    CHECK_FALSE(accepted(closed(der::element(der::context0, twice), "", signers)));
    CHECK_FALSE(accepted(closed(certificates, der::element(der::context1, ""), signers)));
    const std::string one((*data)[4].content);
    CHECK_FALSE(accepted(closed(certificates, "", der::element(der::set, one + one))));
    const std::string fields(der::only(one, der::sequence)->content);
    const std::string with_unsigned = der::element(der::sequence, fields + der::element(der::context1, ""));
    CHECK_FALSE(accepted(closed(certificates, "", der::element(der::set, with_unsigned))));
    CHECK_FALSE(accepted(std::string(as_text(token)) + '\0'));
}

TEST_CASE("what may follow the time in a token stands once and in its order") {
    using crypto::der::element;
    namespace der = crypto::der;
    const std::string digest(32, 'd');
    const std::string kind = element(der::sequence, element(der::oid, crypto::oid::sha256));
    const std::string required = element(der::integer, {"\x01", 1}) + element(der::oid, "\x2A\x03") +
                                 element(der::sequence, kind + element(der::octets, digest)) +
                                 element(der::integer, {"\x07", 1}) + element(der::generalized_time, "20261125151500Z");
    const auto read = [&](const std::string& more) {
        return crypto::read_info(element(der::sequence, required + more));
    };
    const std::string accuracy = element(der::sequence, element(der::integer, {"\x02", 1}));
    const std::string ordering = element(der::boolean, "\xFF"), nonce = element(der::integer, "\x09");
    REQUIRE(read(accuracy + ordering + nonce));
    CHECK(read(accuracy)->accuracy == 2);
    CHECK(read("")->accuracy == 0);
    CHECK(read(element(der::sequence, std::string("\x80\x01\x05", 3)))->accuracy == 1);
    for (const std::string& wrong :
         {ordering + accuracy, accuracy + accuracy, nonce + ordering, std::string("\x05\x00", 2),
          element(der::octets, "x"), nonce + element(der::utf8, "garbage"),
          element(der::sequence, element(der::integer, {"\xFF", 1})),
          element(der::sequence, element(der::octets, "x"))})
        CHECK_FALSE(read(wrong));
}

TEST_CASE("two timestamps, or one moved to another signature, are refused") {
    namespace der = crypto::der;
    Bytes token;
    const std::string good = stamped_cms(token);
    const auto moved = [&](const Digest&) { return token; };
    const Bytes other = crypto::make_cms(sample::another_ann(), content, moved);
    CHECK(crypto::examine_cms(as_text(other), content).fault == CmsFault::timestamp);
    const auto twice = [&](const Digest& signature) {
        Bytes two = token_for(signature);
        two.insert(two.end(), token.begin(), token.end());
        return two;
    };
    const Bytes doubled = crypto::make_cms(sample::ann(), content, twice);
    CHECK(crypto::examine_cms(as_text(doubled), content).fault == CmsFault::unsigned_part);
}

TEST_CASE("an answer to another request is refused") {
    const auto request = crypto::make_timestamp_request(content);
    const auto again = crypto::make_timestamp_request(content);
    CHECK(request.nonce != again.nonce);
    const Bytes answer = sample::timestamp_answer(request.der);
    CHECK(refusal(answer, request).empty());
    CHECK(refusal(answer, again).find("its nonce is not ours") != std::string::npos);
    auto other = request;
    other.stamped = crypto::sha256("another");
    CHECK(refusal(answer, other).find("for another signature") != std::string::npos);
}

TEST_CASE("a time outside its certificate's validity is refused") {
    const auto request = crypto::make_timestamp_request(content);
    for (const std::int64_t days : {-2, 2}) {
        const Bytes answer = sample::timestamp_answer(request.der, sample::stamped_at + days * 86400);
        CHECK(refusal(answer, request).find("was not valid at the time it states") != std::string::npos);
    }
}

TEST_CASE("every truncation of an answer is refused") {
    const auto request = crypto::make_timestamp_request(content);
    const Bytes answer = sample::timestamp_answer(request.der);
    for (std::size_t size = 0; size < answer.size(); ++size)
        CHECK_FALSE(
            refusal(Bytes(answer.begin(), answer.begin() + static_cast<std::ptrdiff_t>(size)), request).empty());
}

TEST_CASE("addresses of servers") {
    const HttpTarget plain = read_http_url("http://tsa.example");
    CHECK((plain.host == "tsa.example" && plain.port == "80" && plain.path == "/"));
    const HttpTarget full = read_http_url("http://tsa.example:8080/a?b=c#d");
    CHECK((full.host == "tsa.example" && full.port == "8080" && full.path == "/a?b=c"));
    const HttpTarget six = read_http_url("http://[::1]:81?x");
    CHECK((six.host == "::1" && six.port == "81" && six.path == "/?x"));
    for (const char* bad : {"", "http:", "http://", "https://a/", "HTTP://a/", "http://a:b/", "http://a:/",
                            "http://u@a/", "http://a b/", "http://a/\r\nX: y", "http://[::1/", "http://:80/"})
        CHECK_THROWS_AS((void)read_http_url(bad), Error);
}
