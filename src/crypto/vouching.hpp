#pragma once

#include <openssl/x509_vfy.h>

#include <functional>
#include <string_view>
#include <vector>

#include "crypto/openssl.hpp"

/// A certificate held against authorities (RFC 5280, 6.1). For the sources of this folder only.
namespace rigdeed::crypto {

/// At most a thousand, up to the first that cannot be read.
[[nodiscard]] std::vector<CertificateOwner> read_certificates(std::string_view pem);

/// X509_V_OK if it leads to one of the authorities, else OpenSSL's error. `settle` sets what else is to hold.
[[nodiscard]] int vouching_error(const CertificateFacts& certificate, const std::vector<CertificateFacts>& between,
                                 std::string_view pem, const std::function<void(X509_STORE_CTX*)>& settle);

}  // namespace rigdeed::crypto
