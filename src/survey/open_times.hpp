#pragma once

#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "survey/survey.hpp"

/// Looks written down without their time, as long as the photos have not been paired: what a surveyor copies from his
/// sheet before he has them. Only pairing reads such a file; for everything else it is wrong.
namespace rigdeed::survey {

/// A text that the strict reader takes, line for line, with a time put in where there was none.
struct TimesPutIn {
    std::string text;
    std::set<std::pair<std::string, Way>> open;  ///< fitting's id and pass of the looks without a time
};

/// `text` as it is if it is no XML, or no time is open.
[[nodiscard]] TimesPutIn with_times_put_in(std::string_view text, const std::string& file);

}  // namespace rigdeed::survey
