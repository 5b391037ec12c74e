#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/bytes.hpp"

/// Certificates by one another, for tests.
namespace rigdeed::sample {

/// A key on P-256 with its certificate.
struct Identity {
    struct Parts;
    std::shared_ptr<Parts> parts;

    [[nodiscard]] Bytes der() const;
};

enum class Kind { authority, person, signing_authority };
/// With a new key; self-signed without an issuer. `purposes`: its extended key usage, as OpenSSL writes it.
[[nodiscard]] Identity identity(const std::string& name, Kind kind, const Identity* issuer = nullptr,
                                const std::string& purposes = {});
/// The same key and name, by the same issuer, with another serial number.
[[nodiscard]] Identity renewed(const Identity& of, const Identity& issuer);

/// Signer files with the key and certificate of one, and the certificates of others; `passphrase` opens PKCS#12.
[[nodiscard]] Bytes chain_pkcs12(const Identity& signer, const std::vector<Identity>& others);
[[nodiscard]] std::string chain_pem(const Identity& signer, const std::vector<Identity>& others);

}  // namespace rigdeed::sample
