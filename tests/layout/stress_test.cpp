#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>

#include "base/language.hpp"
#include "base/text.hpp"
#include "evidence/sample_photo.hpp"
#include "layout/placed.hpp"
#include "pdf/font_metrics.hpp"
#include "pipeline.hpp"
#include "report/compose.hpp"
#include "survey/sample.hpp"
#include "survey/temporary_survey.hpp"
#include "survey/write_survey.hpp"
#include "trade/plan.hpp"

using namespace rigdeed;
using sample::OnPaper;
using sample::TemporarySurvey;

namespace {

namespace fs = std::filesystem;

const trade::Trade& the_trade(std::string_view language = "en") {
    static std::map<std::string, trade::Trade, std::less<>> loaded;
    const auto known = loaded.find(language);
    if (known != loaded.end()) return known->second;
    return loaded.emplace(language, trade::load_trade({}, language)).first->second;
}

/// The report of a survey file, laid out; photos that are not there print as hatched frames.
OnPaper lay_out(const fs::path& file, const layout::Paper& paper, std::string_view language = "en") {
    const auto inspected =
        inspect(file, the_trade(language), {.jobs = 2, .for_print = true, .units = std::nullopt, .progress = {}})
            .inspected;
    layout::Pages pages = pages_of({inspected->survey,
                                    the_trade(language),
                                    inspected->evidence,
                                    inspected->completeness,
                                    inspected->assessment,
                                    inspected->calculations,
                                    drawing::rig_geometry(inspected->survey, the_trade(language)),
                                    inspected->units,
                                    {},
                                    {2026, 10, 5},
                                    report::SignerFacts{"A. Surveyor", "", std::string(64, 'a'), "2030-01-01"},
                                    {}},
                                   paper);
    return {std::move(pages), paper};
}

void check_page_links(const OnPaper& report) {
    for (const layout::Page& page : report.pages.pages)
        for (const auto& item : page.items)
            if (const auto* link = std::get_if<layout::PlacedLink>(&item)) {
                CHECK(link->page < report.pages.pages.size());
                CHECK(link->y <= report.paper.bottom);
            }
    for (const layout::Bookmark& bookmark : report.pages.bookmarks) CHECK(bookmark.page < report.pages.pages.size());
}

/// Each begins on a page of its own.
constexpr std::size_t chapters = 9;

/// How many pages there are.
std::size_t check_layout(const fs::path& file, const layout::Paper& paper, std::string_view language = "en") {
    CAPTURE(language);
    const OnPaper report = lay_out(file, paper, language);
    for (const std::string& one : overlaps(report)) CHECK_MESSAGE(false, file.string(), ", ", one);
    for (const std::string& one : outside(report)) CHECK_MESSAGE(false, file.string(), ", outside: ", one);
    for (const std::string& one : covered(report)) CHECK_MESSAGE(false, file.string(), ", ", one);
    check_page_links(report);
    return report.pages.pages.size();
}

std::string head(const std::string& name, const std::string& note) {
    return "<rig-survey xmlns=\"urn:rigdeed:survey:1\" number=\"STRESS-" + std::string(40, '9') +
           "\" purpose=\"pre-purchase\">"
           "<surveyor name=\"" +
           name + "\" firm=\"" + name + "\" qualification=\"" + note.substr(0, 200) + "\" contact=\"" + name +
           "\"/>"
           "<client name=\"" +
           name +
           "\" role=\"buyer\"/>"
           "<yacht name=\"" +
           name +
           "\" hin=\"GB-ABC00042-A3-99\" rig=\"cat\" mast=\"aluminium\" built=\"1998\" loa=\"11.3 m\"/>"
           "<attendance on=\"2026-10-03\" place=\"" +
           name + "\" climbed=\"yes\" afloat=\"yes\" weather=\"" + note.substr(0, 120) +
           "\"/>"
           "<photos folder=\"photos\"/><rig>";
}

const std::string sixty = "Ångström-Özgür d’Été Ñandú Ωμέγα Плавник Überlänge Złoty Čáp";
std::string long_note(std::size_t letters) {
    std::string note;
    while (note.size() < letters)
        note += "Two fine lines run down the barrel from its mouth, on the side towards the stern. ";
    return note.substr(0, letters);
}

std::string many_signs() {
    std::string signs;
    for (const trade::SignRule& rule : the_trade().kind("turnbuckle")->signs)
        signs += "<sign code=\"" + rule.code + "\" where=\"" + rule.code + "\">" + long_note(60) + "</sign>";
    for (const char* more : {"crack", "rust-bleed", "screw-bent", "not-locked"})
        signs += "<sign code=\"" + std::string(more) + "\">" + long_note(80) + "</sign>";
    return signs;
}

}  // namespace

