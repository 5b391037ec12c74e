#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include "crypto/digest.hpp"

namespace rigdeed::verify {

/// SHA-256 of a file, and of the file without a piece that becomes known only later: the sums of its beginnings are
/// kept, so that what stands before that piece is not hashed again. `file` must live as long.
class Sums {
 public:
    explicit Sums(std::string_view file);
    /// Of a file that is still being read: add() its pieces in order, then end() with all of it.
    Sums() = default;
    void add(std::string_view piece);
    void end(std::string_view file);

    [[nodiscard]] const Digest& whole() const { return whole_; }
    /// `begin` not after `end`, both within the file.
    [[nodiscard]] Digest without(std::size_t begin, std::size_t end) const;

 private:
    std::string_view file_;
    crypto::Hasher sum_;
    std::uint64_t added_ = 0;
    std::vector<crypto::Hasher> beginnings_;  ///< of each step of the file
    Digest whole_;
};

}  // namespace rigdeed::verify
