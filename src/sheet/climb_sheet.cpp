#include "sheet/climb_sheet.hpp"

#include <algorithm>
#include <iterator>

#include "base/text.hpp"
#include "sheet/parts.hpp"

namespace rigdeed::sheet {
namespace {

using namespace document;

template <class T>
void add(std::vector<Block>& blocks, T block) {
    blocks.push_back(Block{std::move(block)});
}

/// "?" stands in a new survey for what is to be filled in.
bool known(const std::string& text) { return !text.empty() && text != "?"; }

LinesToWriteOn lines_to_write_on(const survey::Survey& survey, const trade::Wording& words) {
    LinesToWriteOn lines;
    if (!known(survey.yacht.name)) lines.lines.push_back({words("sheet.yacht"), 1});
    lines.lines.push_back({words("sheet.date"), 0.7});
    lines.lines.push_back({words("sheet.climber"), 1});
    lines.lines.push_back({words("sheet.on-the-lines"), 1.3});
    double sum = 0;
    for (const auto& line : lines.lines) sum += line.share;
    for (auto& line : lines.lines) line.share /= sum;
    return lines;
}

BoxKey box_key(const trade::Wording& words) {
    return {{{Ticked::tick, words("sheet.key.seen")},
             {Ticked::cross, words("sheet.key.sign")},
             {Ticked::hatch, words("sheet.key.unseen")},
             {Ticked::heavy, words("sheet.key.bars")}}};
}

std::string subtitle(const survey::Survey& survey, const trade::Wording& words) {
    std::vector<std::string> parts{words("footer.survey", {{"number", survey.number}})};
    if (known(survey.yacht.name)) parts.insert(parts.begin(), survey.yacht.name);
    return join(parts, ", ");
}

std::string intro(std::size_t listed, const survey::Survey& survey, Scope scope, const trade::Wording& words) {
    return words(scope == Scope::missing ? "sheet.intro-missing" : "sheet.intro",
                 {{"n", std::to_string(listed)}, {"all", std::to_string(survey.fittings.size())}});
}

Document paper(const survey::Survey& survey, const trade::Wording& words) {
    Document sheet;
    sheet.head.yacht = known(survey.yacht.name) ? survey.yacht.name : std::string();
    sheet.foot.paper = words("footer.survey", {{"number", survey.number}});
    sheet.foot.data = words("sheet.foot");
    sheet.foot.page_of_pages = words("footer.page", {{"page", "{page}"}, {"pages", "{pages}"}});
    return sheet;
}

}  // namespace

Document compose_cards(const survey::Survey& survey, const trade::Trade& trade) {
    constexpr Points side{112};
    const trade::Wording& words = trade.wording;
    Document cards = paper(survey, words);
    PlaceCards block;
    for (const pairing::Place& place : pairing::places_of(survey))
        block.cards.push_back(place_codes(place, survey, trade, side));
    add(cards.blocks, Heading{Level::title, words("sheet.cards.title"), "", "cards", ""});
    add(cards.blocks, Paragraph{subtitle(survey, words), Tone::bold});
    add(cards.blocks, Paragraph{words("sheet.cards.intro"), Tone::body});
    add(cards.blocks, std::move(block));
    return cards;
}

std::optional<Document> compose_climb_sheet(const survey::Survey& survey, const assessment::Assessment& assessment,
                                            const trade::Trade& trade, Scope scope, bool with_codes) {
    const trade::Wording& words = trade.wording;
    const std::vector<Listed> listed = list_fittings(survey, trade, scope);
    if (listed.empty()) return std::nullopt;
    Document sheet = paper(survey, words);
    std::vector<Block>& blocks = sheet.blocks;
    add(blocks, Heading{Level::title, words("sheet.title"), "", "sheet", ""});
    add(blocks, Paragraph{subtitle(survey, words), Tone::bold});
    add(blocks, lines_to_write_on(survey, words));
    add(blocks, Caution{words("sheet.cautions"), assessment::cautions_for("sheet", assessment, survey, trade), {}});
    add(blocks, Paragraph{intro(listed.size(), survey, scope, words), Tone::body});
    add(blocks, box_key(words));
    const auto aloft =
        survey.attendance.climbed == survey::Climbed::no
            ? listed.end()
            : std::find_if(listed.begin(), listed.end(), [](const Listed& one) { return !one.fitting->at_deck(); });
    if (aloft != listed.begin()) add(blocks, tick_table({listed.begin(), aloft}, survey, trade, with_codes));
    if (aloft != listed.end()) {
        add(blocks, gate(survey, trade));
        add(blocks, tick_table({aloft, listed.end()}, survey, trade, with_codes));
    }
    std::vector<Block> codes = meaning_of_codes(listed, trade);
    std::move(codes.begin(), codes.end(), std::back_inserter(blocks));
    return sheet;
}

}  // namespace rigdeed::sheet
