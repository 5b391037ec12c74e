#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.hpp"
#include "crypto/certificate.hpp"

namespace rigdeed::crypto {

enum class NewKey { rsa3072, p256 };

/// Who a new signer shall be.
struct NewSigner {
    std::string name;
    std::string organisation;  ///< may be empty
    std::string country;       ///< ISO 3166 two letters, or empty
    int valid_years = 10;
    std::int64_t valid_from = 0;  ///< seconds since 1970-01-01 UTC
    NewKey key = NewKey::rsa3072;
    int rounds = 600'000;  ///< of PBKDF2, and of the derivation of the MAC's key
};

/// A new key with a self-made certificate (RFC 5280), as PKCS#12 bytes (RFC 7292): AES-256, PBKDF2, SHA-256.
/// Throws Error if a field does not fit or the passphrase has fewer than eight characters.
[[nodiscard]] Bytes make_signer(const NewSigner& wanted, const std::string& passphrase);

/// A private key, its certificate, and those that lead from it to its root.
class Signer {
 public:
    struct Keys;  ///< OpenSSL's side of it; complete only inside this folder

    explicit Signer(std::unique_ptr<Keys> keys);
    Signer(Signer&&) noexcept;
    Signer& operator=(Signer&&) noexcept;
    ~Signer();

    [[nodiscard]] const CertificateFacts& certificate() const;
    /// From its issuer upwards, without the root; empty for a self-made certificate.
    [[nodiscard]] const std::vector<CertificateFacts>& chain() const;
    [[nodiscard]] const Keys& keys() const { return *keys_; }

 private:
    std::unique_ptr<Keys> keys_;
};

/// From PKCS#12, or from PEM with a private key and its certificate in one file; of several certificates the key's own
/// is the signer's, and the others must be its chain. Throws Error if the bytes are neither, the passphrase is wrong,
/// the key does not belong to the certificate, or it is of a kind we do not sign with, the certificate is not for
/// signing, or another is not of its chain. An expired certificate is no error: see CertificateFacts.
[[nodiscard]] Signer load_signer(std::string_view file, const std::string& passphrase);

}  // namespace rigdeed::crypto
