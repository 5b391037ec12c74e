#pragma once

#include <string>
#include <vector>

#include "drawing/shape.hpp"
#include "survey/survey.hpp"

namespace rigdeed::drawing {

struct BeadWords {
    std::string deck;
    std::string masthead;
    std::string first;  ///< under the stretch at the deck
    std::string aloft;
    std::string alternative;
};

/// One small verdict shape a fitting on a thread, in climbing order, deck left, masthead right; an upright stroke
/// where the deck level ends. More than 90 stand in rows.
[[nodiscard]] Drawing beads(const std::vector<survey::Verdict>& verdicts, std::size_t at_deck, Points width,
                            const BeadWords& words);

/// The data digest as strokes round a 1x19 section: stroke i of 64 at 360 i / 64 degrees clockwise from the top,
/// longer for a larger hex figure. For the eye; the digest is the proof. `hex` has 64 figures.
[[nodiscard]] Drawing rose(const std::string& hex, Points radius, const std::string& alternative);

}  // namespace rigdeed::drawing
