#pragma once

#include <memory>
#include <string_view>

#include "base/bytes.hpp"

namespace rigdeed::crypto {

/// SHA-256 (FIPS 180-4).
[[nodiscard]] Digest sha256(std::string_view bytes);
[[nodiscard]] inline Digest sha256(const Bytes& bytes) { return sha256(as_text(bytes)); }

/// SHA-256 of several pieces as if they stood in one.
class Hasher {
 public:
    Hasher();
    ~Hasher();
    Hasher(const Hasher& other);  ///< goes on from the same sum
    Hasher& operator=(const Hasher&) = delete;

    void add(std::string_view piece);
    /// Ends the sum; nothing can be added afterwards.
    [[nodiscard]] Digest finish();

 private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace rigdeed::crypto
