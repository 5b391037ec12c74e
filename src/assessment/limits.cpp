#include "assessment/limits.hpp"

#include <algorithm>
#include <array>

#include "assessment/assessment.hpp"
#include "base/text.hpp"
#include "trade/limits.hpp"

namespace rigdeed::assessment {
namespace {

using trade::Limit;

bool holds(const std::vector<std::string>& list, const std::string& word) {
    return list.empty() || std::find(list.begin(), list.end(), word) != list.end();
}

bool applies(const Limit& limit, const Place& place) {
    if (!holds(limit.kinds, place.fitting.kind)) return false;
    if (limit.makes.empty() && limit.roles.empty()) return true;
    const survey::Stay* stay = place.stay();
    return stay != nullptr && holds(limit.makes, stay->make) && holds(limit.roles, stay->role);
}

// What is written with two decimals and calculated back must not be beyond its own limit.
constexpr double nothing = 1e-9;

bool beyond(const Limit& limit, double value) {
    return limit.least ? value < limit.value - nothing : value > limit.value + nothing;
}

const trade::QuantityName& quantity(const std::string& id) {
    return *std::find_if(trade::quantity_names.begin(), trade::quantity_names.end(),
                         [&](const trade::QuantityName& one) { return one.id == id; });
}

std::string in_words(double value, const trade::QuantityName& of, const trade::Wording& words, int finer = 0) {
    return words.numbers(printed(value, of.unit, of.decimals + finer, UnitSystem::metric));
}

/// As fine as it takes not to read like its own limit: "0.996", not "1.00, less than 1.00".
std::string beside_limit(double value, const Limit& limit, const trade::QuantityName& of, const trade::Wording& words) {
    constexpr int finest = 3;
    int finer = 0;
    while (finer < finest && in_words(value, of, words, finer) == in_words(limit.value, of, words, finer)) ++finer;
    return in_words(value, of, words, finer);
}

/// The first of the limit's places that a sign of the kind uses; else where its first sign is.
std::string place_of(const Limit& limit, const trade::Kind& kind) {
    for (const std::string& at : limit.at)
        if (std::any_of(kind.signs.begin(), kind.signs.end(), [&](const auto& sign) { return sign.at == at; }))
            return at;
    return kind.signs.empty() ? std::string() : kind.signs.front().at;
}

std::shared_ptr<Told> told_of(const Limit& limit, double value, const Place& place) {
    const trade::QuantityName& of = quantity(limit.of);
    const survey::Stay* stay = place.stay();
    const std::vector<Filling> fillings{
        {"stay", stay != nullptr ? trade::stay_name(*stay, place.trade) : place.trade.wording("name.stay")},
        {"fitting", trade::fitting_name(place.fitting, place.survey, place.trade)},
        {"value", beyond(limit, value) ? beside_limit(value, limit, of, place.trade.wording)
                                       : in_words(value, of, place.trade.wording)},
        {"limit", in_words(limit.value, of, place.trade.wording)},
        {"date", place.trade.wording.date(watch_date(place.survey, place.trade))}};
    auto told = std::make_shared<Told>();
    told->rule = limit.rule;
    trade::SignRule& rule = told->rule;
    for (std::string* text : {&rule.name, &rule.plainly, &rule.means, &rule.act, &rule.then, &rule.work})
        *text = filled(*text, fillings);
    rule.at = place_of(limit, *place.trade.kind(place.fitting.kind));
    told->sign.code = rule.code;
    for (const survey::Measured& measured : place.fitting.measured)
        if (told->sign.line == 0) told->sign.line = measured.line;
    return told;
}

/// Of two limits of one quantity the worse; of equals the farther one.
bool worse(const Limit& a, const Limit& b) {
    if (a.rule.verdict != b.rule.verdict) return a.rule.verdict > b.rule.verdict;
    return a.least ? a.value < b.value : a.value > b.value;
}

}  // namespace

void add_beyond_limits(std::vector<trade::JudgedSign>& signs, const Place& place, ToldByMeasure& told) {
    std::vector<std::pair<const Limit*, double>> found;
    for (const Limit& limit : place.trade.limits) {
        if (!applies(limit, place)) continue;
        const auto value = quantity_of(limit.of, place);
        if (!value || !beyond(limit, *value)) continue;
        const auto same = std::find_if(found.begin(), found.end(), [&](const auto& one) {
            return one.first->of == limit.of && one.first->least == limit.least;
        });
        if (same == found.end()) found.emplace_back(&limit, *value);
        else if (worse(limit, *same->first)) same->first = &limit;
    }
    for (const auto& [limit, value] : found) {
        auto one = told_of(*limit, value, place);
        signs.push_back({&one->sign, nullptr, &one->rule, trade::bars_at(one->rule, place.fitting)});
        told.push_back(std::move(one));
    }
}

std::vector<HeldAgainst> held_against_limits(const survey::Survey& survey, const trade::Trade& trade) {
    std::vector<HeldAgainst> all;
    for (const survey::Fitting& fitting : survey.fittings) {
        const Place place{fitting, survey, trade};
        const std::size_t first = all.size();
        for (const Limit& limit : trade.limits) {
            const auto value = applies(limit, place) ? quantity_of(limit.of, place) : std::nullopt;
            if (!value) continue;
            const HeldAgainst fresh{&fitting,
                                    &limit,
                                    *value,
                                    quantity(limit.of).unit,
                                    beyond(limit, *value),
                                    beyond(limit, *value) && trade::bars_at(limit.rule, fitting),
                                    {}};
            const auto same = std::find_if(all.begin() + static_cast<long>(first), all.end(), [&](const auto& one) {
                return one.limit->of == limit.of && one.limit->least == limit.least;
            });
            if (same == all.end()) all.push_back(fresh);
            else if (fresh.beyond ? !same->beyond || worse(limit, *same->limit)
                                  : !same->beyond && worse(*same->limit, limit))
                *same = fresh;
        }
        for (std::size_t i = first; i < all.size(); ++i)
            all[i].words = told_of(*all[i].limit, all[i].value, place)->rule.name;
    }
    return all;
}

void make_milder(std::vector<trade::JudgedSign>& signs, const Place& place, ToldByMeasure& told) {
    for (const trade::Milder& row : place.trade.milder) {
        const auto value = quantity_of(row.of, place);
        if (!value || *value < row.least - nothing) continue;
        for (trade::JudgedSign& sign : signs) {
            if (sign.rule->verdict <= row.verdict ||
                std::find(row.signs.begin(), row.signs.end(), sign.rule->code) == row.signs.end())
                continue;
            auto one = std::make_shared<Told>();
            one->rule = *sign.rule;
            one->rule.verdict = row.verdict;
            one->rule.bars = trade::Bars::never;
            one->rule.means +=
                " " + filled(row.because, {{"value", in_words(*value, quantity(row.of), place.trade.wording)}});
            one->rule.source = row.source;
            sign.rule = &one->rule;
            sign.bars = false;
            told.push_back(std::move(one));
        }
    }
}

}  // namespace rigdeed::assessment
