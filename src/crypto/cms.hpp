#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.hpp"
#include "crypto/certificate.hpp"
#include "crypto/signer.hpp"
#include "crypto/timestamp.hpp"

namespace rigdeed::crypto {

/// A detached CMS SignedData (RFC 5652) over content with this SHA-256 digest, as PAdES baseline B-B wants it
/// (ETSI EN 319 142-1, 6.3): content-type, message-digest and signing-certificate-v2 (RFC 5035) are signed, and no
/// signing-time is in it. Its certificates are the signer's and those of its chain without the root, all named by their
/// digests in signing-certificate-v2: so the signature covers them. The same bytes each time with an RSA key.
/// A token that `stamp` has for the signature's SHA-256 becomes the one unsigned attribute (baseline B-T, 6.3; RFC
/// 3161, appendix A); an empty one none.
using Stamp = std::function<Bytes(const Digest& signature)>;
[[nodiscard]] Bytes make_cms(const Signer& signer, const Digest& content, const Stamp& stamp = {});

/// What is wrong with a CMS, in the order of the checks.
enum class CmsFault {
    none,
    encoding,       ///< not DER, or not a SignedData
    content,        ///< carries content of its own
    certificates,   ///< none, unreadable, or not of the signer's chain
    signers,        ///< not exactly one
    unsigned_part,  ///< attributes that nothing signs, and not one timestamp alone
    digest,         ///< the content is not what was signed
    form,           ///< differs from the one form make_cms writes
    key,            ///< a key we do not verify with
    signature,      ///< the signature does not fit
    timestamp,      ///< the timestamp does not hold
};

struct CmsFinding {
    CmsFault fault = CmsFault::encoding;
    std::string what;                             ///< one sentence; empty without a fault
    std::optional<CertificateFacts> certificate;  ///< as far as it could be read
    std::vector<CertificateFacts> chain;          ///< from its issuer upwards; of a CMS without a fault
    std::optional<Timestamp> timestamp;           ///< of a CMS without a fault, if it has one
    Bytes signature;                              ///< of a CMS without a fault
    Bytes token;                                  ///< the same; empty without a timestamp
};

/// Accepts exactly the bytes make_cms would have written for this content, chain, signature and timestamp.
/// Never throws on hostile bytes.
[[nodiscard]] CmsFinding examine_cms(std::string_view der, const Digest& content);

/// Whether these bytes are the CMS over this content with these certificates (DER, the signer's first, then upwards),
/// this signature and this token, and the signature fits the first one's key. It is written and compared, not taken
/// apart: whoever names its parts need not be believed.
[[nodiscard]] bool is_cms_of(std::string_view der, const Digest& content, const std::vector<Bytes>& certificates,
                             std::string_view signature, std::string_view token);

}  // namespace rigdeed::crypto
