#pragma once

#include <cstdint>

#include "crypto/timestamp.hpp"

namespace rigdeed::sample {

inline constexpr std::int64_t stamped_at = 1'780'000'000;

/// OpenSSL's answer of a timestamp authority to this request, at that time by its clock; its certificate is valid for a
/// day before and after `stamped_at`.
[[nodiscard]] Bytes timestamp_answer(const Bytes& request, std::int64_t at = stamped_at);

}  // namespace rigdeed::sample
