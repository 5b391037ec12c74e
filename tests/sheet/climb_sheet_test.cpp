#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <set>

#include "base/language.hpp"
#include "base/text.hpp"
#include "layout/placed.hpp"
#include "pdf/font_metrics.hpp"
#include "sheet/climb_sheet.hpp"
#include "survey/read_survey.hpp"
#include "trade/judge.hpp"
#include "trade/plan.hpp"

using namespace rigdeed;
namespace d = rigdeed::document;

namespace {

const trade::Trade& the_trade(std::string_view language = "en") {
    static std::map<std::string, trade::Trade, std::less<>> loaded;
    const auto known = loaded.find(language);
    if (known != loaded.end()) return known->second;
    return loaded.emplace(language, trade::load_trade({}, language)).first->second;
}

std::optional<d::Document> composed(const survey::Survey& survey, const trade::Trade& trade,
                                    sheet::Scope scope = sheet::Scope::everything) {
    return sheet::compose_climb_sheet(survey, assessment::assess(survey, trade), trade, scope, false);
}

survey::Survey started(const trade::Plan& plan, const trade::Settings& settings = {}) {
    return trade::start_survey(plan, settings, {2026, 10, 3}, the_trade());
}

/// A choice of parameters with the most of everything.
trade::Settings largest(const trade::Plan& plan) {
    trade::Settings settings;
    for (const trade::Parameter& parameter : plan.parameters) settings[parameter.id] = parameter.values.back();
    return settings;
}

std::vector<d::TickRow> rows_of(const d::Document& sheet) {
    std::vector<d::TickRow> rows;
    for (const d::Block& block : sheet.blocks)
        if (const auto* table = std::get_if<d::TickTable>(&block.value))
            for (const d::TickTable::Station& station : table->stations)
                rows.insert(rows.end(), station.rows.begin(), station.rows.end());
    return rows;
}

template <class T>
std::ptrdiff_t place_of(const d::Document& sheet) {
    return std::find_if(sheet.blocks.begin(), sheet.blocks.end(),
                        [](const d::Block& block) { return std::holds_alternative<T>(block.value); }) -
           sheet.blocks.begin();
}

template <class T>
const T& only(const d::Document& sheet) {
    return std::get<T>(sheet.blocks.at(static_cast<std::size_t>(place_of<T>(sheet))).value);
}

Box bounds(const drawing::Path& path) {
    Point least{Points{1e9}, Points{1e9}}, most{Points{-1e9}, Points{-1e9}};
    const auto take = [&](Point p) {
        least = {std::min(least.x, p.x), std::min(least.y, p.y)};
        most = {std::max(most.x, p.x), std::max(most.y, p.y)};
    };
    for (const drawing::Segment& segment : path) {
        if (const auto* move = std::get_if<drawing::MoveTo>(&segment)) take(move->to);
        if (const auto* line = std::get_if<drawing::LineTo>(&segment)) take(line->to);
    }
    return {least, {most.x - least.x, most.y - least.y}};
}

/// Texts that run into or out of a frame.
std::vector<std::string> crossing(const layout::Page& page) {
    std::vector<std::string> found;
    for (const auto& frame : page.items) {
        const auto* shape = std::get_if<layout::PlacedShape>(&frame);
        if (shape == nullptr || !shape->shape.stroke || shape->shape.path.size() < 4) continue;
        const Box box = bounds(shape->shape.path);
        for (const auto& item : page.items)
            if (const auto* text = std::get_if<layout::PlacedText>(&item)) {
                const Box core = sample::core_of(*text);
                const bool inside = core.left() >= box.left() - 1_pt && core.right() <= box.right() + 1_pt &&
                                    core.top() >= box.top() - 1_pt && core.bottom() <= box.bottom() + 1_pt;
                if (!inside && sample::meet(core, box)) found.push_back(text->text);
            }
    }
    return found;
}

bool has_text(const layout::Page& page, const std::string& words) {
    return std::any_of(page.items.begin(), page.items.end(), [&](const auto& item) {
        const auto* text = std::get_if<layout::PlacedText>(&item);
        return text != nullptr && text->text == words;
    });
}

/// Numbers of the fittings whose rows stand on this page, from top to bottom.
std::vector<int> numbers_on(const layout::Page& page, const layout::Paper& paper) {
    std::vector<int> numbers;
    for (const auto& item : page.items)
        if (const auto* text = std::get_if<layout::PlacedText>(&item))
            if (text->size == layout::look::tick_number.size && text->face == layout::Face::bold &&
                text->baseline.x == paper.left)
                numbers.push_back(read_digits(text->text).value());
    return numbers;
}

/// How many pages there are.
std::size_t check_pages(const survey::Survey& survey, const trade::Trade& trade, const layout::Paper& paper) {
    const auto sheet = composed(survey, trade);
    REQUIRE(sheet);
    const sample::OnPaper laid{layout::paginate(*sheet, *pdf::font_metrics(), paper), paper};
    for (const std::string& one : sample::overlaps(laid)) CHECK_MESSAGE(false, one);
    for (const std::string& one : sample::outside(laid)) CHECK_MESSAGE(false, "outside: ", one);
    std::vector<int> all;
    std::vector<std::size_t> rows;
    for (const layout::Page& page : laid.pages.pages) {
        for (const std::string& one : crossing(page)) CHECK_MESSAGE(false, "crosses a frame: ", one);
        const auto numbers = numbers_on(page, paper);
        all.insert(all.end(), numbers.begin(), numbers.end());
        rows.push_back(numbers.size());
    }
    REQUIRE(all.size() == survey.fittings.size());
    for (std::size_t i = 0; i < all.size(); ++i) CHECK(all[i] == static_cast<int>(i) + 1);
    const std::string stop = trade.wording("sheet.gate.title"), codes = trade.wording("sheet.codes.title");
    for (std::size_t i = 1; i + 1 < rows.size(); ++i) {  // page 1 has the cautions
        const auto& pages = laid.pages.pages;
        if (rows[i + 1] == 0 || has_text(pages[i], stop) || has_text(pages[i + 1], stop) || has_text(pages[i], codes))
            continue;
        CAPTURE(i + 1);
        CHECK(rows[i] >= 12);
        CHECK(rows[i] <= 16);
    }
    return rows.size();
}

survey::Survey fixture(const std::string& name) {
    const std::string text = [&] {
        std::ifstream in(std::string(RIGDEED_SOURCE_DIR) + "/fixtures/" + name + "/survey.xml");
        return std::string(std::istreambuf_iterator<char>(in), {});
    }();
    auto [survey, problems] = survey::read_survey(text, "survey.xml");
    REQUIRE(survey);
    return *survey;
}

}  // namespace

