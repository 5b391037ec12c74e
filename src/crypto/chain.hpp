#pragma once

#include <cstddef>
#include <vector>

#include "crypto/openssl.hpp"

/// Certificates that lead from one up to a root. For the sources of this folder only.
namespace rigdeed::crypto {

/// More than this many between a signer and its root is no chain.
inline constexpr std::size_t most_between = 8;

[[nodiscard]] bool is_self_made(const X509* certificate);
/// Whether the first is a certificate of an authority, and issued the other (RFC 5280, 6.1.3 and 6.1.4, without dates).
[[nodiscard]] bool has_issued(X509* issuer, X509* certificate);

/// Which of these lead from the certificate to its root, from its issuer upwards; the root is not among them. Ends
/// where the next is not there.
[[nodiscard]] std::vector<std::size_t> path_from(X509* certificate, const std::vector<CertificateOwner>& others);

/// The path alone. Throws Error for a certificate that does not belong to it; its root is left out, and what is there
/// twice.
[[nodiscard]] std::vector<CertificateOwner> chain_from(X509* certificate, std::vector<CertificateOwner> others);

}  // namespace rigdeed::crypto
