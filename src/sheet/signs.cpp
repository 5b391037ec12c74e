#include <algorithm>

#include "base/text.hpp"
#include "sheet/parts.hpp"
#include "trade/judge.hpp"

namespace rigdeed::sheet {
namespace {

using namespace document;

/// "crack-along: cracks along the barrel"; a code that says it all stands alone.
std::string meaning(const trade::SignRule& rule, const trade::Wording& words) {
    std::string plain = rule.code;
    std::replace(plain.begin(), plain.end(), '-', ' ');
    return plain == rule.name ? rule.code : words("sheet.codes.one", {{"code", rule.code}, {"sign", rule.name}});
}

/// Each kind once, in the order in which one comes to it.
std::vector<const trade::Kind*> kinds_of(const std::vector<const survey::Fitting*>& fittings,
                                         const trade::Trade& trade) {
    std::vector<const trade::Kind*> kinds;
    for (const survey::Fitting* fitting : fittings)
        if (const trade::Kind* kind = trade.kind(fitting->kind);
            kind != nullptr && std::find(kinds.begin(), kinds.end(), kind) == kinds.end())
            kinds.push_back(kind);
    return kinds;
}

}  // namespace

Gate gate(const survey::Survey& survey, const trade::Trade& trade) {
    const trade::Wording& words = trade.wording;
    std::vector<const survey::Fitting*> at_deck;
    for (const survey::Fitting& fitting : survey.fittings)
        if (fitting.at_deck()) at_deck.push_back(&fitting);
    Gate gate;
    gate.title = words("sheet.gate.title");
    gate.bars = {{words("sheet.gate.unseen"), {}}, {words("sheet.gate.cautions"), {}}};
    for (const trade::Kind* kind : kinds_of(at_deck, trade)) {
        std::vector<std::string> signs;
        for (const trade::SignRule& rule : kind->signs)
            if (rule.bars != trade::Bars::never) signs.push_back(rule.name);
        if (!signs.empty()) gate.bars.push_back({kind->name, join(signs, "; ")});
    }
    gate.choices = {words("sheet.gate.clear"), words("sheet.gate.barred")};
    return gate;
}

std::vector<Block> meaning_of_codes(const std::vector<Listed>& listed, const trade::Trade& trade) {
    const trade::Wording& words = trade.wording;
    std::vector<const survey::Fitting*> fittings;
    for (const Listed& one : listed) fittings.push_back(one.fitting);
    Table table;
    table.columns = {{"", 0.2, Align::left}, {"", 0.8, Align::left}};
    RowGroup group;
    for (const trade::Kind* kind : kinds_of(fittings, trade)) {
        std::vector<std::string> signs;
        for (const trade::SignRule& rule : kind->signs) signs.push_back(meaning(rule, words));
        Row row;
        row.cells.resize(2);
        row.cells[0].bold = capitalised(kind->name);
        row.cells[1].lines = {join(signs, "; ")};
        group.rows.push_back(std::move(row));
    }
    table.groups = {std::move(group)};
    return {Block{Heading{Level::section, words("sheet.codes.title"), "", "", ""}},
            Block{Paragraph{words("sheet.codes.intro"), Tone::body}}, Block{std::move(table)}};
}

}  // namespace rigdeed::sheet
