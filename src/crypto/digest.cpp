#include "crypto/digest.hpp"

#include <openssl/evp.h>

#include "base/error.hpp"

namespace rigdeed::crypto {

Digest sha256(std::string_view bytes) {
    Digest digest;
    unsigned length = 0;
    const int done = EVP_Digest(bytes.data(), bytes.size(), digest.bytes.data(), &length, EVP_sha256(), nullptr);
    if (done != 1 || length != digest.bytes.size()) throw Error("SHA-256 failed", {}, {}, ExitCode::bug);
    return digest;
}

}  // namespace rigdeed::crypto
