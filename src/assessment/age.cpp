#include "assessment/age.hpp"

#include "assessment/calculations/ages.hpp"

namespace rigdeed::assessment {
namespace {

constexpr double far_in_miles = 1.5;  // from memory

std::optional<int> months_of(const survey::Stay& stay, const Date& on) {
    if (!stay.fitted || stay.fitted->earliest() > on) return std::nullopt;
    return whole_months(stay.fitted->earliest(), on);
}

}  // namespace

Age age_of(const survey::Stay& stay, const Date& on, const trade::Trade& trade) {
    const trade::Band* band = trade.tables.band(stay.make);
    const auto months = months_of(stay, on);
    if (!months) return Age::unknown;
    if (band == nullptr) return Age::within;
    if (*months > band->most) return Age::far_past;
    return *months > band->common ? Age::past : Age::within;
}

Age age_in_miles(const survey::Stay& stay, const trade::Trade& trade) {
    const trade::Band* band = trade.tables.band(stay.make);
    if (!stay.sailed || band == nullptr || !band->miles_least) return Age::unknown;
    const NauticalMiles sailed = stay.sailed->quantity;
    if (sailed > band->miles_most.value_or(*band->miles_least) * far_in_miles) return Age::far_past;
    return sailed >= *band->miles_least ? Age::past : Age::within;
}

CustomWords custom_of(const survey::Stay& stay, const Assessment& assessment, const trade::Trade& trade) {
    const trade::Wording& words = trade.wording;
    const auto years = [&](int months) { return years_and_months(months, words); };
    CustomWords custom;
    const auto months = months_of(stay, assessment.surveyed);
    custom.age = months ? years(*months) : words("calc.not-measured");
    if (stay.sailed) custom.sailed = words.numbers(stay.sailed->text);
    if (const trade::Band* band = trade.tables.band(stay.make)) {
        custom.common = years(band->common);
        custom.least = years(band->least);
        custom.most = years(band->most);
    }
    return custom;
}

}  // namespace rigdeed::assessment
