#include "trade/judge.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <tuple>

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

/// Which of several fittings of one kind on a stay (or a side of the mast) it is, from below.
struct Rank {
    std::size_t alike = 1;
    std::size_t lower = 0;
};

Rank rank_of(const survey::Fitting& fitting, const survey::Survey& survey) {
    Rank rank{0, 0};
    bool passed = false;
    for (const survey::Fitting& other : survey.fittings) {
        passed = passed || other.id == fitting.id;
        if (other.kind != fitting.kind || other.stay != fitting.stay || other.side != fitting.side ||
            other.mast != fitting.mast)
            continue;
        ++rank.alike;
        const auto height = other.height.quantity, own = fitting.height.quantity;
        if (height < own || (height == own && !passed)) ++rank.lower;
    }
    return rank;
}

/// The same for all of them.
std::vector<Rank> ranks_of(const survey::Survey& survey) {
    using Key = std::tuple<std::string_view, std::string_view, std::optional<survey::Side>, std::string_view>;
    std::map<Key, std::vector<std::size_t>> groups;
    for (std::size_t i = 0; i < survey.fittings.size(); ++i) {
        const survey::Fitting& one = survey.fittings[i];
        groups[{one.kind, one.stay, one.side, one.mast}].push_back(i);
    }
    std::vector<Rank> ranks(survey.fittings.size());
    for (auto& [key, places] : groups) {
        std::stable_sort(places.begin(), places.end(), [&](std::size_t a, std::size_t b) {
            return survey.fittings[a].height.quantity < survey.fittings[b].height.quantity;
        });
        for (std::size_t n = 0; n < places.size(); ++n) ranks[places[n]] = {places.size(), n};
    }
    return ranks;
}

/// "lower toggle", "upper toggle" or "2. toggle" where there are several.
std::string numbered(const std::string& what, const Rank& rank, const Wording& words) {
    if (rank.alike < 2) return what;
    if (rank.alike == 2) return words(rank.lower == 0 ? "name.lower" : "name.upper", {{"what", what}});
    return words("name.place", {{"n", std::to_string(rank.lower + 1)}, {"what", what}});
}

std::string own_name_by(const Rank& rank, const survey::Fitting& fitting, bool of_stay, const Trade& trade) {
    const Kind* kind = trade.kind(fitting.kind);
    const std::string what = numbered(kind != nullptr ? kind->name : fitting.kind, rank, trade.wording);
    if (of_stay) return what;
    return placed(what, fitting.side.value_or(survey::Side::centre), fitting.mast, trade.wording);
}

std::string whole_name(const std::string& own, const survey::Stay* stay, const Trade& trade) {
    if (stay == nullptr) return own;
    return trade.wording("name.of-stay", {{"stay", stay_name(*stay, trade)}, {"fitting", own}});
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

std::string said_before(const survey::Fitting& fitting, const Trade& trade) {
    if (!fitting.before) return {};
    const trade::Kind* kind = trade.kind(fitting.kind);
    std::vector<std::string> signs;
    for (const survey::Sign& sign : fitting.before->signs) {
        const SignRule* rule = kind != nullptr ? trade.sign(*kind, sign.code) : nullptr;
        signs.push_back(rule != nullptr ? rule->name : sign.code);
    }
    const std::string verdict = trade.wording("verdict." + survey::name_of(fitting.before->verdict));
    return trade.wording(signs.empty() ? "said-before" : "said-before.signs",
                         {{"verdict", verdict}, {"signs", trade.wording.listed(signs)}});
}

std::string own_name(const survey::Fitting& fitting, const survey::Survey& survey, const Trade& trade) {
    return own_name_by(rank_of(fitting, survey), fitting, survey.stay(fitting.stay) != nullptr, trade);
}

std::string fitting_name(const survey::Fitting& fitting, const survey::Survey& survey, const Trade& trade) {
    return whole_name(own_name(fitting, survey, trade), survey.stay(fitting.stay), trade);
}

std::vector<FittingNames> names_of_fittings(const survey::Survey& survey, const Trade& trade) {
    std::map<std::string_view, const survey::Stay*> stays;
    for (const survey::Stay& stay : survey.stays) stays.emplace(stay.id, &stay);
    const std::vector<Rank> ranks = ranks_of(survey);
    std::vector<FittingNames> names;
    for (std::size_t i = 0; i < survey.fittings.size(); ++i) {
        const survey::Fitting& fitting = survey.fittings[i];
        const auto found = stays.find(fitting.stay);
        const survey::Stay* stay = found == stays.end() ? nullptr : found->second;
        std::string own = own_name_by(ranks[i], fitting, stay != nullptr, trade);
        std::string whole = whole_name(own, stay, trade);
        names.push_back({std::move(whole), std::move(own)});
    }
    return names;
}

bool at_lower_end(const survey::Fitting& fitting, const survey::Stay& stay, const survey::Survey& survey,
                  const Trade& trade) {
    const Role* role = trade.role(stay.role);
    if (role == nullptr || role->runs == Runs::deck_to_mast) return fitting.at_deck();
    const auto middle = [&](auto&& counts) {
        double lowest = 1e9, highest = -1e9;
        for (const survey::Fitting& one : survey.fittings) {
            if (one.stay != stay.id || !counts(one)) continue;
            lowest = std::min(lowest, one.height.quantity.value);
            highest = std::max(highest, one.height.quantity.value);
        }
        return highest > lowest ? std::optional((lowest + highest) / 2) : std::nullopt;
    };
    auto bound = middle(
        [&](const survey::Fitting& one) { return trade.is_a(one, KindIs::terminal) || trade.is_a(one, KindIs::eye); });
    if (!bound) bound = middle([](const survey::Fitting&) { return true; });
    return !bound || fitting.height.quantity.value <= *bound;
}

}  // namespace rigdeed::trade
