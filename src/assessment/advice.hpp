#pragma once

#include <optional>
#include <string>

#include "assessment/assessment.hpp"

/// What is still to be done of what signs and rules ask for, where the part or its whole stay is renewed anyhow.
/// Words only: no verdict hangs on it.
namespace rigdeed::assessment {

/// The number of the finding by which its whole stay is renewed, for a part that goes with it and is not said to be
/// renewed itself.
[[nodiscard]] std::optional<int> goes_with(const FittingVerdict& one, const Assessment& assessment);

/// Whether what a sign asks for stands. Where the stay is renewed for another reason, a milder sign's "look again,
/// renew if there is a line" does not.
[[nodiscard]] bool asks(const trade::JudgedSign& sign, const FittingVerdict& one);

/// What a rule asks for, with its fill-ins; empty where the renewal leaves nothing of it to be done.
[[nodiscard]] std::string advice_of(const Consequence& consequence, const FittingVerdict& one,
                                    const Assessment& assessment, const trade::Trade& trade);

}  // namespace rigdeed::assessment
