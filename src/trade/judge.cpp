#include "trade/judge.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "base/text.hpp"

namespace rigdeed::trade {
namespace {

/// "port cap shroud", "port mizzen cap shroud".
std::string placed(const std::string& what, survey::Side side, const std::string& mast, const Wording& words) {
    const bool on_a_side = side != survey::Side::centre;
    if (!on_a_side && mast.empty()) return what;
    const std::string key = "mast." + mast;
    const std::vector<Filling> fillings{{"what", what},
                                        {"side", on_a_side ? words("side." + survey::name_of(side)) : std::string()},
                                        {"mast", words.has(key) ? words(key) : mast}};
    return words(mast.empty() ? "name.side" : on_a_side ? "name.side-mast" : "name.mast", fillings);
}

/// "lower toggle", "upper toggle" or "2. toggle" where a stay (or a side of the mast) has several fittings of one kind.
std::string numbered(const std::string& what, const survey::Fitting& fitting, const survey::Survey& survey,
                     const Wording& words) {
    std::size_t alike = 0, lower = 0;
    bool passed = false;
    for (const survey::Fitting& other : survey.fittings) {
        passed = passed || other.id == fitting.id;
        if (other.kind != fitting.kind || other.stay != fitting.stay || other.side != fitting.side ||
            other.mast != fitting.mast)
            continue;
        ++alike;
        const auto height = other.height.quantity, own = fitting.height.quantity;
        if (height < own || (height == own && !passed)) ++lower;
    }
    if (alike < 2) return what;
    if (alike == 2) return words(lower == 0 ? "name.lower" : "name.upper", {{"what", what}});
    return words("name.place", {{"n", std::to_string(lower + 1)}, {"what", what}});
}

}  // namespace

bool bars_at(const SignRule& rule, const survey::Fitting& fitting) {
    switch (rule.bars) {
        case Bars::never: return false;
        case Bars::at_deck: return fitting.at_deck();
        case Bars::always: return true;
    }
    return true;
}

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
        if (one.seen == nullptr || one.seen->pass == pass) verdict = std::max(verdict, one.rule->verdict);
    return verdict;
}

std::string stay_name(const survey::Stay& stay, const Trade& trade) {
    return placed(trade.role_name(stay.role), stay.side, stay.mast, trade.wording);
}

std::string own_name(const survey::Fitting& fitting, const survey::Survey& survey, const Trade& trade) {
    const Kind* kind = trade.kind(fitting.kind);
    const std::string what = numbered(kind != nullptr ? kind->name : fitting.kind, fitting, survey, trade.wording);
    if (survey.stay(fitting.stay) != nullptr) return what;
    return placed(what, fitting.side.value_or(survey::Side::centre), fitting.mast, trade.wording);
}

std::string fitting_name(const survey::Fitting& fitting, const survey::Survey& survey, const Trade& trade) {
    const survey::Stay* stay = survey.stay(fitting.stay);
    const std::string own = own_name(fitting, survey, trade);
    if (stay == nullptr) return own;
    return trade.wording("name.of-stay", {{"stay", stay_name(*stay, trade)}, {"fitting", own}});
}

}  // namespace rigdeed::trade
