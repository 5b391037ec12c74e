#pragma once

#include <cstdint>

#include "crypto/timestamp.hpp"

namespace rigdeed::sample {

inline constexpr std::int64_t stamped_at = 1'780'000'000;

enum class Clock { rsa2048, p256, p384, p521 };  ///< by the key of its certificate

/// OpenSSL's answer of a timestamp authority to this request, at that time by its clock; its certificate is valid for a
/// day before and after `stamped_at`, named by a digest of `name_bits`, and its signature over one of `digest_bits`;
/// half a second later if it gives a fraction. `accuracy` in seconds, if it is to say one.
[[nodiscard]] Bytes timestamp_answer(const Bytes& request, std::int64_t at = stamped_at, Clock clock = Clock::rsa2048,
                                     int digest_bits = 256, bool with_fraction = false, int name_bits = 256,
                                     int accuracy = 0);

}  // namespace rigdeed::sample
