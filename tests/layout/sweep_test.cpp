#include <cstdlib>

#include "base/language.hpp"
#include "layout/laid.hpp"
#include "survey/temporary_survey.hpp"
#include "survey/whole_survey.hpp"
#include "survey/write_survey.hpp"
#include "trade/plan.hpp"

using namespace rigdeed;
using sample::check;
using sample::Laid;
using sample::lay_out;
using sample::OnPaper;
using sample::the_trade;

namespace {

/// Of the elevation, by where its heights of 5 and 10 m stand; 0 where they do not.
double scale_on_cover(const OnPaper& on) {
    std::optional<Points> five, ten;
    for (const auto& item : on.pages.pages.front().items)
        if (const auto* text = std::get_if<layout::PlacedText>(&item)) {
            const std::string words = squeezed(text->text);
            if (words == "5 m" || words == "5\xC2\xA0m") five = text->baseline.y;
            if (words == "10 m" || words == "10\xC2\xA0m") ten = text->baseline.y;
        }
    return five && ten ? 5 / 0.0254 * 72 / (*five - *ten).value : 0;
}

/// The highest fitting, in metres.
double top_of(const Laid& laid) {
    double top = 0;
    for (const survey::Fitting& fitting : laid.inspected->survey.fittings)
        top = std::max(top, fitting.height.quantity.value / 1000);
    return top;
}

/// Signs of their kinds, one after the other, at so many fittings spread over the rig.
void add_findings(survey::Survey& survey, std::size_t wanted, const trade::Trade& trade) {
    const std::size_t step = wanted == 0 ? 0 : std::max<std::size_t>(1, survey.fittings.size() / wanted);
    for (std::size_t i = 0; step > 0 && i < survey.fittings.size(); i += step) {
        const trade::Kind& kind = *trade.kind(survey.fittings[i].kind);
        survey::Sign sign;
        sign.code = kind.signs[i % kind.signs.size()].code;
        sign.words = "Seen at 12.5 mm from its end, 3 mm long.";
        survey.fittings[i].seen.front().signs.push_back(sign);
    }
}

/// The page with the line for the owner's hand; 0: none.
std::size_t signed_by_owner_on(const Laid& laid, const trade::Trade& trade) {
    for (std::size_t i = 0; i < laid.on.pages.pages.size(); ++i)
        for (const auto& item : laid.on.pages.pages[i].items)
            if (const auto* text = std::get_if<layout::PlacedText>(&item))
                if (text->text == trade.wording("insurer.sign.owner")) return i + 1;
    return 0;
}

void check_places(const OnPaper& on) {
    for (const std::string& one : sample::overlaps(on)) CHECK_MESSAGE(false, one);
    for (const std::string& one : sample::outside(on)) CHECK_MESSAGE(false, "outside: ", one);
    for (const std::string& one : sample::covered(on)) CHECK_MESSAGE(false, one);
}

/// The plan's rig with so many fittings: the first of them, or lamps more, up and down the mast.
survey::Survey rig_of(std::size_t fittings, const trade::Plan& plan, const trade::Trade& trade) {
    survey::Survey survey = trade::start_survey(plan, {}, {2026, 10, 3}, trade);
    const survey::Fitting* aloft = nullptr;
    for (const survey::Fitting& one : survey.fittings)
        if (!one.at_deck()) aloft = &one;
    REQUIRE(aloft != nullptr);
    const std::string mast = aloft->mast;
    const std::size_t own = survey.fittings.size();
    if (own > fittings)
        survey.fittings.erase(survey.fittings.begin() + static_cast<std::ptrdiff_t>(fittings), survey.fittings.end());
    for (std::size_t i = own; i < fittings; ++i) {
        survey::Fitting lamp;
        lamp.id = "lamp-" + std::to_string(i);
        lamp.kind = "light";
        lamp.station = "mast";
        lamp.mast = mast;
        lamp.height = {Millimetres{2000 + 10 * static_cast<double>(i)},
                       std::to_string(2 + i / 100) + "." + (i % 100 < 10 ? "0" : "") + std::to_string(i % 100) + " m"};
        survey.fittings.push_back(lamp);
    }
    sample::fill_in(survey);
    return survey;
}

}  // namespace

