#pragma once

#include <string>
#include <vector>

namespace rigdeed {

/// A place in an input file. `line` counts from 1; 0 means the file as a whole.
struct Position {
    std::string file;
    int line = 0;

    [[nodiscard]] std::string text() const { return line > 0 ? file + ":" + std::to_string(line) : file; }
};

/// Something wrong in what we were given. Collected and shown, never thrown.
struct Problem {
    Position at;
    std::string what;  ///< one sentence, the offending value quoted, no full stop
    std::string hint;  ///< what to write instead; may be empty
};

using Problems = std::vector<Problem>;

}  // namespace rigdeed
