#pragma once

#include <cstdint>
#include <memory>
#include <optional>
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

/// What an authority took back, and since when, in seconds since 1970-01-01 UTC; `lost`: and when it was lost.
struct Revoked {
    Identity identity;
    std::int64_t since = 0;
    std::optional<std::int64_t> lost;
};
/// A list of revoked certificates in DER: in the name of one, signed by the key of another.
[[nodiscard]] Bytes revocation_list(const Identity& by, const std::vector<Revoked>& revoked, std::int64_t issued,
                                    std::int64_t next, const Identity& signed_by);

[[nodiscard]] std::string pem_of_lists(const std::vector<Bytes>& lists);

/// Signer files with the key and certificate of one, and the certificates of others; `passphrase` opens PKCS#12.
[[nodiscard]] Bytes chain_pkcs12(const Identity& signer, const std::vector<Identity>& others);
[[nodiscard]] std::string chain_pem(const Identity& signer, const std::vector<Identity>& others);

}  // namespace rigdeed::sample
