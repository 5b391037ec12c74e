// The surveyor's own words in a report of another language: told to whoever reads aloud, and nothing else changed.
#include "survey/own_words.hpp"

#include <doctest/doctest.h>

#include "base/own_words.hpp"
#include "base/text.hpp"
#include "layout/paginate.hpp"
#include "pdf/font_metrics.hpp"
#include "report/composed.hpp"

using namespace rigdeed;

namespace {

const std::filesystem::path demo = std::filesystem::path(RIGDEED_SOURCE_DIR) / "demo/survey.xml";

layout::Pages pages_of(Inspected& inspected, const trade::Trade& trade) {
    inspected.assessment = assessment::assess(inspected.survey, trade);
    return layout::paginate(sample::report_of(inspected, trade), *pdf::font_metrics(), layout::sheet_of(PaperSize::a4));
}

std::vector<layout::PlacedText> texts_of(const layout::Pages& pages) {
    std::vector<layout::PlacedText> texts;
    for (const layout::Page& page : pages.pages)
        for (const auto& item : page.items)
            if (const auto* text = std::get_if<layout::PlacedText>(&item)) texts.push_back(*text);
    return texts;
}

/// What stands between marks, line by line, as one text.
std::string marked_in(const std::vector<layout::PlacedText>& texts) {
    std::string marked;
    for (const layout::PlacedText& text : texts) {
        bool own = false;
        const std::u32string letters = decode_utf8(text.text).value_or(std::u32string());
        for (const char32_t c : letters) {
            if (is_own_words_mark(c)) own = c == own_words_begin;
            else if (own) marked += encode_utf8(std::u32string(1, c));
        }
        marked += ' ';
    }
    return squeezed(marked);
}

}  // namespace

TEST_CASE("words in another language are marked, each of them, and no letter stands elsewhere for it") {
    const trade::Trade trade = trade::load_trade({}, "de");
    auto inspected = inspect(demo, trade, {.jobs = 1, .for_print = false, .units = {}, .progress = {}}).inspected;
    REQUIRE(inspected);
    inspected->survey.written_in.clear();
    const layout::Pages before = pages_of(*inspected, trade);
    CHECK(before.own_words.empty());
    inspected->survey.written_in = "en-GB";
    CHECK(survey::written_in_another(inspected->survey, "de"));
    CHECK(!survey::written_in_another(inspected->survey, "en"));
    survey::mark_own_words(inspected->survey);
    const layout::Pages after = pages_of(*inspected, trade);
    CHECK(after.own_words == "en-GB");

    const auto plain = texts_of(before), marked = texts_of(after);
    REQUIRE(plain.size() == marked.size());
    std::size_t different = 0;
    for (std::size_t i = 0; i < plain.size(); ++i) {
        different += plain[i].text != marked[i].text ? 1U : 0U;
        CHECK(plain[i].text == without_own_words_marks(marked[i].text));
        CHECK(plain[i].baseline.x.value == marked[i].baseline.x.value);
        CHECK(plain[i].baseline.y.value == marked[i].baseline.y.value);
        CHECK(plain[i].width.value == doctest::Approx(marked[i].width.value));
    }
    CHECK(different > 20);

    survey::unmark_own_words(inspected->survey);
    const std::string own = marked_in(marked);
    CHECK(plain.size() > 1000);
    std::size_t looked_for = 0;
    for (const assessment::FittingVerdict& one : assessment::assess(inspected->survey, trade).fittings) {
        if (!one.is_finding()) continue;
        for (const survey::Seen& seen : one.fitting->seen)
            for (const survey::Sign& sign : seen.signs) {
                if (sign.words.empty()) continue;
                const std::string words =
                    sign.words.ends_with('.') ? sign.words.substr(0, sign.words.size() - 1) : sign.words;
                INFO(words);
                CHECK(own.find(words) != std::string::npos);
                ++looked_for;
            }
    }
    CHECK(looked_for > 10);
    CHECK(own.find(inspected->survey.attendance.weather) != std::string::npos);
    CHECK(own.find(inspected->survey.yacht.name) == std::string::npos);
}