TEST_CASE("every plan's sheet, small and large, on both papers: each fitting once, in order, 12 to 16 a full page") {
    for (const trade::Plan& plan : the_trade().plans)
        for (const layout::Paper* paper : {&layout::a4, &layout::letter})
            for (const trade::Settings& settings : {trade::Settings(), largest(plan)}) {
                CAPTURE(plan.id);
                CAPTURE(paper->size.height.value);
                CHECK(check_pages(started(plan, settings), the_trade(), *paper) >= 2);
            }
}

TEST_CASE("every plan's sheet in the other languages") {
    for (const std::string_view language : languages)
        for (const trade::Plan& plan : the_trade(language).plans) {
            if (language == "en") continue;
            CAPTURE(language);
            CAPTURE(plan.id);
            CHECK(check_pages(started(plan), the_trade(language), layout::a4) >= 2);
        }
}

TEST_CASE(
    "the cautions that the tables mark for the sheet stand before the first row, the gate before the first aloft") {
    const survey::Survey survey = started(*the_trade().plan("masthead-sloop"));
    const auto sheet = composed(survey, the_trade());
    REQUIRE(sheet);
    CHECK(place_of<d::Caution>(*sheet) < place_of<d::TickTable>(*sheet));
    std::vector<std::string> wanted;
    for (const trade::CautionText& caution : the_trade().cautions)
        if (caution.when == trade::Occasion::climbed) wanted.push_back(caution.words);
    CHECK(only<d::Caution>(*sheet).paragraphs == wanted);
    CHECK(wanted.size() >= 4);
    const auto& deck = only<d::TickTable>(*sheet);
    std::size_t at_deck = 0;
    for (const auto& station : deck.stations) at_deck += station.rows.size();
    CHECK(at_deck == static_cast<std::size_t>(std::count_if(survey.fittings.begin(), survey.fittings.end(),
                                                            [](const auto& one) { return one.at_deck(); })));
    CHECK(place_of<d::Gate>(*sheet) == place_of<d::TickTable>(*sheet) + 1);
}

