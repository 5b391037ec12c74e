#pragma once

#include <optional>
#include <vector>

#include "pairing/chain.hpp"
#include "pairing/pairing.hpp"

/// One round of pairing: what the chain makes of the facts, and what of it is sure.
namespace rigdeed::pairing {

/// The habits that explain the photos best.
[[nodiscard]] Habits fitted(const Facts& facts);

/// `settled`: whether most photos had one clear answer before anything was taken as said; found out if it is empty.
[[nodiscard]] std::vector<Proposal> solve(const Facts& facts, const Habits& habits, std::optional<bool>& settled);

}  // namespace rigdeed::pairing
