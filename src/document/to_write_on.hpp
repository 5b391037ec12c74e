#pragma once

#include <optional>
#include <string>
#include <vector>

#include "drawing/shape.hpp"

/// Blocks that are printed to be written on by hand.
namespace rigdeed::document {

/// Labels side by side, each with a line behind it.
struct LinesToWriteOn {
    struct Line {
        std::string label;
        double share = 1;  ///< of the width
    };
    std::vector<Line> lines;
};

enum class Ticked { tick, cross, hatch, heavy };

/// What is meant by the ways to fill in a box.
struct BoxKey {
    struct Entry {
        Ticked box = Ticked::tick;
        std::string words;
    };
    std::vector<Entry> entries;
};

/// A place with its codes, one a pass, to be photographed before the fittings there.
struct PlaceCodes {
    std::string title;
    std::string hint;
    std::string up_word, down_word;
    drawing::Drawing up, down;  ///< square
};

/// A fitting to tick off: what to look for, a box a pass, boxes for two photo numbers, room for a time and a word.
struct TickRow {
    struct Sign {
        std::string code;
        bool bars = false;  ///< climbing: its box is heavy
    };
    /// A box, or what is known already and needs none.
    using Box = std::string;

    int number = 0;
    std::string title;
    std::string whose;  ///< the stay; may be empty
    std::string height;
    std::string before;       ///< what was said last time; may be empty
    std::vector<Sign> signs;  ///< as many as two lines hold are printed, one where the names are long
    Box up, down, far, close;
    std::optional<PlaceCodes> place;  ///< that begins with this row
};

/// Rows by station; a station's band stands above them, and again where they go on.
struct TickTable {
    struct Heads {
        std::string up, down, far, close, note;
    };
    struct Station {
        std::string name;
        std::string question;  ///< with a line behind it
        std::vector<TickRow> rows;
    };
    Heads heads;
    std::vector<Station> stations;
};

/// The same codes as cards for a ring: four a page, to be cut.
struct PlaceCards {
    std::vector<PlaceCodes> cards;
};

/// Where one stops and decides: never broken.
struct Gate {
    struct Bar {
        std::string what;
        std::string signs;  ///< may be empty
    };
    std::string title;
    std::vector<Bar> bars;
    std::vector<std::string> choices;  ///< each with a box
};

}  // namespace rigdeed::document
