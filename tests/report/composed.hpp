#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <variant>
#include <vector>

#include "pipeline.hpp"
#include "report/compose.hpp"

/// Reports as blocks, made from a survey file.
namespace rigdeed::sample {

struct Composed {
    std::unique_ptr<Inspected> inspected;
    document::Document report;
};

/// What a report of this inspection says, on a day of its own.
inline document::Document report_of(const Inspected& inspected, const trade::Trade& trade,
                                    std::optional<report::SignerFacts> signer = std::nullopt) {
    return report::compose_report({inspected.survey,
                                   trade,
                                   inspected.evidence,
                                   inspected.completeness,
                                   inspected.assessment,
                                   inspected.calculations,
                                   drawing::rig_geometry(inspected.survey, trade),
                                   inspected.units,
                                   {},
                                   {2026, 10, 5},
                                   std::move(signer),
                                   {}});
}

inline Composed composed(const std::filesystem::path& file, const trade::Trade& trade,
                         std::optional<report::SignerFacts> signer = std::nullopt) {
    Composed made{inspect(file, trade, {.jobs = 1, .for_print = true, .units = {}, .progress = {}}).inspected, {}};
    made.report = report_of(*made.inspected, trade, std::move(signer));
    return made;
}

/// All blocks of one type, in order, those that are kept together, too.
template <class T>
void collect(const std::vector<document::Block>& blocks, std::vector<T>& found) {
    for (const document::Block& block : blocks) {
        if (const auto* one = std::get_if<T>(&block.value)) found.push_back(*one);
        if (const auto* together = std::get_if<document::Together>(&block.value)) collect(together->blocks, found);
        if (const auto* stack = std::get_if<document::Stack>(&block.value))
            for (const document::Stack::Piece& piece : stack->pieces) collect(piece.ways.front(), found);
    }
}

template <class T>
std::vector<T> blocks_of(const document::Document& document) {
    std::vector<T> found;
    collect(document.blocks, found);
    return found;
}

/// The blocks between the title with this anchor and the next title.
inline document::Document chapter(const document::Document& document, const std::string& anchor) {
    document::Document part;
    bool inside = false;
    for (const document::Block& block : document.blocks) {
        const auto* heading = std::get_if<document::Heading>(&block.value);
        if (heading != nullptr && heading->level == document::Level::title) inside = heading->anchor == anchor;
        if (inside) part.blocks.push_back(block);
    }
    return part;
}

}  // namespace rigdeed::sample
