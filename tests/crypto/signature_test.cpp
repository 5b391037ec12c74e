#include <doctest/doctest.h>
#include <openssl/bn.h>
#include <openssl/ec.h>
#include <openssl/ecdsa.h>

#include <string>

#include "crypto/openssl.hpp"

using namespace rigdeed;

namespace {

// As OpenSSL signs, with whichever s comes.
Bytes signed_anyhow(EVP_PKEY* key, const EVP_MD* digest, const std::string& message) {
    const crypto::DigestContext context(EVP_MD_CTX_new());
    const auto* text = reinterpret_cast<const unsigned char*>(message.data());
    std::size_t size = 0;
    EVP_DigestSignInit(context.get(), nullptr, digest, nullptr, key);
    EVP_DigestSign(context.get(), nullptr, &size, text, message.size());
    Bytes signature(size);
    EVP_DigestSign(context.get(), signature.data(), &size, text, message.size());
    signature.resize(size);
    return signature;
}

// The same r with the order of the group minus s.
Bytes with_other_s(const Bytes& signature, int curve) {
    const auto* at = signature.data();
    ECDSA_SIG* parsed = d2i_ECDSA_SIG(nullptr, &at, static_cast<long>(signature.size()));
    EC_GROUP* group = EC_GROUP_new_by_curve_name(curve);
    BIGNUM* s = BN_new();
    BN_sub(s, EC_GROUP_get0_order(group), ECDSA_SIG_get0_s(parsed));
    ECDSA_SIG_set0(parsed, BN_dup(ECDSA_SIG_get0_r(parsed)), s);
    Bytes other = crypto::der_of(parsed, i2d_ECDSA_SIG);
    EC_GROUP_free(group);
    ECDSA_SIG_free(parsed);
    return other;
}

}  // namespace

TEST_CASE("of the two values of s in an ECDSA signature exactly the lower one is accepted") {
    struct Curve {
        const char* name;
        int number;
        const EVP_MD* digest;
    };
    for (const auto& [name, number, digest] :
         {Curve{"P-256", NID_X9_62_prime256v1, EVP_sha256()}, Curve{"P-384", NID_secp384r1, EVP_sha512()}}) {
        const crypto::KeyOwner key(EVP_EC_gen(name));
        for (int i = 0; i < 10; ++i) {
            const std::string message = "message " + std::to_string(i);
            const Bytes one = signed_anyhow(key.get(), digest, message), other = with_other_s(one, number);
            const auto fits = [&](const Bytes& signature) {
                return crypto::is_signed_by(key.get(), digest, message, as_text(signature));
            };
            CHECK(fits(one) != fits(other));
            CHECK(crypto::with_lower_s(key.get(), as_text(one)) == (fits(one) ? one : other));
            CHECK(crypto::with_lower_s(key.get(), as_text(other)) == (fits(one) ? one : other));
        }
    }
}

TEST_CASE("what is no ECDSA signature stays as it is") {
    const crypto::KeyOwner key(EVP_EC_gen("P-256"));
    CHECK(crypto::with_lower_s(key.get(), "rubbish") == to_bytes("rubbish"));
    CHECK(crypto::with_lower_s(key.get(), "") == Bytes{});
    CHECK_FALSE(crypto::is_signed_by(key.get(), EVP_sha256(), "message", "rubbish"));
}
