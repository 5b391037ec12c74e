#pragma once

#include <array>
#include <string>
#include <string_view>

#include "record/record.hpp"

/// What writing and reading of the record share.
namespace rigdeed::record {

struct StateName {
    evidence::State state;
    std::string_view name;
};
inline constexpr std::array state_names{
    StateName{evidence::State::usable, "usable"},         StateName{evidence::State::missing, "missing"},
    StateName{evidence::State::ambiguous, "ambiguous"},   StateName{evidence::State::leads_outside, "leads-outside"},
    StateName{evidence::State::unreadable, "unreadable"}, StateName{evidence::State::not_a_photo, "not-a-photo"},
};
[[nodiscard]] std::string_view name_of(evidence::State state);

/// The shortest digits that read back as the same number.
[[nodiscard]] std::string exact(double value);

}  // namespace rigdeed::record