TEST_CASE("the demo's pages: no text on text, nothing outside its frame, links lead to their pages") {
    const std::string demo = std::string(RIGDEED_SOURCE_DIR) + "/demo/survey.xml";
    CHECK(check_layout(demo, layout::a4) >= chapters);
    CHECK(check_layout(demo, layout::letter) >= chapters);
}

TEST_CASE("the demo's and the worked rig's pages in every language, on both papers") {
    for (const std::string_view language : languages) {
        if (language == "en") continue;
        CHECK(check_layout(std::string(RIGDEED_SOURCE_DIR) + "/demo/survey.xml", layout::a4, language) >= chapters);
        CHECK(check_layout(std::string(RIGDEED_SOURCE_DIR) + "/demo/survey.xml", layout::letter, language) >= chapters);
        for (const char* name : {"stopped", "unstepped", "worked"})
            CHECK(check_layout(std::string(RIGDEED_SOURCE_DIR) + "/fixtures/" + name + "/survey.xml", layout::a4,
                               language) >= chapters);
        CHECK(check_layout(std::string(RIGDEED_SOURCE_DIR) + "/fixtures/gaps/photo-unused/survey.xml", layout::a4,
                           language) >= chapters);
    }
}

TEST_CASE("the fixtures' pages, too") {
    for (const char* name : {"complete", "stopped", "unstepped", "spellings", "worked"})
        CHECK(check_layout(std::string(RIGDEED_SOURCE_DIR) + "/fixtures/" + name + "/survey.xml", layout::a4) >=
              chapters);
}

TEST_CASE("every plan's pages, with nothing seen yet") {
    for (const trade::Plan& plan : the_trade().plans) {
        const TemporarySurvey survey(survey::write_survey(trade::start_survey(plan, {}, {2026, 10, 3}, the_trade())));
        CHECK(check_layout(survey.file(), layout::a4) >= chapters);
    }
}

TEST_CASE("names of sixty characters in three scripts, notes of two thousand, a fitting with twelve signs") {
    const TemporarySurvey survey(
        head(sixty, long_note(2000)) +
        "<stay id=\"s\" role=\"cap-shroud\" side=\"port\" make=\"1x19\" alloy=\"316\" diameter=\"8 "
        "mm\"/></rig><fittings>" +
        "<fitting id=\"" + std::string(64, 'x') +
        "\" kind=\"turnbuckle\" stay=\"s\" station=\"deck\" height=\"1 m\"><seen pass=\"up\" at=\"09:00\">" +
        many_signs() + "</seen><seen pass=\"down\" at=\"12:00\"><sign code=\"crack\">" + long_note(2000) +
        "</sign></seen></fitting>" +
        "<fitting id=\"b\" kind=\"light\" station=\"masthead\" height=\"12 m\"><not-seen reason=\"" + long_note(400) +
        "\"/></fitting></fittings></rig-survey>");
    CHECK(check_layout(survey.file(), layout::a4) >= chapters);
    CHECK(check_layout(survey.file(), layout::letter) >= chapters);
}

TEST_CASE("three hundred fittings, sixty of them findings: over two hundred pages, in order") {
    std::string text = head("Plover", "rigger") + "</rig><fittings>";
    for (int i = 0; i < 300; ++i) {
        const std::string n = std::to_string(i);
        const std::string sign = i % 5 == 0 ? "<sign code=\"does-not-burn\" where=\"lens\">Dark.</sign>" : "";
        const std::string at = i < 9 ? "0" + std::to_string(i + 1) : std::to_string(10 + i % 9);
        text += "<fitting id=\"light-" + n + "\" kind=\"light\" station=\"mast\" height=\"" +
                std::to_string(2 + i / 30) + "." + std::to_string(i % 30 % 10) +
                " m\"><seen pass=\"up\" at=\"09:" + (i % 60 < 10 ? "0" : "") + std::to_string(i % 60) + "\" far=\"F" +
                n + "\" close=\"C" + n + "\">" + sign + "</seen><seen pass=\"down\" at=\"15:00\"/></fitting>";
    }
    const TemporarySurvey survey(text + "</fittings></rig-survey>");
    const OnPaper report = lay_out(survey.file(), layout::a4);
    CHECK(report.pages.pages.size() > 100);
    for (const std::string& one : overlaps(report)) CHECK_MESSAGE(false, one);
    for (const std::string& one : outside(report)) CHECK_MESSAGE(false, "outside: ", one);
    check_page_links(report);
    std::size_t last = 0;
    for (const layout::Bookmark& bookmark : report.pages.bookmarks) {
        CHECK(bookmark.page >= last);
        last = bookmark.page;
    }
}

