#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

constexpr std::size_t most_on_cover = 3;

std::string softened_words(const Softened& one, const trade::Wording& words) {
    const std::string key = one.by_own < one.by_program ? "own-rules.milder" : "own-rules.bar";
    return words(key, {{"fitting", one.fitting},
                       {"own", verdict_word(one.by_own, words)},
                       {"program", verdict_word(one.by_program, words)}});
}

std::string sum(const OwnRules& rules, const trade::Wording& words) {
    return rules.softened.empty() ? words("own-rules.none") : words.count("own-rules.sum", rules.softened.size());
}

}  // namespace

void own_rules_first(const Material& material, Blocks& blocks) {
    if (!material.own_rules) return;
    const trade::Wording& words = material.trade.wording;
    const OwnRules& rules = *material.own_rules;
    Caution caution{words("own-rules.title"), {sum(rules, words)}, {}};
    for (std::size_t i = 0; i < rules.softened.size() && i < most_on_cover; ++i)
        caution.paragraphs.front() += " " + capitalised(softened_words(rules.softened[i], words)) + ".";
    if (rules.softened.size() > most_on_cover) caution.paragraphs.front() += " " + words("own-rules.more");
    add(blocks, std::move(caution));
}

void own_rules_in_full(const Material& material, Blocks& blocks) {
    if (!material.own_rules) return;
    const trade::Wording& words = material.trade.wording;
    const OwnRules& rules = *material.own_rules;
    add(blocks, Heading{Level::section, words("own-rules.title"), "", "", ""});
    add(blocks, Paragraph{words("own-rules.text", {{"names", words.listed(rules.names)}}) + " " + sum(rules, words),
                          Tone::body});
    for (const Softened& one : rules.softened)
        add(blocks, Paragraph{capitalised(softened_words(one, words)) + ".", Tone::body});
}

}  // namespace rigdeed::report
