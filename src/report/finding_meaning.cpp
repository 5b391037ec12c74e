#include "report/finding_meaning.hpp"

#include <algorithm>

#include "assessment/advice.hpp"
#include "base/text.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

using assessment::FittingVerdict;
using survey::Way;

class Meaning {
 public:
    Meaning(const Material& material, const FittingVerdict& one)
        : material_(material), words_(material.trade.wording), one_(one) {}

    TwoTexts meaning() const {
        std::vector<std::string> means;
        std::vector<std::string> act;
        std::vector<const trade::SignRule*> told;
        for (const trade::JudgedSign& sign : one_.signs) {
            if (std::find(told.begin(), told.end(), sign.rule) != told.end()) continue;
            told.push_back(sign.rule);
            if (!sign.rule->plainly.empty()) means.push_back(filled_rule(sign.rule->plainly, one_, material_.trade));
            means.push_back(filled_rule(sign.rule->means, one_, material_.trade));
            if (!assessment::asks(sign, one_)) continue;
            act.push_back(filled_rule(sign.rule->act, one_, material_.trade));
            if (!sign.rule->then.empty()) act.push_back(filled_rule(sign.rule->then, one_, material_.trade));
        }
        if (!one_.unseen_because.empty()) {
            means.push_back(words_("finding.unseen.means"));
            act.push_back(words_("finding.unseen.do"));
        }
        for (const assessment::Consequence& consequence : one_.consequences) {
            means.push_back(filled_rule(consequence.rule->means, one_, consequence, material_));
            if (std::string advice = assessment::advice_of(consequence, one_, material_.assessment, material_.trade);
                !advice.empty())
                act.push_back(std::move(advice));
        }
        for (const trade::JudgedSign& sign : one_.signs)
            if (sign.bars && sign.seen != nullptr && sign.seen->pass == Way::up && !one_.fitting->at_deck() &&
                material_.survey.attendance.climbed == survey::Climbed::yes) {
                means.push_back(words_("finding.seen-aloft", {{"time", sign.seen->at.hh_mm()}}));
                break;
            }
        if (one_.verdict == Verdict::watch && !one_.signs.empty() && !assessment::goes_with(one_, material_.assessment))
            act.push_back(words_("finding.watch-by", {{"date", words_.date(material_.assessment.watch_by)}}));
        if (means.empty()) means.push_back(words_("finding.given.means"));
        if (act.empty()) act.push_back(words_("finding.given.do"));
        if (one_.fitting->verdict) means.push_back(surveyors_word());
        return {words_("finding.means"), said_once(means), words_("finding.do"), said_once(act)};
    }

    std::string source() const {
        std::vector<std::string> sentences;
        for (const trade::JudgedSign& sign : one_.signs) {
            const std::string sentence =
                words_("finding.source", {{"rule", said(words_, one_.kind->name + ", " + sign.rule->name,
                                                        verdict_word(sign.rule->verdict, words_))},
                                          {"source", sign.rule->source}});
            if (std::find(sentences.begin(), sentences.end(), sentence) == sentences.end())
                sentences.push_back(sentence);
        }
        for (const assessment::Consequence& consequence : one_.consequences)
            sentences.push_back(
                words_("finding.source", {{"rule", filled_rule(consequence.rule->name, one_, consequence, material_)},
                                          {"source", consequence.rule->source}}));
        for (const survey::Measured& measured : one_.fitting->measured)
            if (const std::string how = how_measured(measured, material_); !how.empty()) sentences.push_back(how);
        if (!one_.signs.empty()) sentences.push_back(words_("finding.look", {{"look", one_.kind->look}}));
        return join(sentences, " ");
    }

 private:
    std::string surveyors_word() const {
        const survey::GivenVerdict& given = *one_.fitting->verdict;
        const std::string word = verdict_word(given.is, words_);
        if (given.because.empty()) return words_("finding.surveyor-plain", {{"verdict", word}});
        return words_("finding.surveyor", {{"verdict", word}, {"because", given.because}}) +
               (given.because.ends_with('.') ? "" : ".");
    }

    const Material& material_;
    const trade::Wording& words_;
    const FittingVerdict& one_;
};

}  // namespace

document::TwoTexts finding_meaning(const Material& material, const FittingVerdict& one) {
    return Meaning(material, one).meaning();
}

std::string finding_source(const Material& material, const FittingVerdict& one) {
    return Meaning(material, one).source();
}

}  // namespace rigdeed::report
