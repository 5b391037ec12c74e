#include "base/text.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

using assessment::FittingVerdict;

PairCard card(const Material& material, const FittingVerdict& one) {
    const trade::Wording& words = material.trade.wording;
    const auto time = [&](survey::Way pass) {
        const survey::Seen* seen = one.fitting->in(pass);
        return seen != nullptr ? seen->at.hh_mm() : std::string("–");
    };
    PairCard card;
    card.title = capitalised(one.name);
    card.mark = VerdictMark{one.verdict, one.number};
    card.line = words(one.seen_once ? "sound.line-once" : "sound.line",
                      {{"up", time(survey::Way::up)}, {"down", time(survey::Way::down)}});
    if (one.with) card.line = words("sound.with", {{"n", std::to_string(one.number)}});
    for (const survey::Seen& seen : one.fitting->seen)  // dirt and the like: no sign of harm, yet it was written down
        for (const survey::Sign& sign : seen.signs)
            if (const trade::SignRule* rule = material.trade.sign(*one.kind, sign.code); rule != nullptr) {
                const std::string name = sign_words(words, *one.kind, rule->name, sign);
                card.line += " · " + (sign.words.empty() ? name : said(words, name, sign.words));
            }
    for (const survey::Seen& seen : one.fitting->seen)
        for (const auto& [name, role] : {std::pair(seen.far, "photo.far"), std::pair(seen.close, "photo.close")}) {
            if (name.empty()) continue;
            Picture photo = photo_block(material, name, words(role), one.name);
            if (photo.jpeg) photo.caption = name;
            if (name == seen.far) photo.ring = seen.on_far;
            card.photos.push_back(std::move(photo));
        }
    return card;
}

}  // namespace

void sound_fittings(const Material& material, Blocks& blocks) {
    const trade::Wording& words = material.trade.wording;
    PairGrid grid;
    grid.anchor = sound_anchor;
    bool once = false;
    for (const FittingVerdict& one : material.assessment.fittings) {
        if (one.is_finding()) continue;
        once = once || one.seen_once;
        grid.cards.push_back(card(material, one));
    }
    const char* intro = grid.cards.empty() ? "sound.none" : once ? "sound.intro-once" : "sound.intro";
    add(blocks, Paragraph{words(intro), Tone::intro});
    if (!grid.cards.empty()) add(blocks, std::move(grid));
}

}  // namespace rigdeed::report
