#pragma once

#include <string>

#include "crypto/cms.hpp"
#include "trade/trade.hpp"

/// Reports of the fixtures, issued in the tests by sample::ann().
namespace rigdeed::sample {

inline constexpr std::int64_t autumn = 1'791'158'400;  ///< when they are issued

[[nodiscard]] const trade::Trade& the_trade();
/// Of fixtures/complete.
[[nodiscard]] const std::string& issued();
[[nodiscard]] std::string issued_from(const std::string& fixture, const trade::Trade& trade = the_trade(),
                                      const crypto::Stamp& stamp = {});

}  // namespace rigdeed::sample
