// Every schematic on sheets of paper, and every sign of every kind on its own, to be looked at.
// usage: fitting_sheet OUT.pdf

#include <cstdio>
#include <fstream>

#include "drawing/schematic.hpp"
#include "layout/setter.hpp"
#include "pdf/font_metrics.hpp"
#include "pdf/render.hpp"
#include "trade/trade.hpp"

using namespace rigdeed;

namespace {

constexpr std::size_t columns = 4, rows = 4;
constexpr Points column{150}, row{205}, left{0}, top{30};

layout::Page page_of(const layout::Slab& slab) {
    layout::Page page;
    for (const auto& item : slab.items) {
        if (const auto* text = std::get_if<layout::PlacedText>(&item)) page.items.emplace_back(*text);
        if (const auto* shape = std::get_if<layout::PlacedShape>(&item)) page.items.emplace_back(*shape);
    }
    return page;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 2) return 2;
    const trade::Trade trade = trade::load_trade();
    const drawing::SchematicWords words = [&](std::string_view key) { return trade.wording(key); };
    const auto metrics = pdf::font_metrics();
    layout::Pages pages;
    pages.size = {column * columns + 12_pt, row * rows + 30_pt};
    layout::StructureBuilder structure(pages.structure);
    const layout::Setter setter(*metrics, pages.images, structure, pages.size.width);
    const auto& names = drawing::schematic_names();
    for (std::size_t first = 0; first < names.size(); first += columns * rows) {
        layout::Slab slab;
        for (std::size_t i = first; i < std::min(first + columns * rows, names.size()); ++i) {
            const std::size_t cell = i - first;
            const Point at{left + 10_pt + column * static_cast<double>(cell % columns),
                           top + row * static_cast<double>(cell / columns)};
            setter.rule(slab, {at.x, at.y - 16_pt}, column - 10_pt, 0.9_pt);
            setter.line(slab, {at.x, at.y - 5_pt}, names[i], layout::look::row_title);
            setter.drawing(slab, at, drawing::schematic(names[i], words)->drawing);
        }
        pages.pages.push_back(page_of(slab));
    }
    struct Marked {
        const trade::Kind* kind;
        const trade::SignRule* rule;
    };
    std::vector<Marked> signs;
    for (const trade::Kind& kind : trade.kinds)
        for (const trade::SignRule& rule : kind.signs) signs.push_back({&kind, &rule});
    for (std::size_t first = 0; first < signs.size(); first += columns * rows) {
        layout::Slab slab;
        for (std::size_t i = first; i < std::min(first + columns * rows, signs.size()); ++i) {
            const std::size_t cell = i - first;
            const Point at{left + 10_pt + column * static_cast<double>(cell % columns),
                           top + row * static_cast<double>(cell / columns)};
            const trade::SignRule& rule = *signs[i].rule;
            auto drawn = *drawing::schematic(signs[i].kind->schematic, words);
            drawing::mark_signs(drawn, rule.verdict, static_cast<int>(i % 99) + 1, {{rule.at, rule.at, rule.shows}},
                                words);
            setter.line(slab, {at.x, at.y - 14_pt}, signs[i].kind->id + ": " + rule.code, layout::look::row_title);
            setter.line(slab, {at.x, at.y - 5_pt}, rule.name.substr(0, 44), layout::look::caption);
            setter.drawing(slab, at, drawn.drawing);
        }
        pages.pages.push_back(page_of(slab));
    }
    std::ofstream(argv[1], std::ios::binary) << pdf::render_pdf(std::move(pages), {"Schematics", "rigdeed", ""}).bytes;
    return 0;
}
