#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "crypto/certificate.hpp"

namespace rigdeed::crypto {

/// Throws Error if the bytes hold no certificate in PEM.
void check_authorities(std::string_view pem);

/// Why a certificate does not lead to one of these authorities (RFC 5280, 6.1) at that moment, one sentence without a
/// full stop; empty if it does. Certificates between the two are looked for in `between`, which need not be trusted,
/// and among the authorities. Of those only self-signed ones count as roots.
[[nodiscard]] std::string authority_fault(const CertificateFacts& certificate,
                                          const std::vector<CertificateFacts>& between, std::string_view pem,
                                          std::int64_t at_seconds);

/// The same of a certificate that sealed a report. What is an authority's own, or for another use than the signing of
/// documents (RFC 5280, 4.2.1.3 and 4.2.1.12), nobody vouches for.
[[nodiscard]] std::string signer_fault(const CertificateFacts& certificate,
                                       const std::vector<CertificateFacts>& between, std::string_view pem,
                                       std::int64_t at_seconds);

}  // namespace rigdeed::crypto
