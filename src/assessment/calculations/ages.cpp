#include "assessment/calculations/ages.hpp"

#include "assessment/calculations/working.hpp"

namespace rigdeed::assessment {
namespace {

void against_band(Working& working, const survey::Stay& stay, std::optional<int> months, const Case& one) {
    const trade::Wording& words = one.trade.wording;
    const trade::Band* band = one.trade.tables.band(stay.make);
    if (band == nullptr) return;
    working.input_text("", "band",
                       working.words("band", {{"least", std::to_string(band->least / 12)},
                                              {"common", years_and_months(band->common, words)},
                                              {"most", std::to_string(band->most / 12)}}),
                       band->source);
    if (!band->also.empty()) working.remark("also", {{"also", band->also}});
    if (months && *months > band->common)
        working.remark("beyond", {{"by", years_and_months(*months - band->common, words)},
                                  {"common", years_and_months(band->common, words)},
                                  {"source", band->source}});
    if (stay.sailed) {
        working.input<NauticalMiles>("m", "sailed", stay.sailed->quantity, 0, words("calc.source.survey"));
        const NauticalMiles most = band->miles_most.value_or(band->miles_least.value_or(NauticalMiles{}));
        if (band->miles_least && stay.sailed->quantity >= *band->miles_least)
            working.remark(stay.sailed->quantity > most ? "miles-beyond" : "miles-within",
                           {{"least", working.number(band->miles_least->value, 0)},
                            {"most", working.number(most.value, 0)},
                            {"source", band->source}});
    }
}

void one_stay(const survey::Stay& stay, const Case& one, Calculations& all) {
    const trade::Wording& words = one.trade.wording;
    Working working(one, "ages");
    working.about(stay);
    std::optional<int> months;
    working.input_text("", "fitted", stay.fitted ? one.trade.wording.date(*stay.fitted) : std::string(),
                       stay.age_source ? words("rig.by." + survey::name_of(*stay.age_source)) : std::string());
    working.input_text("", "surveyed", one.trade.wording.date(one.survey.attendance.on), words("calc.source.survey"));
    if (!stay.fitted) working.missing("fitted", words("calc.name.fitted"), stay.id);
    else if (stay.fitted->earliest() > one.survey.attendance.on) working.doubt("in-the-future");
    else months = whole_months(stay.fitted->earliest(), one.survey.attendance.on);
    working.result_months("", "age-months", months);
    working.result_text("", "age", months ? years_and_months(*months, words) : std::string());
    if (months && (!stay.fitted->month || !stay.fitted->day)) working.note("at-most");
    against_band(working, stay, months, one);
    all.push_back(working.done());
}

/// The owner's own checks and surveys come twice as often on a yacht that cannot motor home.
void next_looks(const Case& one, Calculations& all) {
    Working working(one, "ages");
    working.about(one.trade.wording("calc.ages.rig"), {});
    const Date& on = one.survey.attendance.on;
    working.input_text("", "surveyed", one.trade.wording.date(on), one.trade.wording("calc.source.survey"));
    const trade::Interval& own = one.trade.interval("own-check");
    const trade::Interval& survey = one.trade.interval("survey");
    const int part = one.survey.yacht.relies_on_rig ? 2 : 1;
    const int months = own.months / part, survey_months = survey.months / part;
    working.input_text("", "own-interval", one.trade.wording.count("calc.months", static_cast<std::size_t>(months)),
                       own.source);
    working.input_text("", "survey-interval",
                       one.trade.wording.count("calc.months", static_cast<std::size_t>(survey_months)), survey.source);
    working.result_text("", "next-own", one.trade.wording.date(months_later(on, months)));
    working.result_text("", "next-survey", one.trade.wording.date(months_later(on, survey_months)));
    if (one.survey.yacht.relies_on_rig) working.remark("halved");
    all.push_back(working.done());
}

}  // namespace

int whole_months(const Date& from, const Date& to) {
    if (to <= from) return 0;
    int months = (to.year - from.year) * 12 + to.month - from.month;
    while (months > 0 && months_later(from, months) > to) --months;
    return months;
}

std::string years_and_months(int months, const trade::Wording& words) {
    const std::string years = words.count("calc.years", static_cast<std::size_t>(months / 12));
    const std::string rest = words.count("calc.months", static_cast<std::size_t>(months % 12));
    return months % 12 == 0 ? years : months < 12 ? rest : years + " " + rest;
}

void ages(const Case& one, Calculations& all) {
    for (const survey::Stay& stay : one.survey.stays) one_stay(stay, one, all);
    next_looks(one, all);
}

}  // namespace rigdeed::assessment
