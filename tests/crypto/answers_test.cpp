// What timestamp servers answer besides a timestamp (RFC 3161, 2.4.2), and wishes for a signer that cannot be met.
#include <doctest/doctest.h>

#include "base/error.hpp"
#include "crypto/signer.hpp"
#include "crypto/timestamp.hpp"

using namespace rigdeed;

namespace {

std::string element(int tag, const std::string& content) {
    REQUIRE(content.size() < 128);
    return std::string(1, static_cast<char>(tag)) + static_cast<char>(content.size()) + content;
}

/// PKIStatusInfo with a status, a text in UTF-8 and failure bits; and what follows it.
std::string answer(const std::string& status, const std::string& more = {}, const std::string& token = {}) {
    return element(0x30, element(0x30, element(0x02, status) + more) + token);
}

std::string refused(const std::string& response) {
    const auto request = crypto::make_timestamp_request(Digest{});
    try {
        (void)crypto::read_timestamp_response(response, request);
    } catch (const Error& error) { return error.what(); }
    return "accepted";
}

std::string wish(const std::string& name, const std::string& firm, const std::string& country, int years,
                 const std::string& passphrase) {
    crypto::NewSigner wanted;
    wanted.name = name;
    wanted.organisation = firm;
    wanted.country = country;
    wanted.valid_years = years;
    wanted.key = crypto::NewKey::p256;
    wanted.rounds = 1000;
    try {
        (void)crypto::make_signer(wanted, passphrase);
    } catch (const Error& error) { return error.what(); }
    return {};
}

}  // namespace

TEST_CASE("a refusal is told in words, with the server's own text quoted") {
    const std::string start = "the timestamp server did not grant the timestamp: ";
    CHECK(refused(answer("\x02")) == start + "it rejects the request");
    CHECK(refused(answer("\x03")) == start + "the request is waiting");
    CHECK(refused(answer("\x04")) == start + "a revocation of its certificate is imminent");
    CHECK(refused(answer("\x05")) == start + "its certificate has been revoked");
    CHECK(refused(answer("\x09")) == start + "status 9");
    const std::string text = element(0x30, element(0x0C, "not \x1b[2J today") + element(0x04, "x"));
    CHECK(refused(answer("\x02", text)) == start + "it rejects the request; \"not \\x1b[2J today\"");
    CHECK(refused(answer("\x02", element(0x03, std::string("\x05\x20", 2)))) ==
          start + "it rejects the request; it does not allow this request");
    CHECK(refused(answer("\x02", element(0x03, std::string("\x01\x84\x02", 3)))) ==
          start +
              "it rejects the request; it does not know the algorithm; it could not read the request; its clock is not "
              "available");
    CHECK(refused(answer("\x02", element(0x03, std::string("\x07\x00", 2)))) == start + "it rejects the request");
    CHECK(refused(answer("\x02", element(0x03, ""))) == start + "it rejects the request");
}

TEST_CASE("what is no answer at all, or grants without a token, is told so") {
    const std::string none = "the timestamp server's answer is not a timestamp response";
    CHECK(refused("") == none);
    CHECK(refused("<html>") == none);
    CHECK(refused(element(0x30, "")) == none);
    CHECK(refused(element(0x30, element(0x30, ""))) == none);
    CHECK(refused(element(0x30, element(0x30, element(0x04, "x")))) == none);
    CHECK(refused(answer("\x01\x02")) == none);
    CHECK(refused(answer("")) == none);
    const std::string no_token = "the timestamp server's answer holds no token that can be read";
    CHECK(refused(answer(std::string(1, '\0'))) == no_token);
    CHECK(refused(answer("\x01")) == no_token);
    CHECK(refused(answer("\x01", {}, element(0x30, "x"))) == no_token);
    CHECK(refused(answer("\x01", {}, element(0x30, "") + element(0x30, ""))) == no_token);
}

TEST_CASE("an identity that cannot be is refused, with what to write") {
    const std::string phrase = "a test phrase";
    CHECK(wish("Ann", "", "", 5, phrase).empty());
    CHECK(wish("Ann", "Firm", "GB", 50, phrase).empty());
    CHECK(wish("", "", "", 5, phrase).find("signer name") == 0);
    for (const std::string& name :
         {std::string(65, 'x'), std::string(" Ann"), std::string("A\nB"), std::string("A\x7F"), std::string("\xFF")})
        CHECK(wish(name, "", "", 5, phrase).find("signer name") == 0);
    CHECK(wish("Ann", std::string(65, 'x'), "", 5, phrase).find("organisation") == 0);
    for (const char* country : {"gb", "G", "GBR", "G1", "1B"})
        CHECK(wish("Ann", "", country, 5, phrase).find("country") == 0);
    CHECK(wish("Ann", "", "", 0, phrase) == "a signer valid for 0 years");
    CHECK(wish("Ann", "", "", 51, phrase) == "a signer valid for 51 years");
    CHECK(wish("Ann", "", "", 5, "") == "the passphrase is empty");
    CHECK(wish("Ann", "", "", 5, std::string("a\0b", 3)) == "the passphrase has a zero byte in it");
}
