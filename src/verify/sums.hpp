#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "crypto/digest.hpp"

namespace rigdeed::verify {

/// SHA-256 of a file, and of the file without a piece that becomes known only later: the sums of its beginnings are
/// kept, so that what stands before that piece is not hashed again. `file` must live as long.
class Sums {
 public:
    explicit Sums(std::string_view file);

    [[nodiscard]] const Digest& whole() const { return whole_; }
    /// `begin` not after `end`, both within the file.
    [[nodiscard]] Digest without(std::size_t begin, std::size_t end) const;

 private:
    std::string_view file_;
    std::vector<crypto::Hasher> beginnings_;  ///< of each step of the file
    Digest whole_;
};

}  // namespace rigdeed::verify
