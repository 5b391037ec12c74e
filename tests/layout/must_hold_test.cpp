#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <map>
#include <set>

#include "assessment/calculation.hpp"
#include "base/language.hpp"
#include "base/text.hpp"
#include "layout/placed.hpp"
#include "pdf/font_metrics.hpp"
#include "pipeline.hpp"
#include "report/compose.hpp"
#include "survey/temporary_survey.hpp"
#include "survey/whole_survey.hpp"
#include "survey/write_survey.hpp"
#include "trade/plan.hpp"

using namespace rigdeed;
using sample::OnPaper;

namespace {

namespace fs = std::filesystem;

const trade::Trade& the_trade(const std::string& language) {
    static std::map<std::string, trade::Trade> loaded;
    const auto known = loaded.find(language);
    return known != loaded.end() ? known->second
                                 : loaded.emplace(language, trade::load_trade({}, language)).first->second;
}

struct Laid {
    std::unique_ptr<Inspected> inspected;
    document::Document document;
    OnPaper on;
};

Laid lay_out(const fs::path& file, const layout::Paper& paper, const std::string& language) {
    Laid laid{inspect(file, the_trade(language), {.jobs = 2, .for_print = true, .units = {}, .progress = {}}).inspected,
              {},
              {{}, paper}};
    const Inspected& inspected = *laid.inspected;
    const auto rig = drawing::rig_geometry(inspected.survey, the_trade(language));
    laid.document = report::compose_report({inspected.survey,
                                            the_trade(language),
                                            inspected.evidence,
                                            inspected.completeness,
                                            inspected.assessment,
                                            inspected.calculations,
                                            rig,
                                            inspected.units,
                                            {},
                                            {2026, 10, 5},
                                            report::SignerFacts{"A. Surveyor", "", std::string(64, 'a'), "2030-01-01"},
                                            {}});
    laid.on.pages = layout::paginate(laid.document, *pdf::font_metrics(), paper);
    return laid;
}

const Laid& demo() {
    static const Laid laid = lay_out(std::string(RIGDEED_SOURCE_DIR) + "/demo/survey.xml", layout::a4, "en");
    return laid;
}

/// What a reader hears of each element, in order.
std::vector<std::string> heard(const layout::Pages& pages) {
    std::vector<std::string> texts(pages.structure.size());
    for (const layout::Page& page : pages.pages)
        for (const auto& item : page.items)
            if (const auto* text = std::get_if<layout::PlacedText>(&item))
                if (text->element != layout::artifact) texts[static_cast<std::size_t>(text->element)] += text->text;
    return texts;
}

/// All words of the pages and of what pictures are said to show, without blanks: however lines break.
std::string all_words(const layout::Pages& pages) {
    std::string all;
    for (const std::string& text : heard(pages)) all += text;
    std::erase(all, ' ');
    return all;
}

double luminance(Colour colour) {
    const auto part = [](double value) {
        value /= 255;
        return value <= 0.03928 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * part(colour.red) + 0.7152 * part(colour.green) + 0.0722 * part(colour.blue);
}

bool begins_with_unit(const std::string& text) {
    for (const char* unit : {"mm", "m", "kN", "kg", "%", "°", "kgf", "lbf", "N/mm²"})
        if (text == unit || text.starts_with(std::string(unit) + " ") || text.starts_with(std::string(unit) + ",") ||
            text.starts_with(std::string(unit) + ";"))
            return true;
    return false;
}

/// How many texts were looked at.
std::size_t check(const OnPaper& on) {
    std::size_t texts = 0;
    std::map<layout::ElementIndex, const layout::PlacedText*> last;
    for (std::size_t i = 0; i < on.pages.pages.size(); ++i) {
        Points lowest = on.paper.top;
        Points smallest_circle{1000};
        for (const auto& item : on.pages.pages[i].items) {
            if (const auto* image = std::get_if<layout::PlacedImage>(&item)) {
                lowest = std::max(lowest, image->box.bottom());
                if (image->clip) smallest_circle = std::min(smallest_circle, image->clip->radius);
            }
            const auto* text = std::get_if<layout::PlacedText>(&item);
            if (text == nullptr || text->tilt != 0) continue;
            ++texts;
            if (text->baseline.y < on.paper.bottom) lowest = std::max(lowest, text->baseline.y);
            const bool in_a_mark = text->text.find_first_not_of("0123456789 ") == std::string::npos;
            CHECK_MESSAGE((in_a_mark || text->size >= 6.5_pt), "page ", i + 1, ": ", text->text);
            // on white, and on the tint behind the rig, both seen through a preview's stamp
            const double ink = luminance(text->colour);
            const bool reversed = ink > 0.9;
            constexpr Colour tint{0xE3 * 92 / 100, 0xF1 * 92 / 100, 0xFB * 92 / 100};
            if (!reversed) CHECK_MESSAGE((luminance(tint) + 0.05) / (ink + 0.05) >= 4.5, text->text);
            if (text->element == layout::artifact) continue;
            const layout::PlacedText*& before = last[text->element];
            if (before != nullptr && before->baseline.y < text->baseline.y) {
                std::string end = before->text;
                while (end.ends_with(' ')) end.pop_back();
                const bool digit = !end.empty() && end.back() >= '0' && end.back() <= '9';
                CHECK_MESSAGE(!(digit && begins_with_unit(text->text)), "page ", i + 1, ": ", end, " | ", text->text);
            }
            before = text;
        }
        const Points left_free = on.paper.bottom - lowest;
        if (smallest_circle < 90_pt && i + 1 < on.pages.pages.size())
            CHECK_MESSAGE(left_free < (on.paper.bottom - on.paper.top) * (1.0 / 3), "page ", i + 1, ": empty by ",
                          left_free.value, " under a circle of ", smallest_circle.value);
    }
    return texts;
}

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

}  // namespace

TEST_CASE("numbers keep their units, no text is too small or too pale, no picture is small for nothing") {
    CHECK(check(demo().on) > 3000);
    for (const std::string& one : sample::covered(demo().on)) CHECK_MESSAGE(false, one);
    CHECK(check(lay_out(std::string(RIGDEED_SOURCE_DIR) + "/demo/survey.xml", layout::letter, "de").on) > 3000);
    for (const auto& [name, language] : {std::pair("worked", "fr"), {"stopped", "es"}, {"gaps/no-photo-pair", "de"}}) {
        const fs::path file = std::string(RIGDEED_SOURCE_DIR) + "/fixtures/" + name + "/survey.xml";
        if (fs::exists(file)) CHECK(check(lay_out(file, layout::a4, language).on) > 300);
    }
}

TEST_CASE("a paragraph is heard as it was written, whatever lines it was set in") {
    for (const auto& [language, paper] : {std::pair("en", &layout::a4), {"fr", &layout::letter}}) {
        const Laid laid = lay_out(std::string(RIGDEED_SOURCE_DIR) + "/fixtures/worked/survey.xml", *paper, language);
        std::set<std::string> spoken;
        for (std::string text : heard(laid.on.pages)) spoken.insert(squeezed(text));
        std::size_t paragraphs = 0;
        for (const document::Block& block : laid.document.blocks)
            if (const auto* one = std::get_if<document::Paragraph>(&block.value)) {
                CHECK_MESSAGE(spoken.contains(squeezed(one->text)), one->text);
                ++paragraphs;
            }
        CHECK(paragraphs > 15);
        for (const std::string& text : spoken) CHECK_MESSAGE(text.find("  ") == std::string::npos, text);
    }
}

TEST_CASE("levels of headings are never skipped, lists and tables are whole, rows have heads") {
    const layout::Pages& pages = demo().on.pages;
    std::map<std::string, std::size_t> count;
    char level = '0';
    const auto type_of = [&](layout::ElementIndex index) {
        return index == layout::artifact ? std::string("Document")
                                         : pages.structure[static_cast<std::size_t>(index)].type;
    };
    std::size_t row_heads = 0;
    std::map<layout::ElementIndex, std::size_t> cells;  // of each row
    for (const layout::Element& element : pages.structure) {
        ++count[element.type];
        row_heads += element.heads_row;
        if (element.type == "TOCI") CHECK(type_of(element.parent) == "TOC");
        if (type_of(element.parent) == "L") CHECK(element.type == "LI");
        if (element.type == "TD" || element.type == "TH") ++cells[element.parent];
        if (element.type == "LI") CHECK(type_of(element.parent) == "L");
        if (element.type == "Lbl" || element.type == "LBody") CHECK(type_of(element.parent) == "LI");
        if (element.type == "TR") CHECK(type_of(element.parent) == "Table");
        if (element.type == "TD" || element.type == "TH") CHECK(type_of(element.parent) == "TR");
        if (element.type.size() == 2 && element.type[0] == 'H') {
            CHECK(element.type[1] <= level + 1);
            level = element.type[1];
        }
    }
    std::map<layout::ElementIndex, std::size_t> columns;  // of each table
    for (const auto& [row, number] : cells) {
        const layout::ElementIndex table = pages.structure[static_cast<std::size_t>(row)].parent;
        CHECK(columns.try_emplace(table, number).first->second == number);
    }
    CHECK(count["Sect"] >= 10);
    CHECK(count["TOCI"] > 30);
    CHECK(count["L"] >= 3);  // the findings on the cover, cautions, steps
    CHECK(count["Lbl"] == 5);
    CHECK(count["LI"] == count["LBody"]);
    CHECK(count["Caption"] > 100);
    CHECK(row_heads > 100);
}

TEST_CASE("nothing is lost: every fitting, photo, sign, measure and figure stands in the report") {
    const Laid& laid = demo();
    const Inspected& inspected = *laid.inspected;
    const trade::Wording& words = the_trade("en").wording;
    const std::string all = all_words(laid.on.pages);
    const auto stands = [&](std::string text) {
        text = squeezed(text);
        std::erase(text, ' ');
        CHECK_MESSAGE(all.find(text) != std::string::npos, text);
    };
    for (const assessment::FittingVerdict& one : inspected.assessment.fittings) {
        stands(capitalised(one.name));
        stands(one.fitting->id);
        if (!one.unseen_because.empty()) stands(one.unseen_because);
        if (one.fitting->verdict) stands(one.fitting->verdict->because);
        for (const survey::Measured& measured : one.fitting->measured) stands(words.numbers(measured.value));
        for (const survey::Seen& seen : one.fitting->seen) {
            stands(seen.at.hh_mm());
            for (const survey::Sign& sign : seen.signs)
                if (the_trade("en").sign(*one.kind, sign.code)->verdict != survey::Verdict::sound) stands(sign.words);
        }
    }
    for (const evidence::Photo& photo : inspected.evidence.photos) {
        stands(photo.name);
        stands(photo.sha256.hex());
        stands(photo.file);
    }
    std::size_t figures = 0;
    for (const assessment::Calculation& one : inspected.calculations) {
        if (!one.has_result() || one.id == "photo-scale") continue;
        for (const assessment::Figure& figure : one.results)
            if (figure.known()) stands(assessment::text_of(figure, inspected.units, words)), ++figures;
    }
    CHECK(figures > 100);
    for (const survey::Stay& stay : inspected.survey.stays) {
        stands(capitalised(trade::stay_name(stay, the_trade("en"))));
        if (stay.length) stands(words.numbers(stay.length->text));
    }
}

TEST_CASE(
    "the first page alone says whether to sail and to climb, which parts, where, how urgent, how old the rig is") {
    const Laid& laid = demo();
    std::string first;
    for (const auto& item : laid.on.pages.pages.front().items)
        if (const auto* text = std::get_if<layout::PlacedText>(&item)) first += text->text + " ";
    first = squeezed(first);
    const auto says = [&](const std::string& text) { CHECK_MESSAGE(first.find(text) != std::string::npos, text); };
    const trade::Wording& words = the_trade("en").wording;
    says(words("answer.do-not-climb"));
    std::size_t links = 0;
    for (const auto& item : laid.on.pages.pages.front().items)
        links += std::holds_alternative<layout::PlacedLink>(item);
    std::size_t urgent = 0;
    for (const std::size_t i : laid.inspected->assessment.findings) {
        const assessment::FittingVerdict& one = laid.inspected->assessment.fittings[i];
        if (one.verdict < survey::Verdict::rectify) continue;
        ++urgent;
        says(capitalised(one.name));
    }
    CHECK(links > urgent);
    says("fitted 2012 to 2019");
    CHECK(laid.on.pages.cover_pages == 1);
}

TEST_CASE("the cover is one page on any rig, in any language, with any answer, and what is urgent is counted on it") {
    for (const char* name : {"complete", "stopped", "unstepped", "worked"}) {
        CAPTURE(std::string(name));
        const fs::path file = std::string(RIGDEED_SOURCE_DIR) + "/fixtures/" + name + "/survey.xml";
        CHECK(lay_out(file, layout::letter, "fr").on.pages.cover_pages == 1);
    }
    for (const char* plan : {"ketch", "staysail-schooner", "masthead-sloop"}) {
        if (the_trade("de").plan(plan) == nullptr) continue;
        CAPTURE(plan);
        const sample::TemporarySurvey started(
            survey::write_survey(trade::start_survey(*the_trade("de").plan(plan), {}, {2026, 10, 3}, the_trade("de"))));
        const Laid laid = lay_out(started.file(), layout::a4, "de");
        CHECK(laid.on.pages.cover_pages == 1);
    }
}

TEST_CASE("every plan, in each language, on both papers, with none to eighty findings: the pages hold") {
    const bool all = std::getenv("RIGDEED_ALL_BITS") != nullptr;  // else each plan once
    constexpr std::array findings{0, 3, 12, 40, 80};
    std::size_t plan_number = 0, texts = 0;
    for (const trade::Plan& plan : the_trade("en").plans) {
        std::size_t turn = plan_number++;
        for (std::size_t which = 0; which < (all ? languages.size() * 2 * findings.size() : 3); ++which, ++turn) {
            const std::string language(languages[turn % languages.size()]);
            const layout::Paper& paper = turn / languages.size() % 2 == 0 ? layout::a4 : layout::letter;
            CAPTURE(plan.id);
            CAPTURE(language);
            survey::Survey survey =
                trade::start_survey(*the_trade(language).plan(plan.id), {}, {2026, 10, 3}, the_trade(language));
            sample::fill_in(survey);
            const std::size_t wanted = findings[turn % findings.size()];
            const std::size_t step = wanted == 0 ? 0 : std::max<std::size_t>(1, survey.fittings.size() / wanted);
            for (std::size_t i = 0; step > 0 && i < survey.fittings.size(); i += step) {
                const trade::Kind& kind = *the_trade(language).kind(survey.fittings[i].kind);
                survey::Sign sign;
                sign.code = kind.signs[i % kind.signs.size()].code;
                sign.words = "Seen at 12.5 mm from its end, 3 mm long.";
                survey.fittings[i].seen.front().signs.push_back(sign);
            }
            const sample::TemporarySurvey file(survey::write_survey(survey));
            const Laid laid = lay_out(file.file(), paper, language);
            texts += check(laid.on);
            for (const std::string& one : sample::overlaps(laid.on)) CHECK_MESSAGE(false, one);
            for (const std::string& one : sample::outside(laid.on)) CHECK_MESSAGE(false, "outside: ", one);
            for (const std::string& one : sample::covered(laid.on)) CHECK_MESSAGE(false, one);
            const double scale = scale_on_cover(laid.on);
            const bool one_mast = drawing::rig_geometry(laid.inspected->survey, the_trade(language)).masts.size() == 1;
            if (wanted <= 12) CHECK(scale <= 350);
            if (wanted <= 3 && one_mast && paper.size.height > 800_pt && top_of(laid) <= 15) CHECK(scale <= 205);
            CHECK_MESSAGE(laid.on.pages.cover_pages == 1, turn);
        }
    }
    CHECK(texts > 5000);
}