TEST_CASE("every plan, in each language, on both papers, with none to eighty findings: the pages hold") {
    const bool all = std::getenv("RIGDEED_ALL_BITS") != nullptr;  // else each plan once
    constexpr std::array findings{0, 3, 12, 40, 80};
    // Each plan with each two of language, paper and number; one plan and the next with all three. Else three of them.
    const std::size_t rounds = all ? languages.size() * findings.size() : 3;
    std::size_t plan_number = 0, texts = 0;
    for (const trade::Plan& plan : the_trade("en").plans) {
        std::size_t turn = plan_number++ * (all ? rounds : 1);
        for (std::size_t which = 0; which < rounds; ++which, ++turn) {
            const std::string language(languages[turn % languages.size()]);
            const layout::Paper& paper = turn / languages.size() % 2 == 0 ? layout::a4 : layout::letter;
            CAPTURE(plan.id);
            CAPTURE(language);
            survey::Survey survey =
                trade::start_survey(*the_trade(language).plan(plan.id), {}, {2026, 10, 3}, the_trade(language));
            sample::fill_in(survey);
            const std::size_t wanted = findings[turn % findings.size()];
            add_findings(survey, wanted, the_trade(language));
            const sample::TemporarySurvey file(survey::write_survey(survey));
            const Laid laid = lay_out(file.file(), paper, language);
            texts += check(laid.on);
            check_places(laid.on);
            const double scale = scale_on_cover(laid.on);
            const bool one_mast = drawing::rig_geometry(laid.inspected->survey, the_trade(language)).masts.size() == 1;
            if (wanted <= 12) CHECK(scale <= 350);
            if (wanted <= 3 && one_mast && paper.size.height > 800_pt && top_of(laid) <= 15) CHECK(scale <= 205);
            CHECK_MESSAGE(laid.on.pages.cover_pages == 1, turn);
            // of thirteen stays with long names the last lines go on
            const std::size_t signed_on = signed_by_owner_on(laid, the_trade(language));
            CHECK(signed_on >= 2);
            CHECK(signed_on <= (laid.inspected->survey.stays.size() < 13 ? 2 : 3));
        }
    }
    CHECK(texts > 5000);
}

TEST_CASE("from three fittings to three hundred, with none to eighty findings: the pages hold") {
    const std::size_t rounds = std::getenv("RIGDEED_ALL_BITS") != nullptr ? languages.size() : 1;
    std::size_t turn = 0, most = 0;
    for (const std::size_t fittings : {3, 10, 40, 150, 300})
        for (std::size_t which = 0; which < 3 * rounds; ++which) {
            const std::size_t findings = std::array<std::size_t, 3>{0, 8, 80}[which % 3];
            const auto& plans = the_trade("en").plans;
            const std::string language(languages[turn % languages.size()]);
            const layout::Paper& paper = turn % 2 == 0 ? layout::letter : layout::a4;
            const trade::Trade& trade = the_trade(language);
            survey::Survey survey = rig_of(fittings, *trade.plan(plans[turn++ % plans.size()].id), trade);
            CAPTURE(fittings);
            CAPTURE(findings);
            CAPTURE(language);
            REQUIRE(survey.fittings.size() == fittings);
            add_findings(survey, findings, trade);
            const sample::TemporarySurvey file(survey::write_survey(survey));
            const Laid laid = lay_out(file.file(), paper, language);
            most = std::max(most, check(laid.on));
            check_places(laid.on);
            CHECK(laid.on.pages.cover_pages == 1);
        }
    CHECK(most > 2000);
}