TEST_CASE("the gate names every sign that bars climbing on a kind this rig has at the deck") {
    const survey::Survey survey = started(*the_trade().plan("ketch"));
    const auto sheet = composed(survey, the_trade());
    REQUIRE(sheet);
    std::string all;
    for (const d::Gate::Bar& bar : only<d::Gate>(*sheet).bars) all += bar.what + ": " + bar.signs + "\n";
    std::size_t barring = 0;
    for (const survey::Fitting& fitting : survey.fittings)
        for (const trade::SignRule& rule : the_trade().kind(fitting.kind)->signs) {
            if (!fitting.at_deck() || !trade::bars_at(rule, fitting)) continue;
            ++barring;
            CHECK_MESSAGE(all.find(rule.name) != std::string::npos, fitting.kind, ": ", rule.name);
        }
    CHECK(barring > 100);
}

TEST_CASE("a sign that bars climbing has a heavy box, at the deck or aloft as its rule says") {
    const survey::Survey survey = started(*the_trade().plan("masthead-sloop"));
    const auto sheet = composed(survey, the_trade());
    REQUIRE(sheet);
    const auto rows = rows_of(*sheet);
    REQUIRE(rows.size() == survey.fittings.size());
    std::size_t heavy = 0, light = 0;
    for (std::size_t i = 0; i < rows.size(); ++i)
        for (const d::TickRow::Sign& sign : rows[i].signs) {
            const trade::Kind& kind = *the_trade().kind(survey.fittings[i].kind);
            CHECK(sign.bars == trade::bars_at(*the_trade().sign(kind, sign.code), survey.fittings[i]));
            ++(sign.bars ? heavy : light);
        }
    CHECK(heavy > 20);
    CHECK(light > 20);
}

TEST_CASE("of two masts one is climbed after the other") {
    for (const char* plan : {"ketch", "yawl", "schooner"}) {
        const auto sheet = composed(started(*the_trade().plan(plan)), the_trade());
        REQUIRE(sheet);
        const auto& aloft =
            std::get<d::TickTable>(sheet->blocks.at(static_cast<std::size_t>(place_of<d::Gate>(*sheet)) + 1).value);
        std::vector<std::string> masts;
        for (const d::TickTable::Station& station : aloft.stations) {
            const std::string mast = station.name.substr(station.name.find(", "));
            if (masts.empty() || masts.back() != mast) masts.push_back(mast);
        }
        CHECK(masts.size() == 2);
    }
}

TEST_CASE("where the mast lay unstepped nobody goes up: no gate") {
    const auto sheet = composed(fixture("unstepped"), the_trade());
    REQUIRE(sheet);
    CHECK(place_of<d::Gate>(*sheet) == static_cast<std::ptrdiff_t>(sheet->blocks.size()));
    CHECK(rows_of(*sheet).size() == fixture("unstepped").fittings.size());
}

TEST_CASE("what is missing: a fitting with both looks and a pair is left out, what is there stands in the boxes") {
    survey::Survey survey = fixture("complete");
    CHECK(!composed(survey, the_trade(), sheet::Scope::missing));
    REQUIRE(survey.fittings.size() > 2);
    survey::Fitting& half = survey.fittings[1];
    const survey::Seen up = *half.in(survey::Way::up);
    half.seen = {up};
    const auto sheet = composed(survey, the_trade(), sheet::Scope::missing);
    REQUIRE(sheet);
    const auto rows = rows_of(*sheet);
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].number == 2);
    CHECK(rows[0].up == up.at.hh_mm());
    CHECK(rows[0].down.empty());
    CHECK(rows[0].far == up.far);
    CHECK(rows[0].close == up.close);
    CHECK(composed(survey, the_trade()).value().blocks.size() > 0);
    for (const d::TickRow& row : rows_of(*composed(survey, the_trade()))) CHECK(row.up + row.far == "");
}

TEST_CASE("a survey that says what bars climbing has a sheet that says so first") {
    survey::Survey survey = fixture("complete");
    survey::Fitting& fitting = survey.fittings.front();
    const trade::Kind& kind = *the_trade().kind(fitting.kind);
    const auto rule = std::find_if(kind.signs.begin(), kind.signs.end(),
                                   [&](const trade::SignRule& one) { return trade::bars_at(one, fitting); });
    REQUIRE(rule != kind.signs.end());
    survey::Sign sign;
    sign.code = rule->code;
    fitting.seen.front().signs.push_back(sign);
    const auto sheet = composed(survey, the_trade());
    REQUIRE(sheet);
    const auto barred = std::find_if(the_trade().cautions.begin(), the_trade().cautions.end(),
                                     [](const auto& one) { return one.when == trade::Occasion::barred; });
    REQUIRE(barred != the_trade().cautions.end());
    CHECK(only<d::Caution>(*sheet).paragraphs.front() == barred->words);
}
