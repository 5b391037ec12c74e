#pragma once

#include "assessment/assessment.hpp"

/// How old a stay is against the custom for its make. Custom, not physics: tables/bands.xml.
namespace rigdeed::assessment {

enum class Age { unknown, within, past, far_past };

/// Past the common figure in months, or past the least in miles; far past beyond the most that any voice allows (in
/// miles: one and a half times that). A date in the future is no age; of a part date the earliest counts.
[[nodiscard]] Age age_of(const survey::Stay& stay, const Date& on, const trade::Trade& trade);
/// The same by its miles alone; unknown if they are.
[[nodiscard]] Age age_in_miles(const survey::Stay& stay, const trade::Trade& trade);

/// What rules say of it.
struct CustomWords {
    std::string age, common, least, most, sailed;
};
[[nodiscard]] CustomWords custom_of(const survey::Stay& stay, const Assessment& assessment, const trade::Trade& trade);

}  // namespace rigdeed::assessment
