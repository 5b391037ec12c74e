#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "crypto/der.hpp"
#include "crypto/openssl.hpp"

/// The form of a timestamp token (RFC 3161). For the sources of this folder only.
namespace rigdeed::crypto {

using Elements = std::vector<der::Element>;

/// What an element holds; nothing in it if that is not DER.
[[nodiscard]] Elements inside(const der::Element& one);
[[nodiscard]] bool is(const Elements& list, std::size_t at, unsigned char tag);

/// The parts of a token from which all of it follows.
struct Token {
    std::string_view info;  ///< TSTInfo
    Elements certificates;
    std::string_view signer_name;  ///< issuer and serial number
    std::string_view digest;       ///< the object identifier of its kind
    std::string_view attributes;
    std::string_view algorithm;  ///< the object identifier of how it is signed
    std::string_view signature;
};
[[nodiscard]] std::optional<Token> token_of(std::string_view bytes);

/// A token in the one form we embed: with this certificate alone, and this signature.
[[nodiscard]] std::string write_token(const Token& token, std::string_view certificate, KeyKind kind,
                                      std::string_view signature);

/// What the authority says.
struct TimestampInfo {
    std::string_view imprint;  ///< a SHA-256 digest
    std::int64_t at = 0;
    std::int64_t accuracy = 0;  ///< seconds, rounded up
    std::optional<std::string_view> nonce;
};
[[nodiscard]] std::optional<TimestampInfo> read_info(std::string_view info);

/// How a token may be signed, for those whose is signed otherwise.
inline constexpr const char* ways_we_verify =
    "it must be RSA of 2048 to 4096 bits (PKCS #1 v1.5), or ECDSA on P-256 or P-384, with SHA-256, SHA-384 or SHA-512";

/// SHA-256, 384 or 512; null for any other.
[[nodiscard]] const EVP_MD* digest_named(std::string_view oid);
/// Whether a signature of that kind of key over that digest may be called so (RFC 5754; RFC 3370 for RSA without a
/// digest in its name).
[[nodiscard]] bool is_name_for(std::string_view algorithm, KeyKind kind, std::string_view digest);

}  // namespace rigdeed::crypto
