#include "crypto/digest.hpp"

#include "crypto/openssl.hpp"

namespace rigdeed::crypto {

struct Hasher::State {
    DigestContext context{EVP_MD_CTX_new()};
};

Hasher::Hasher() : state_(std::make_unique<State>()) {
    must(state_->context && EVP_DigestInit_ex(state_->context.get(), EVP_sha256(), nullptr) == 1, "start a digest");
}

Hasher::Hasher(const Hasher& other) : state_(std::make_unique<State>()) {
    must(state_->context && EVP_MD_CTX_copy_ex(state_->context.get(), other.state_->context.get()) == 1,
         "copy a digest");
}

Hasher::~Hasher() = default;

void Hasher::add(std::string_view piece) {
    must(EVP_DigestUpdate(state_->context.get(), piece.data(), piece.size()) == 1, "compute a digest");
}

Digest Hasher::finish() {
    Digest digest;
    must(EVP_DigestFinal_ex(state_->context.get(), digest.bytes.data(), nullptr) == 1, "end a digest");
    return digest;
}

Digest sha256(std::string_view bytes) {
    Hasher hasher;
    hasher.add(bytes);
    return hasher.finish();
}

}  // namespace rigdeed::crypto
