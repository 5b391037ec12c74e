#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/bytes.hpp"
#include "base/geometry.hpp"
#include "base/paper.hpp"

namespace rigdeed::trade {

/// What a firm puts on its paper; empty: nothing of its own.
struct Letterhead {
    PaperSize paper = PaperSize::a4;
    std::string language = "en";  ///< of its reports
    std::string firm;
    std::vector<std::string> lines;  ///< address, at most three
    std::optional<Colour> accent;    ///< of the rule beneath
    std::string logo_file;           ///< for messages
    Bytes logo;                      ///< the picture's file, PNG or JPEG; empty: none
};

}  // namespace rigdeed::trade
