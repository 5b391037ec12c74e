#pragma once

#include <vector>

#include "document/block.hpp"
#include "pairing/places.hpp"
#include "sheet/climb_sheet.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"

/// The parts that compose_climb_sheet puts together.
namespace rigdeed::sheet {

/// A fitting on the sheet.
struct Listed {
    const survey::Fitting* fitting = nullptr;
    int number = 0;     ///< its place in the climbing order
    bool told = false;  ///< what the survey has of it stands in its boxes
};

[[nodiscard]] std::vector<Listed> list_fittings(const survey::Survey& survey, const trade::Trade& trade, Scope scope);

/// Their rows, those that follow each other at one station under one band.
[[nodiscard]] document::TickTable tick_table(const std::vector<Listed>& listed, const survey::Survey& survey,
                                             const trade::Trade& trade, bool with_codes);

/// The codes of a place, each `side` wide.
[[nodiscard]] document::PlaceCodes place_codes(const pairing::Place& place, const survey::Survey& survey,
                                               const trade::Trade& trade, Points side);

/// What forbids going up: by kind of fitting that this rig has at the deck, the signs that bar climbing there.
[[nodiscard]] document::Gate gate(const survey::Survey& survey, const trade::Trade& trade);

/// All signs of the kinds on the sheet, code and name.
[[nodiscard]] std::vector<document::Block> meaning_of_codes(const std::vector<Listed>& listed,
                                                            const trade::Trade& trade);

}  // namespace rigdeed::sheet
