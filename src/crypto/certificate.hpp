#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/bytes.hpp"

namespace rigdeed::crypto {

/// What an X.509 certificate says (RFC 5280).
struct CertificateFacts {
    std::string name;             ///< common name of the subject
    std::string organisation;     ///< may be empty
    std::string country;          ///< two letters; may be empty
    std::int64_t not_before = 0;  ///< seconds since 1970-01-01 UTC
    std::int64_t not_after = 0;
    bool self_made = false;  ///< subject and issuer are the same
    bool may_sign = true;  ///< its key usage, if it has one, has digitalSignature or nonRepudiation (RFC 5280, 4.2.1.3)
    Digest fingerprint;    ///< SHA-256 of the DER form
    Bytes der;

    [[nodiscard]] std::string pem() const;
    [[nodiscard]] bool valid_at(std::int64_t seconds) const { return not_before <= seconds && seconds <= not_after; }
};

/// From DER or PEM bytes; nothing if they are neither.
[[nodiscard]] std::optional<CertificateFacts> read_certificate(std::string_view bytes);

/// 64 hex digits of either case, with blanks and colons anywhere; nothing otherwise.
[[nodiscard]] std::optional<Digest> read_fingerprint(std::string_view text);

}  // namespace rigdeed::crypto
