#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <tuple>

#include "base/text.hpp"
#include "completeness/completeness.hpp"
#include "drawing/code.hpp"
#include "sheet/parts.hpp"
#include "trade/judge.hpp"

namespace rigdeed::sheet {
namespace {

using document::TickRow;
using document::TickTable;
using survey::Fitting;
using survey::Way;

/// What a survey file can lack of a fitting that one goes up for; whether photos lie in their folder is for `check`.
constexpr std::array missing_looks{"not-seen-up",       "not-seen-down",     "no-photo-pair",
                                   "sign-without-pair", "far-without-close", "close-without-far"};

/// Signs come in the order of the template, which has the commonest first.
constexpr std::size_t most_signs = 6;

std::vector<TickRow::Sign> signs_of(const Fitting& fitting, const trade::Trade& trade) {
    std::vector<TickRow::Sign> signs;
    const trade::Kind* kind = trade.kind(fitting.kind);
    if (kind == nullptr) return signs;
    for (const trade::SignRule& rule : kind->signs)
        if (signs.size() < most_signs) signs.push_back({rule.code, trade::bars_at(rule, fitting)});
    return signs;
}

void tell(TickRow& row, const Fitting& fitting, const survey::Survey& survey) {
    for (const auto& [pass, box] : {std::pair(Way::up, &row.up), std::pair(Way::down, &row.down)}) {
        const survey::Seen* seen = fitting.in(pass);
        if (seen != nullptr) *box = seen->at.hh_mm();
        else if (!completeness::must_be_seen(fitting, pass, survey)) *box = "–";
    }
    const auto pair = std::find_if(fitting.seen.begin(), fitting.seen.end(),
                                   [](const survey::Seen& seen) { return seen.has_pair(); });
    if (pair == fitting.seen.end()) return;
    row.far = pair->far;
    row.close = pair->close;
}

TickRow row_of(const Listed& one, const survey::Survey& survey, const trade::Trade& trade) {
    TickRow row;
    row.number = one.number;
    row.title = capitalised(trade::own_name(*one.fitting, survey, trade));
    if (const survey::Stay* stay = survey.stay(one.fitting->stay)) row.whose = trade::stay_name(*stay, trade);
    row.height = trade.wording.numbers(one.fitting->height.text);
    row.before = trade::said_before(*one.fitting, trade);
    row.signs = signs_of(*one.fitting, trade);
    if (one.told) tell(row, *one.fitting, survey);
    return row;
}

/// "Spreaders 1, mizzen"
std::string station_name(const Fitting& fitting, const survey::Survey& survey, const trade::Wording& words) {
    constexpr std::string_view spreader = "spreader-";
    const bool numbered = fitting.station.starts_with(spreader);
    const std::string name = numbered
                                 ? words("sheet.station.spreader", {{"n", fitting.station.substr(spreader.size())}})
                                 : words("sheet.station." + fitting.station);
    const survey::Stay* stay = survey.stay(fitting.stay);
    const std::string mast = stay != nullptr ? stay->mast : fitting.mast;
    if (fitting.at_deck() || mast.empty()) return name;
    return name + ", " + (words.has("mast." + mast) ? words("mast." + mast) : mast);
}

}  // namespace

std::vector<Listed> list_fittings(const survey::Survey& survey, const trade::Trade& trade, Scope scope) {
    std::vector<Listed> listed;
    const completeness::Completeness open =
        scope == Scope::missing ? completeness::check_completeness({survey, {}, trade}) : completeness::Completeness{};
    const auto lacks = [&](const Fitting& fitting) {
        return std::any_of(open.gaps.begin(), open.gaps.end(), [&](const completeness::Note& gap) {
            return gap.fitting == fitting.id &&
                   std::find(missing_looks.begin(), missing_looks.end(), gap.code) != missing_looks.end();
        });
    };
    int number = 0;
    for (const Fitting& fitting : survey.fittings) {
        ++number;
        if (scope == Scope::everything || lacks(fitting)) listed.push_back({&fitting, number, scope == Scope::missing});
    }
    return listed;
}

document::PlaceCodes place_codes(const pairing::Place& place, const survey::Survey& survey, const trade::Trade& trade,
                                 Points side) {
    const trade::Wording& words = trade.wording;
    const Fitting& first = survey.fittings[place.fittings.front()];
    std::string title = station_name(first, survey, words);
    if (const survey::Stay* stay = survey.stay(first.stay)) title = trade::stay_name(*stay, trade) + " – " + title;
    else if (first.side && *first.side != survey::Side::centre)
        title += " – " + words("side." + survey::name_of(*first.side));
    document::PlaceCodes codes{
        capitalised(title), words("sheet.place.hint"), words("sheet.place.up"), words("sheet.place.down"), {}, {}};
    for (const auto& [pass, drawing, word] :
         {std::tuple(Way::up, &codes.up, &codes.up_word), std::tuple(Way::down, &codes.down, &codes.down_word)})
        *drawing = drawing::code_drawing(pairing::code_text(pairing::code_of(survey, place, pass)), side,
                                         codes.title + ", " + *word);
    return codes;
}

TickTable tick_table(const std::vector<Listed>& listed, const survey::Survey& survey, const trade::Trade& trade,
                     bool with_codes) {
    constexpr Points code_side{57};  // 20 mm
    std::map<const Fitting*, pairing::Place> first_of;
    if (with_codes) {
        std::set<std::string> begun;
        std::map<std::size_t, pairing::Place> place_of;
        for (const pairing::Place& place : pairing::places_of(survey))
            for (const std::size_t fitting : place.fittings) place_of.emplace(fitting, place);
        for (const Listed& one : listed) {
            const pairing::Place& place = place_of.at(static_cast<std::size_t>(one.fitting - survey.fittings.data()));
            if (begun.insert(place.id).second) first_of.emplace(one.fitting, place);
        }
    }
    const trade::Wording& words = trade.wording;
    TickTable table;
    table.heads = {words("finding.up"), words("finding.down"), words("sheet.head.far"), words("sheet.head.close"),
                   words("sheet.head.note")};
    for (const Listed& one : listed) {
        const std::string station = station_name(*one.fitting, survey, words);
        if (table.stations.empty() || table.stations.back().name != station)
            table.stations.push_back({station, words("sheet.time"), {}});
        table.stations.back().rows.push_back(row_of(one, survey, trade));
        if (const auto place = first_of.find(one.fitting); place != first_of.end())
            table.stations.back().rows.back().place = place_codes(place->second, survey, trade, code_side);
    }
    return table;
}

}  // namespace rigdeed::sheet
