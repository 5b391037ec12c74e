#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "base/bytes.hpp"
#include "crypto/certificate.hpp"

namespace rigdeed::crypto {

/// Who a new signer shall be.
struct NewSigner {
    std::string name;
    std::string organisation;  ///< may be empty
    std::string country;       ///< ISO 3166 two letters, or empty
    int valid_years = 10;
    std::int64_t valid_from = 0;  ///< seconds since 1970-01-01 UTC
};

/// A new RSA-3072 key with a self-made certificate (RFC 5280), as PKCS#12 bytes (RFC 7292): AES-256, PBKDF2, SHA-256.
/// Throws Error if a field does not fit or the passphrase is empty.
[[nodiscard]] Bytes make_signer(const NewSigner& wanted, const std::string& passphrase);

/// A private key and its certificate.
class Signer {
 public:
    struct Keys;  ///< OpenSSL's side of it; complete only inside this folder

    explicit Signer(std::unique_ptr<Keys> keys);
    Signer(Signer&&) noexcept;
    Signer& operator=(Signer&&) noexcept;
    ~Signer();

    [[nodiscard]] const CertificateFacts& certificate() const;
    [[nodiscard]] const Keys& keys() const { return *keys_; }

 private:
    std::unique_ptr<Keys> keys_;
};

/// Throws Error if the bytes are no PKCS#12 file, the passphrase is wrong, the key does not belong to the certificate,
/// or it is of a kind we do not sign with. An expired certificate is no error: see CertificateFacts.
[[nodiscard]] Signer load_signer(std::string_view pkcs12, const std::string& passphrase);

}  // namespace rigdeed::crypto
