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
#include "layout/laid.hpp"
#include "pdf/font_metrics.hpp"
#include "pipeline.hpp"
#include "report/compose.hpp"
#include "survey/temporary_survey.hpp"
#include "survey/whole_survey.hpp"
#include "survey/write_survey.hpp"
#include "trade/plan.hpp"

using namespace rigdeed;
using sample::check;
using sample::Laid;
using sample::lay_out;
using sample::the_trade;

namespace {

namespace fs = std::filesystem;

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
    CHECK(count["TOCI"] >= 10);
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
            for (const survey::Sign& sign : seen.signs) stands(sign.words);
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
