#pragma once

#include <vector>

#include "crypto/openssl.hpp"
#include "crypto/signer.hpp"

namespace rigdeed::crypto {

struct Signer::Keys {
    KeyOwner key;
    CertificateOwner certificate;
    CertificateFacts facts;
    std::vector<CertificateOwner> chain;  ///< from its issuer upwards, without the root
    std::vector<CertificateFacts> chain_facts;
};

}  // namespace rigdeed::crypto
