#pragma once

#include <string>
#include <string_view>

#include "verify/verify.hpp"

namespace rigdeed::verify {

struct Accident {
    Reason reason;
    std::string words;  ///< one sentence
};

/// What most likely became of a file that failed a check, from a look at its bytes.
/// A guess for the reader's sake: no verdict rests on it.
[[nodiscard]] Accident likely_accident(std::string_view file);

}  // namespace rigdeed::verify
