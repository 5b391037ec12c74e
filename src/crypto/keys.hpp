#pragma once

#include "crypto/openssl.hpp"
#include "crypto/signer.hpp"

namespace rigdeed::crypto {

struct Signer::Keys {
    KeyOwner key;
    CertificateOwner certificate;
    CertificateFacts facts;
};

}  // namespace rigdeed::crypto