TEST_CASE("portrait, panorama and square photos keep their shape and stay in their frames; a mark is enlarged") {
    std::string fittings;
    const std::vector<std::pair<int, int>> shapes{{60, 400}, {800, 90}, {300, 300}, {400, 300}};
    const TemporarySurvey folder("");
    for (std::size_t i = 0; i < shapes.size(); ++i) {
        const std::string n = std::to_string(i);
        for (const std::string& name : {"F" + n, "C" + n}) {
            const Bytes jpeg = sample::jpeg(
                shapes[i].first + (name[0] == 'C'), shapes[i].second, [](int x, int y, unsigned char* rgb) {
                    rgb[0] = static_cast<unsigned char>(x), rgb[1] = static_cast<unsigned char>(y), rgb[2] = 90;
                });
            folder.photo(name, jpeg);
        }
        fittings +=
            "<fitting id=\"f" + n + "\" kind=\"light\" station=\"mast\" height=\"" + std::to_string(3 + i) +
            " m\"><seen pass=\"up\" at=\"09:0" + n + "\" far=\"F" + n + "\" close=\"C" + n + "\">" +
            "<sign code=\"does-not-burn\" mark=\"0.95 0.05 0.2\">Dark.</sign></seen><seen pass=\"down\" at=\"12:0" +
            std::to_string(9 - i) + "\"/></fitting>";
    }
    folder.text(head("Plover", "rigger") + "</rig><fittings>" + fittings + "</fittings></rig-survey>");
    const OnPaper report = lay_out(folder.file(), layout::a4);
    for (const std::string& one : overlaps(report)) CHECK_MESSAGE(false, one);
    for (const std::string& one : outside(report)) CHECK_MESSAGE(false, "outside: ", one);
    std::size_t circles = 0, pictures = 0;
    for (const layout::Page& page : report.pages.pages)
        for (const auto& item : page.items)
            if (const auto* image = std::get_if<layout::PlacedImage>(&item)) {
                const layout::Image& picture = report.pages.images.at(image->image);
                const double there = image->box.size.width / image->box.size.height;
                CHECK(there == doctest::Approx(static_cast<double>(picture.width) / picture.height).epsilon(0.02));
                ++pictures;
                if (image->clip) ++circles;
            }
    CHECK(circles == shapes.size());
    CHECK(pictures == shapes.size() * 3);
}

TEST_CASE("every text of a page belongs to the document's structure, but headers, footers and the mast's scale") {
    const OnPaper report = lay_out(std::string(RIGDEED_SOURCE_DIR) + "/demo/survey.xml", layout::a4);
    const auto is_digits = [](const std::string& text) {
        return text.find_first_not_of("0123456789") == std::string::npos;
    };
    std::size_t inside = 0;
    for (std::size_t i = 0; i < report.pages.pages.size(); ++i)
        for (const auto& item : report.pages.pages[i].items) {
            const auto* text = std::get_if<layout::PlacedText>(&item);
            if (text == nullptr || text->tilt != 0) continue;
            inside += text->element != layout::artifact;
            const bool edge = text->baseline.y < report.paper.top || text->baseline.y > report.paper.foot_rule ||
                              text->baseline.x > report.paper.left + report.paper.mast_column;
            // column heads that are repeated on the next page stand near its top
            const bool repeated = text->baseline.y < report.paper.top + 16_pt && text->size < 8_pt;
            if (text->element == layout::artifact)
                CHECK_MESSAGE((edge || repeated || is_digits(text->text)), "page ", i + 1, ": ", text->text);
        }
    CHECK(inside > 2000);
    std::size_t figures = 0, described = 0;
    for (const layout::Element& element : report.pages.structure) {
        if (element.type != "Figure") continue;
        ++figures;
        described += !element.alternative.empty();
    }
    CHECK(figures == described);
    CHECK(figures > 200);
}

TEST_CASE("no heading stands alone at the foot of a page") {
    const OnPaper report = lay_out(std::string(RIGDEED_SOURCE_DIR) + "/demo/survey.xml", layout::a4);
    for (const layout::Bookmark& bookmark : report.pages.bookmarks)
        CHECK_MESSAGE(bookmark.y < report.paper.bottom - 60_pt, bookmark.title);
}
