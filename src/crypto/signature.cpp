// Of the two values an ECDSA signature may have for s, the lower one is written and accepted: with both allowed,
// a signed file could be changed without its signature failing.
#include <openssl/bn.h>
#include <openssl/core_names.h>
#include <openssl/ec.h>
#include <openssl/ecdsa.h>
#include <openssl/err.h>

#include "crypto/openssl.hpp"

namespace rigdeed::crypto {
namespace {

using NumberOwner = std::unique_ptr<BIGNUM, Freeing<BN_free>>;
using GroupOwner = std::unique_ptr<EC_GROUP, Freeing<EC_GROUP_free>>;
using EcSignature = std::unique_ptr<ECDSA_SIG, Freeing<ECDSA_SIG_free>>;

const unsigned char* data_of(std::string_view bytes) { return reinterpret_cast<const unsigned char*>(bytes.data()); }

EcSignature parse_ec(std::string_view signature) {
    const unsigned char* at = data_of(signature);
    return EcSignature(d2i_ECDSA_SIG(nullptr, &at, static_cast<long>(signature.size())));
}

// Null for a key of no such curve.
GroupOwner group_of(const EVP_PKEY* key) {
    // not reached: every kind has its case
    switch (kind_of(key)) {
        case KeyKind::p256: return GroupOwner(EC_GROUP_new_by_curve_name(NID_X9_62_prime256v1));
        case KeyKind::p384: return GroupOwner(EC_GROUP_new_by_curve_name(NID_secp384r1));
        case KeyKind::rsa:
        case KeyKind::other: break;
    }
    return nullptr;
}

// The order of the group minus s.
NumberOwner other_s(const EC_GROUP* group, const BIGNUM* s) {
    NumberOwner other(BN_new());
    must(other && BN_sub(other.get(), EC_GROUP_get0_order(group), s) == 1, "compute with a signature");
    return other;
}

bool has_lower_s(const EC_GROUP* group, std::string_view signature) {
    const EcSignature parsed = parse_ec(signature);
    if (!parsed) return false;
    const BIGNUM* s = ECDSA_SIG_get0_s(parsed.get());
    return BN_cmp(s, other_s(group, s).get()) <= 0;
}

// FIPS 186-5, 5.1: an exponent that is odd and above 2^16. With a small one, signatures can be made up without the key.
bool is_strong_rsa(const EVP_PKEY* key) {
    const int bits = EVP_PKEY_get_bits(key);
    BIGNUM* number = nullptr;
    const bool found = EVP_PKEY_get_bn_param(key, OSSL_PKEY_PARAM_RSA_E, &number) == 1;
    const NumberOwner exponent(number);
    return found && bits >= 2048 && bits <= 8192 && BN_is_odd(number) && BN_num_bits(number) > 16;
}

}  // namespace

Bytes with_lower_s(const EVP_PKEY* key, std::string_view signature) {
    const GroupOwner group = group_of(key);
    const EcSignature parsed = group ? parse_ec(signature) : nullptr;
    ERR_clear_error();
    if (!parsed) return to_bytes(signature);
    const BIGNUM* s = ECDSA_SIG_get0_s(parsed.get());
    NumberOwner other = other_s(group.get(), s);
    if (BN_cmp(s, other.get()) <= 0) return to_bytes(signature);
    NumberOwner r(BN_dup(ECDSA_SIG_get0_r(parsed.get())));
    must(r && ECDSA_SIG_set0(parsed.get(), r.get(), other.get()) == 1, "set a signature");
    (void)r.release();
    (void)other.release();
    return der_of(parsed.get(), i2d_ECDSA_SIG);
}

KeyKind kind_of(const EVP_PKEY* key) {
    if (key == nullptr) return KeyKind::other;
    if (EVP_PKEY_get_base_id(key) == EVP_PKEY_RSA) return is_strong_rsa(key) ? KeyKind::rsa : KeyKind::other;
    std::array<char, 64> group{};
    if (EVP_PKEY_get_base_id(key) != EVP_PKEY_EC ||
        EVP_PKEY_get_utf8_string_param(key, OSSL_PKEY_PARAM_GROUP_NAME, group.data(), group.size(), nullptr) != 1)
        return KeyKind::other;
    switch (OBJ_sn2nid(group.data())) {
        case NID_X9_62_prime256v1: return KeyKind::p256;
        case NID_secp384r1: return KeyKind::p384;
        default: return KeyKind::other;
    }
}

Bytes sign(EVP_PKEY* key, std::string_view message) {
    const DigestContext context(EVP_MD_CTX_new());
    std::size_t size = 0;
    must(context && EVP_DigestSignInit(context.get(), nullptr, EVP_sha256(), nullptr, key) == 1 &&
             EVP_DigestSign(context.get(), nullptr, &size, data_of(message), message.size()) == 1,
         "start a signature");
    Bytes signature(size);
    must(EVP_DigestSign(context.get(), signature.data(), &size, data_of(message), message.size()) == 1, "sign");
    signature.resize(size);
    return with_lower_s(key, as_text(signature));
}

bool is_signed_by(EVP_PKEY* key, const EVP_MD* digest, std::string_view message, std::string_view signature) {
    if (kind_of(key) == KeyKind::other) return false;
    const GroupOwner group = group_of(key);
    if (group && !has_lower_s(group.get(), signature)) {
        ERR_clear_error();
        return false;
    }
    const DigestContext context(EVP_MD_CTX_new());
    const bool fits =
        // not reached: memory alone
        context && EVP_DigestVerifyInit(context.get(), nullptr, digest, nullptr, key) == 1 &&
        EVP_DigestVerify(context.get(), data_of(signature), signature.size(), data_of(message), message.size()) == 1;
    ERR_clear_error();
    return fits;
}

}  // namespace rigdeed::crypto
