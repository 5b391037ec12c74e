// Signature vectors through the function that verify uses.
// usage: signature_vectors < LINES     each line: digest (SHA256, SHA384 or SHA512), public key (SubjectPublicKeyInfo),
// message and signature in hex;
// "-" for nothing. Prints a line each: 1 if the signature is accepted, 0 if not.

#include <openssl/x509.h>

#include <iostream>
#include <string>

#include "base/bytes.hpp"
#include "crypto/openssl.hpp"

using namespace rigdeed;

namespace {

std::string bytes_of(const std::string& hex) {
    std::string bytes;
    if (hex == "-") return bytes;
    for (std::size_t i = 0; i + 1 < hex.size(); i += 2)
        bytes += static_cast<char>(std::stoi(hex.substr(i, 2), nullptr, 16));
    return bytes;
}

}  // namespace

int main() {
    std::string digest, key_hex, message, signature;
    while (std::cin >> digest >> key_hex >> message >> signature) {
        const std::string der = bytes_of(key_hex);
        const auto* at = reinterpret_cast<const unsigned char*>(der.data());
        const crypto::KeyOwner key(d2i_PUBKEY(nullptr, &at, static_cast<long>(der.size())));
        const EVP_MD* kind = EVP_get_digestbyname(digest.c_str());
        const bool good = key && kind && crypto::is_signed_by(key.get(), kind, bytes_of(message), bytes_of(signature));
        std::cout << (good ? 1 : 0) << "\n";
    }
    return 0;
}
