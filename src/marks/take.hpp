#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "marks/marks.hpp"

namespace rigdeed::marks {

struct Taken {
    std::optional<std::string> text;   ///< the survey file with the statements in it; nothing if none was taken
    std::vector<std::string> changes;  ///< one line each, in the order of the statements
    std::size_t said_already = 0;      ///< statements that the survey says by itself
    Problems conflicts;                ///< where the survey no longer says what the page knew; with both values
    Problems problems;                 ///< of the survey file, or of what would come out
};

/// Puts statements into the text of a survey file, all or none of them; with `part` all those that nothing has
/// overtaken. Comments, order and layout stay. `file` is the survey's name in messages.
[[nodiscard]] Taken take(const Marks& marks, std::string_view text, const std::string& file, bool part);

}  // namespace rigdeed::marks
