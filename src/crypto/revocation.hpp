#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "crypto/certificate.hpp"

/// Lists of revoked certificates (RFC 5280, 5): a file of one or several in PEM, or of one in DER.
namespace rigdeed::crypto {

struct RevocationList {
    std::string issuer;                ///< its common name
    std::optional<std::int64_t> next;  ///< when the next was to come, seconds since 1970-01-01 UTC
};

/// Throws Error if the file holds none, one cannot be read, or one in an authority's name is not signed by it.
[[nodiscard]] std::vector<RevocationList> read_revocations(std::string_view file, std::string_view authorities_pem);

/// When a seal was made. Whoever has stolen a key can set his clock: only a timestamp proves it.
struct SealTime {
    std::int64_t seconds = 0;
    bool proven = false;
};

/// Why these lists speak against the authority of a timestamp: revoked before it stamped, or later for a reason that
/// makes its clock doubtful (RFC 3161, 4, 1). Empty if nothing does, also where no list is by its issuer.
[[nodiscard]] std::string clock_revocation_fault(const CertificateFacts& authority, std::string_view authorities_pem,
                                                 std::string_view file, std::int64_t stamped);

/// Why these lists speak against a certificate for which an authority vouches, or against one between the two; one
/// sentence without a full stop, empty if nothing does. A list that is not by the issuer's key counts for nothing, and
/// without one by the issuer of the certificate itself nothing is known of it. Revoked later than a proven time is as
/// good as not revoked.
[[nodiscard]] std::string revocation_fault(const CertificateFacts& certificate,
                                           const std::vector<CertificateFacts>& between,
                                           std::string_view authorities_pem, std::string_view file,
                                           const SealTime& sealed);

}  // namespace rigdeed::crypto
