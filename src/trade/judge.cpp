#include "trade/judge.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "base/text.hpp"

namespace rigdeed::trade {
namespace {

bool bars_at(const SignRule& rule, const survey::Fitting& fitting) {
    switch (rule.bars) {
        case Bars::never: return false;
        case Bars::at_deck: return fitting.at_deck();
        case Bars::always: return true;
    }
    return true;
}

std::string side_prefix(survey::Side side) {
    return side == survey::Side::centre ? std::string() : survey::name_of(side) + " ";
}

std::string mast_prefix(const std::string& mast) { return mast.empty() ? std::string() : mast + " "; }

/// "lower ", "upper " or "2nd " where a stay (or a side of the mast) has several fittings of one kind.
std::string place_among(const survey::Fitting& fitting, const survey::Survey& survey) {
    std::vector<const survey::Fitting*> alike;
    for (const survey::Fitting& other : survey.fittings)
        if (other.kind == fitting.kind && other.stay == fitting.stay && other.side == fitting.side &&
            other.mast == fitting.mast)
            alike.push_back(&other);
    if (alike.size() < 2) return {};
    std::stable_sort(alike.begin(), alike.end(),
                     [](const auto* a, const auto* b) { return a->height.quantity < b->height.quantity; });
    const auto place =
        std::find_if(alike.begin(), alike.end(), [&](const auto* one) { return one->id == fitting.id; }) -
        alike.begin();
    if (alike.size() == 2) return place == 0 ? "lower " : "upper ";
    return std::to_string(place + 1) + ". ";
}

}  // namespace

std::vector<JudgedSign> judge(const survey::Fitting& fitting, const Trade& trade) {
    const Kind* kind = trade.kind(fitting.kind);
    if (kind == nullptr) throw Error("a kind that was not checked", fitting.id, {}, ExitCode::bug);
    std::vector<JudgedSign> signs;
    for (const survey::Seen& seen : fitting.seen)
        for (const survey::Sign& sign : seen.signs) {
            const SignRule* rule = trade.sign(*kind, sign.code);
            if (rule == nullptr) throw Error("a sign that was not checked", fitting.id, {}, ExitCode::bug);
            signs.push_back({&sign, &seen, rule, bars_at(*rule, fitting)});
        }
    return signs;
}

Verdict worst(const std::vector<JudgedSign>& signs) {
    Verdict verdict = Verdict::sound;
    for (const JudgedSign& one : signs) verdict = std::max(verdict, one.rule->verdict);
    return verdict;
}

Verdict worst_in(const std::vector<JudgedSign>& signs, survey::Way pass) {
    Verdict verdict = Verdict::sound;
    for (const JudgedSign& one : signs)
        if (one.seen->pass == pass) verdict = std::max(verdict, one.rule->verdict);
    return verdict;
}

std::string stay_name(const survey::Stay& stay, const Trade& trade) {
    return side_prefix(stay.side) + mast_prefix(stay.mast) + trade.role_name(stay.role);
}

std::string fitting_name(const survey::Fitting& fitting, const survey::Survey& survey, const Trade& trade) {
    const Kind* kind = trade.kind(fitting.kind);
    const std::string what = place_among(fitting, survey) + (kind != nullptr ? kind->name : fitting.kind);
    const survey::Stay* stay = survey.stay(fitting.stay);
    if (stay != nullptr) return stay_name(*stay, trade) + ", " + what;
    return side_prefix(fitting.side.value_or(survey::Side::centre)) + mast_prefix(fitting.mast) + what;
}

}  // namespace rigdeed::trade
