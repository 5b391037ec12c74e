#include <doctest/doctest.h>

#include <array>
#include <cstdio>
#include <set>

#include "base/file.hpp"
#include "base/text.hpp"
#include "layout/paginate.hpp"
#include "pdf/font_metrics.hpp"
#include "pdf/render.hpp"
#include "pdf/sample_pages.hpp"
#include "report/composed.hpp"
#include "survey/temporary_survey.hpp"

using namespace rigdeed;
namespace d = rigdeed::document;

namespace {

namespace fs = std::filesystem;

/// What another program hears: the text of each element of the structure tree, as poppler's pdfinfo tells it.
std::set<std::string> heard_by_pdfinfo(const fs::path& pdf) {
    const std::string command = "pdfinfo -struct-text '" + pdf.string() + "' 2>&1";
    FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string output;
    std::array<char, 4096> buffer{};
    while (const std::size_t read = fread(buffer.data(), 1, buffer.size(), pipe)) output.append(buffer.data(), read);
    CHECK(pclose(pipe) == 0);
    std::set<std::string> texts;
    std::string whole;  // one that goes on overleaf stands in two lines
    for (const std::string& line : split(output + "\nend", '\n')) {
        const auto first = line.find('"'), last = line.rfind('"');
        if (first != std::string::npos && last > first) {
            whole += line.substr(first + 1, last - first - 1);
            continue;
        }
        if (!whole.empty()) texts.insert(squeezed(whole));
        whole.clear();
    }
    return texts;
}

/// What the composer wrote that is one element each.
std::vector<std::string> written(const d::Document& report) {
    std::vector<std::string> texts;
    for (const auto& one : sample::blocks_of<d::Paragraph>(report)) texts.push_back(one.text);
    for (const auto& one : sample::blocks_of<d::TwoTexts>(report)) texts.insert(texts.end(), {one.left, one.right});
    for (const auto& one : sample::blocks_of<d::Caution>(report))
        texts.insert(texts.end(), one.paragraphs.begin(), one.paragraphs.end());
    for (const auto& one : sample::blocks_of<d::Step>(report)) texts.insert(texts.end(), {one.title, one.text});
    return texts;
}

/// However numbers are tied to their units.
std::string untied(std::string text) {
    for (auto at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0")) text.replace(at, 2, " ");
    return squeezed(text);
}

}  // namespace

TEST_CASE("another program hears each paragraph as it was written, whole and in one piece") {
    for (const auto& [language, paper] : {std::pair("en", &layout::a4), {"de", &layout::letter}}) {
        const trade::Trade trade = trade::load_trade({}, language);
        const sample::Composed made =
            sample::composed(std::string(RIGDEED_SOURCE_DIR) + "/fixtures/worked/survey.xml", trade,
                             report::SignerFacts{"A. Surveyor", "", std::string(64, 'a'), "2030-01-01"});
        const sample::TemporarySurvey folder("");
        const fs::path pdf = folder.file().parent_path() / "spoken.pdf";
        write_file(pdf,
                   pdf::render_pdf(layout::paginate(made.report, *pdf::font_metrics(), *paper), sample::facts()).bytes);
        std::set<std::string> heard;
        for (const std::string& text : heard_by_pdfinfo(pdf)) heard.insert(untied(text));
        std::size_t paragraphs = 0;
        for (const std::string& text : written(made.report)) {
            if (text.empty() || text.find('"') != std::string::npos) continue;
            CHECK_MESSAGE(heard.contains(untied(text)), language, ": ", text);
            ++paragraphs;
        }
        CHECK(paragraphs > 60);
    }
}
