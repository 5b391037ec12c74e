#include "crypto/digest.hpp"

#include <doctest/doctest.h>

using namespace rigdeed;

TEST_CASE("SHA-256 of the examples in FIPS 180-4") {
    CHECK(crypto::sha256("").hex() == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    CHECK(crypto::sha256("abc").hex() == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST_CASE("a digest of pieces is the digest of the whole") {
    crypto::Hasher hasher;
    for (const char* piece : {"a", "", "bc"}) hasher.add(piece);
    CHECK(hasher.finish() == crypto::sha256("abc"));
}
