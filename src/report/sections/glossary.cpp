#include <algorithm>

#include "base/text.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

struct Entry {
    std::string word;
    std::string text;
};

/// Words that stand in every report of this kind, and when.
struct Term {
    const char* key;
    bool (*used)(const Material& material);
};

bool always(const Material&) { return true; }
bool has_findings(const Material& material) { return !material.assessment.findings.empty(); }
bool has_strand(const Material& material) {
    return std::any_of(material.survey.stays.begin(), material.survey.stays.end(),
                       [](const auto& stay) { return stay.make == "1x19"; });
}
bool is_sealed(const Material& material) { return material.signer.has_value(); }
bool was_climbed(const Material& material) { return material.survey.attendance.climbed == survey::Climbed::yes; }

constexpr Term terms[]{
    {"penetrant", has_findings}, {"loupe", has_findings}, {"strand", has_strand}, {"passes", was_climbed},
    {"digest", always},          {"seal", is_sealed},     {"galvanic", always},   {"fitting", always},
};

std::vector<Entry> entries(const Material& material) {
    const trade::Wording& words = material.trade.wording;
    std::vector<Entry> all;
    for (const Term& term : terms)
        if (term.used(material))
            all.push_back(
                {words("glossary." + std::string(term.key)), words("glossary." + std::string(term.key) + ".text")});
    for (const trade::Kind& kind : material.trade.kinds) {
        const bool here = std::any_of(material.survey.fittings.begin(), material.survey.fittings.end(),
                                      [&](const survey::Fitting& one) { return one.kind == kind.id; });
        if (here) all.push_back({kind.name, kind.plain});
    }
    std::sort(all.begin(), all.end(), [](const Entry& a, const Entry& b) { return a.word < b.word; });
    return all;
}

}  // namespace

void glossary(const Material& material, Blocks& blocks) {
    const trade::Wording& words = material.trade.wording;
    add(blocks, Paragraph{words("glossary.intro"), Tone::intro});
    Table table;
    table.small = true;
    table.columns = {
        {"", 0.16, Align::left}, {"", 0.34, Align::left}, {"", 0.16, Align::left}, {"", 0.34, Align::left}};
    RowGroup group;
    const std::vector<Entry> all = entries(material);
    const std::size_t half = (all.size() + 1) / 2;  // read down the left, then down the right
    for (std::size_t i = 0; i < half; ++i) {
        Row row;
        row.cells.resize(4);
        for (const std::size_t k : {i, i + half}) {
            if (k >= all.size()) continue;
            const std::size_t cell = k == i ? 0 : 2;
            row.cells[cell].bold = all[k].word;
            row.cells[cell + 1].lines = {all[k].text};
        }
        group.rows.push_back(std::move(row));
    }
    table.groups = {std::move(group)};
    add(blocks, std::move(table));
}

}  // namespace rigdeed::report
