#include <algorithm>
#include <tuple>

#include "assessment/age.hpp"
#include "assessment/assessment.hpp"
#include "assessment/rules.hpp"
#include "base/text.hpp"

namespace rigdeed::assessment {
namespace {

using survey::Climbed;
using survey::Fitting;
using survey::Survey;
using survey::Way;

/// Why a fitting does not count as inspected; empty if it does.
std::string unseen_reason(const Fitting& fitting, const Survey& survey, const trade::Wording& words) {
    const bool stopped = survey.attendance.climbed == Climbed::stopped;
    if (fitting.not_seen) return *fitting.not_seen;
    if (stopped && !fitting.at_deck()) return words("unseen.stopped", {{"because", survey.attendance.because}});
    const auto unseen = [&](Way pass, const std::string& what) {
        const survey::NotSeenIn* said = fitting.not_seen_on(pass);
        return said == nullptr ? what : what + ": " + said->reason;
    };
    if (fitting.in(Way::up) == nullptr) return unseen(Way::up, words("unseen.up"));
    if (!stopped && fitting.in(Way::down) == nullptr) return unseen(Way::down, words("unseen.down"));
    return {};
}

/// Nobody's word makes milder than "rectify" what is finished or bars climbing.
Verdict floor_of(const FittingVerdict& one) {
    return one.bars_climbing || trade::worst(one.signs) == Verdict::renew ? Verdict::rectify : Verdict::sound;
}

/// The surveyor's own word: a worse verdict always counts, a milder one only with its reason and down to the floor,
/// and nobody's word makes sound what was not seen.
Verdict with_given(const FittingVerdict& one) {
    const auto& given = one.fitting->verdict;
    if (!given) return one.told;
    if (given->is >= one.told) return given->is;
    if (given->because.empty()) return one.told;
    const Verdict is = std::max(given->is, std::min(floor_of(one), one.told));
    return one.unseen_because.empty() ? is : std::max(is, Verdict::unseen);
}

std::vector<trade::JudgedSign> findings_among(std::vector<trade::JudgedSign> signs) {
    std::erase_if(signs, [](const trade::JudgedSign& one) { return one.rule->verdict == Verdict::sound; });
    std::stable_sort(signs.begin(), signs.end(),
                     [](const auto& a, const auto& b) { return a.rule->verdict > b.rule->verdict; });
    return signs;
}

FittingVerdict judge_one(const Fitting& fitting, trade::FittingNames names, const Survey& survey,
                         const trade::Trade& trade, const Withheld& withheld, ToldByMeasure& told) {
    FittingVerdict one;
    one.fitting = &fitting;
    one.stay = survey.stay(fitting.stay);
    one.kind = trade.kind(fitting.kind);
    one.name = std::move(names.whole);
    one.own_name = std::move(names.own);
    std::vector<trade::JudgedSign> signs = trade::judge(fitting, trade);
    make_milder(signs, {fitting, survey, trade}, told);
    add_beyond_limits(signs, {fitting, survey, trade}, told);
    one.signs = findings_among(std::move(signs));
    one.unseen_because = unseen_reason(fitting, survey, trade.wording);
    if (const auto missing = withheld.find(fitting.id); missing != withheld.end() && one.unseen_because.empty())
        one.unseen_because = missing->second;
    one.seen_once = survey.attendance.climbed == Climbed::stopped && one.unseen_because.empty();
    one.told = trade::worst(one.signs);
    if (!one.unseen_because.empty()) one.told = std::max(one.told, Verdict::unseen);
    const bool both = fitting.in(Way::up) != nullptr && fitting.in(Way::down) != nullptr;
    one.passes_differ = both && trade::worst_in(one.signs, Way::up) != trade::worst_in(one.signs, Way::down);
    one.bars_climbing = std::any_of(one.signs.begin(), one.signs.end(), [](const auto& sign) { return sign.bars; });
    one.verdict = with_given(one);
    return one;
}

/// What a stay is without is a finding of its own, with the reason as the surveyor's words.
void add_absent(Assessment& assessment, const Survey& survey, const trade::Trade& trade) {
    for (const survey::Stay& stay : survey.stays)
        for (const survey::Without& without : stay.without) {
            auto fitting = std::make_shared<Fitting>();
            fitting->line = without.line;
            fitting->id = stay.id + "-without-" + without.fitting;
            fitting->kind = without.fitting;
            fitting->stay = stay.id;
            fitting->station = "deck";
            for (const Fitting& other : survey.fittings)
                if (other.stay == stay.id &&
                    (fitting->height.text.empty() || other.height.quantity < fitting->height.quantity))
                    fitting->height = other.height;
            survey::Sign sign;
            sign.line = without.line;
            sign.code = trade::missing;
            sign.words = without.because;
            for (const Way pass : {Way::up, Way::down})
                fitting->seen.push_back({without.line, pass, {}, {}, {}, {sign}});
            assessment.absent.push_back(fitting);
            trade::FittingNames names{trade::fitting_name(*fitting, survey, trade),
                                      trade::own_name(*fitting, survey, trade)};
            assessment.fittings.push_back(judge_one(*fitting, std::move(names), survey, trade, {}, assessment.told));
            assessment.fittings.back().absent = true;
        }
}

}  // namespace

const Consequence* worse_than_signs(const FittingVerdict& one) {
    if (one.consequences.empty() || !one.consequences.front().rule->verdict) return nullptr;  // worst first
    return *one.consequences.front().rule->verdict > trade::worst(one.signs) ? &one.consequences.front() : nullptr;
}

bool renews_stay(const FittingVerdict& one) {
    return one.stay != nullptr && one.verdict == Verdict::renew &&
           (std::any_of(one.signs.begin(), one.signs.end(), [](const auto& sign) { return sign.rule->renews_stay; }) ||
            std::any_of(one.consequences.begin(), one.consequences.end(),
                        [](const Consequence& by) { return by.rule->renews_stay; }));
}

namespace {

void number_findings(Assessment& assessment) {
    for (std::size_t i = 0; i < assessment.fittings.size(); ++i)
        if (assessment.fittings[i].is_finding()) assessment.findings.push_back(i);
    const auto urgency = [&](std::size_t i) {
        const FittingVerdict& one = assessment.fittings[i];
        return std::tuple(one.verdict, one.bars_climbing, renews_stay(one));
    };
    std::stable_sort(assessment.findings.begin(), assessment.findings.end(),
                     [&](std::size_t a, std::size_t b) { return urgency(a) > urgency(b); });
    int number = 0;
    for (const std::size_t i : assessment.findings) assessment.fittings[i].number = ++number;
    for (FittingVerdict& one : assessment.fittings)
        if (one.with) one.number = assessment.fittings[*one.with].number;
}

/// A stay is renewed once, however many of its fittings say so.
void join_renewals(Assessment& assessment) {
    for (const std::size_t i : assessment.findings) {
        FittingVerdict& one = assessment.fittings[i];
        if (!renews_stay(one)) continue;
        for (const std::size_t j : assessment.findings) {
            const FittingVerdict& earlier = assessment.fittings[j];
            if (earlier.number >= one.number) break;
            if (earlier.stay == one.stay && renews_stay(earlier)) {
                one.renewed_with = earlier.number;
                break;
            }
        }
    }
}

/// Masts that the survey names, in its order; one without a name where it names none.
std::vector<std::string> masts_in(const Survey& survey) {
    std::vector<std::string> masts;
    for (const survey::Stay& stay : survey.stays)
        if (!stay.mast.empty()) add_once(masts, stay.mast);
    for (const Fitting& fitting : survey.fittings)
        if (!fitting.mast.empty()) add_once(masts, fitting.mast);
    if (masts.empty()) masts.emplace_back();
    return masts;
}

void bar_masts(Assessment& assessment, const Survey& survey, const trade::Trade& trade) {
    for (const std::string& mast : masts_in(survey)) {
        BarredMast barred{mast, {}};
        for (const std::size_t i : assessment.findings) {
            const FittingVerdict& one = assessment.fittings[i];
            const auto masts = masts_of(*one.fitting, survey, trade);
            if (one.bars_climbing && std::find(masts.begin(), masts.end(), mast) != masts.end())
                barred.items.push_back(one.number);
        }
        if (!barred.items.empty()) assessment.barred.push_back(std::move(barred));
    }
    assessment.do_not_climb = !assessment.barred.empty();
}

Answer answer_of(const Assessment& assessment, const Survey& survey) {
    if (survey.attendance.climbed == Climbed::stopped) return Answer::stopped_at_deck;
    switch (assessment.worst) {
        case Verdict::renew: return Answer::not_to_be_sailed;
        case Verdict::rectify: return Answer::after_work;
        case Verdict::watch:
        case Verdict::unseen:
        case Verdict::sound: break;
    }
    const bool all_seen = std::all_of(
        assessment.fittings.begin(), assessment.fittings.end(),
        [](const FittingVerdict& one) { return one.unseen_because.empty() && one.verdict != Verdict::unseen; });
    return all_seen ? Answer::nothing_found : Answer::nothing_found_in_seen;
}

}  // namespace

std::string words_of(const Consequence& consequence, const std::string& pattern, const FittingVerdict& one,
                     const Assessment& assessment, const trade::Trade& trade) {
    const auto stay_or_fitting = [&](const FittingVerdict& which) {
        return which.stay != nullptr ? trade::stay_name(*which.stay, trade) : which.name;
    };
    const CustomWords custom = one.stay != nullptr ? custom_of(*one.stay, assessment, trade) : CustomWords{};
    const FittingVerdict& first = consequence.because_of ? assessment.fittings[*consequence.because_of] : one;
    return filled(pattern, {{"stay", stay_or_fitting(one)},
                            {"fitting", one.name},
                            {"other", stay_or_fitting(first)},
                            {"item", std::to_string(first.number)},
                            {"date", trade.wording.date(assessment.watch_by)},
                            {"age", custom.age},
                            {"common", custom.common},
                            {"least", custom.least},
                            {"most", custom.most},
                            {"sailed", custom.sailed}});
}

std::vector<std::string> masts_of(const Fitting& fitting, const Survey& survey, const trade::Trade& trade) {
    const survey::Stay* stay = survey.stay(fitting.stay);
    const std::string& own = stay != nullptr ? stay->mast : fitting.mast;
    const trade::Role* role = stay != nullptr ? trade.role(stay->role) : nullptr;
    const bool between = role != nullptr && role->foot.at == trade::Foot::At::other_masthead;
    return own.empty() || between ? masts_in(survey) : std::vector<std::string>{own};
}

Date watch_date(const Survey& survey, const trade::Trade& trade) {
    const int months = trade.interval("watch").months / (survey.yacht.relies_on_rig ? 2 : 1);
    return months_later(survey.attendance.on, std::max(months, 1));
}

std::size_t Assessment::count(Verdict verdict) const {
    return static_cast<std::size_t>(std::count_if(fittings.begin(), fittings.end(),
                                                  [&](const FittingVerdict& one) { return one.verdict == verdict; }));
}

std::string_view name_of(Answer answer) {
    switch (answer) {
        case Answer::nothing_found: return "nothing-found";
        case Answer::nothing_found_in_seen: return "nothing-found-in-seen";
        case Answer::after_work: return "after-work";
        case Answer::not_to_be_sailed: return "not-to-be-sailed";
        case Answer::stopped_at_deck: return "stopped-at-deck";
    }
    return {};
}

Assessment assess(const Survey& survey, const trade::Trade& trade, const Withheld& withheld) {
    Assessment assessment;
    assessment.surveyed = survey.attendance.on;
    assessment.watch_by = watch_date(survey, trade);
    std::vector<trade::FittingNames> names = trade::names_of_fittings(survey, trade);
    for (std::size_t i = 0; i < survey.fittings.size(); ++i)
        assessment.fittings.push_back(
            judge_one(survey.fittings[i], std::move(names[i]), survey, trade, withheld, assessment.told));
    add_absent(assessment, survey, trade);
    apply_rules(assessment.fittings, survey, trade);
    number_findings(assessment);
    join_renewals(assessment);
    assessment.worst = Verdict::sound;
    for (const FittingVerdict& one : assessment.fittings) assessment.worst = std::max(assessment.worst, one.verdict);
    bar_masts(assessment, survey, trade);
    assessment.answer = answer_of(assessment, survey);
    return assessment;
}

}  // namespace rigdeed::assessment
