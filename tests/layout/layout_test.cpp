#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <sstream>

#include "base/error.hpp"
#include "base/quantity.hpp"
#include "layout/margin_mast.hpp"
#include "layout/paginate.hpp"

using namespace rigdeed;
using namespace rigdeed::layout;
namespace d = rigdeed::document;

namespace {

/// Every character half as wide as it is high.
class HalfWide : public TextMetrics {
 public:
    Points width(std::string_view text, Face, Points size) const override {
        std::size_t letters = 0;
        for (const char c : text) letters += (static_cast<unsigned char>(c) & 0xC0) != 0x80 ? 1U : 0U;
        return size * (0.5 * static_cast<double>(letters));
    }
    std::string missing(std::string_view) const override { return {}; }
};

Pages laid_out(std::vector<d::Block> blocks, std::vector<std::string> stamps = {}) {
    d::Document report;
    report.head.yacht = "Plover";
    report.foot.paper = "Survey T";
    report.foot.data = "data";
    report.foot.page_of_pages = "page {page} of {pages}";
    report.head.stamps = std::move(stamps);
    report.blocks = std::move(blocks);
    return paginate(report, HalfWide(), a4);
}

template <class T>
d::Block block(T one) {
    return {std::move(one)};
}

d::Heading chapter(const std::string& text, const std::string& anchor) {
    return {d::Level::title, text, "", anchor, "1"};
}

/// One line an item: page, kind, place, text. For reading in a failed test, and for goldens.
/// Without the blank at its end that parts it from what comes next.
std::string shown(std::string text) {
    while (text.ends_with(' ')) text.pop_back();
    return text;
}

std::string dump(const Pages& pages) {
    std::ostringstream out;
    for (std::size_t i = 0; i < pages.pages.size(); ++i)
        for (const PlacedItem& item : pages.pages[i].items)
            if (const auto* text = std::get_if<PlacedText>(&item))
                out << i + 1 << " " << fixed(text->baseline.x.value, 1) << " " << fixed(text->baseline.y.value, 1)
                    << " " << shown(text->text) << "\n";
    return out.str();
}

std::vector<const PlacedText*> texts(const Page& page) {
    std::vector<const PlacedText*> all;
    for (const PlacedItem& item : page.items)
        if (const auto* text = std::get_if<PlacedText>(&item)) all.push_back(text);
    return all;
}

std::size_t page_with(const Pages& pages, const std::string& wanted) {
    for (std::size_t i = 0; i < pages.pages.size(); ++i)
        for (const auto* text : texts(pages.pages[i]))
            if (text->text.find(wanted) != std::string::npos) return i;
    FAIL("no page says ", wanted);
    return 0;
}

d::Paragraph lorem(int words) {
    std::string text;
    for (int i = 0; i < words; ++i) text += "word" + std::to_string(i) + " ";
    return {text, d::Tone::body};
}

/// No two texts of a page cover each other, and none leaves the paper's frame.
void check_clean(const Pages& pages) {
    for (const Page& page : pages.pages) {
        const auto all = texts(page);
        for (std::size_t i = 0; i < all.size(); ++i) {
            const auto box = [](const PlacedText& t) {
                return Box{{t.baseline.x, t.baseline.y - t.size * 0.7}, {t.width, t.size * 0.85}};
            };
            const Box a = box(*all[i]);
            CHECK_MESSAGE((a.left() >= 49_pt && a.right() <= a4.right() + 1_pt && a.bottom() <= a4.size.height),
                          all[i]->text);
            for (std::size_t j = i + 1; j < all.size(); ++j) {
                const Box b = box(*all[j]);
                const bool apart =
                    a.right() <= b.left() || b.right() <= a.left() || a.bottom() <= b.top() || b.bottom() <= a.top();
                CHECK_MESSAGE(apart, all[i]->text, " / ", all[j]->text);
            }
        }
    }
}

d::Table long_table(std::size_t rows) {
    d::Table table;
    table.columns = {{"left column", 0.5, d::Align::left}, {"right column", 0.5, d::Align::right}};
    d::RowGroup group{"a group", "with a remark", {}};
    for (std::size_t i = 0; i < rows; ++i) {
        d::Row row;
        row.cells.resize(2);
        row.cells[0].bold = "row " + std::to_string(i);
        row.cells[0].lines = {
            "some words about it that are long enough to need a second line in this narrow column of the table"};
        row.cells[1].lines = {"value"};
        group.rows.push_back(row);
    }
    table.groups = {group};
    return table;
}

}  // namespace

TEST_CASE("long text fills pages from top to bottom, and every page says which it is") {
    const Pages pages = laid_out({block(lorem(3000))});
    REQUIRE(pages.pages.size() >= 3);
    check_clean(pages);
    for (std::size_t i = 0; i < pages.pages.size(); ++i)
        CHECK(page_with(pages, "page " + std::to_string(i + 1) + " of " + std::to_string(pages.pages.size())) == i);
    const auto last = texts(pages.pages[0]);
    const auto lowest = std::max_element(last.begin(), last.end(), [](auto* a, auto* b) {
        return (a->baseline.y < 790_pt ? a->baseline.y : 0_pt) < (b->baseline.y < 790_pt ? b->baseline.y : 0_pt);
    });
    CHECK((*lowest)->baseline.y > 740_pt);
}

TEST_CASE("a heading never stands alone at the foot of a page") {
    for (int words = 380; words < 700; words += 8) {
        std::vector<d::Block> blocks{block(lorem(words)), block(d::Heading{d::Level::section, "Lonely", "", "", ""}),
                                     block(lorem(60))};
        blocks.insert(blocks.begin(), block(lorem(500)));
        const Pages pages = laid_out(std::move(blocks));
        const std::size_t page = page_with(pages, "Lonely");
        const auto all = texts(pages.pages[page]);
        const auto heading = std::find_if(all.begin(), all.end(), [](auto* t) { return t->text == "Lonely"; });
        const bool followed = std::any_of(heading + 1, all.end(), [](auto* t) { return t->text.find("word") == 0; });
        CHECK_MESSAGE(followed, words);
    }
}

TEST_CASE("what is kept together moves to the next page as a whole") {
    d::Together group;
    for (int i = 0; i < 6; ++i) group.blocks.push_back(block(d::Paragraph{"line " + std::to_string(i), d::Tone::body}));
    for (int words = 500; words < 760; words += 20) {
        const Pages pages = laid_out({block(lorem(words)), block(group)});
        for (int i = 1; i < 6; ++i) CHECK(page_with(pages, "line " + std::to_string(i)) == page_with(pages, "line 0"));
    }
}

TEST_CASE("what is taller than a page is broken all the same, and nothing is lost") {
    d::Together group;
    group.blocks.push_back(block(long_table(80)));
    const Pages pages = laid_out({block(group)});
    for (int i = 0; i < 80; ++i) CHECK(dump(pages).find("row " + std::to_string(i) + "\n") != std::string::npos);
    check_clean(pages);
}

TEST_CASE("a table's head stands on each of its pages, and no row is split") {
    const Pages pages = laid_out({block(long_table(60))});
    REQUIRE(pages.pages.size() >= 2);
    check_clean(pages);
    for (const Page& page : pages.pages) {
        const auto all = texts(page);
        CHECK(std::any_of(all.begin(), all.end(), [](auto* t) { return t->text == "left column"; }));
    }
}

TEST_CASE("contents, page numbers and links agree with where headings came to stand") {
    std::vector<d::Block> blocks{block(d::Contents{})};
    for (int i = 0; i < 5; ++i) {
        blocks.push_back(block(d::PageBreak{}));
        blocks.push_back(block(chapter("Chapter " + std::to_string(i), "c" + std::to_string(i))));
        blocks.push_back(block(lorem(200 + i * 400)));
    }
    const Pages pages = laid_out(std::move(blocks));
    std::size_t links = 0;
    for (const PlacedItem& item : pages.pages[0].items)
        if (const auto* link = std::get_if<PlacedLink>(&item)) {
            const std::string wanted = "Chapter " + std::to_string(links++);
            const auto all = texts(pages.pages[link->page]);
            CHECK(std::any_of(all.begin(), all.end(), [&](auto* t) {
                return t->text == wanted && t->baseline.y > link->y && t->baseline.y < link->y + 40_pt;
            }));
            const auto cover = texts(pages.pages[0]);
            CHECK(std::any_of(cover.begin(), cover.end(), [&](auto* t) {
                return t->text == std::to_string(link->page + 1) && t->baseline.y > link->box.top() &&
                       t->baseline.y < link->box.bottom();
            }));
        }
    CHECK(links == 5);
    REQUIRE(pages.bookmarks.size() == 5);
    for (std::size_t i = 0; i < 5; ++i) {
        const auto all = texts(pages.pages[pages.bookmarks[i].page]);
        CHECK(std::any_of(all.begin(), all.end(), [&](auto* t) {
            return t->text == "Chapter " + std::to_string(i) && t->baseline.y > pages.bookmarks[i].y;
        }));
    }
}

TEST_CASE("a link that leads nowhere is a bug, not a page") {
    d::Table table = long_table(1);
    table.groups[0].rows[0].link = "no such anchor";
    CHECK_THROWS_AS((void)laid_out({block(table)}), Error);
}

TEST_CASE("a stamp stands on every page") {
    const Pages pages = laid_out({block(lorem(2500))}, {"INCOMPLETE SURVEY"});
    for (const Page& page : pages.pages) {
        const auto all = texts(page);
        CHECK(std::any_of(all.begin(), all.end(), [](auto* t) { return t->text == "INCOMPLETE SURVEY"; }));
    }
}

TEST_CASE("a word too long for its line is broken, none of it is lost") {
    const std::string word(400, 'x');
    const Pages pages = laid_out({block(d::Paragraph{word, d::Tone::body})});
    check_clean(pages);
    std::size_t letters = 0;
    for (const auto* text : texts(pages.pages[0]))
        if (text->text.find("xx") != std::string::npos) letters += shown(text->text).size();
    CHECK(letters == 400);
}

TEST_CASE("photos keep their shape inside their frames, and each is stored once") {
    const auto jpeg = std::make_shared<const Bytes>(Bytes{1, 2, 3});
    d::PictureRow row;
    row.photos = {{jpeg, 400, 300, "far", "A1", "", "x"}, {jpeg, 300, 400, "close", "A1", "", "x"}};
    const Pages pages = laid_out({block(row)});
    CHECK(pages.images.size() == 1);
    for (const PlacedItem& item : pages.pages[0].items)
        if (const auto* image = std::get_if<PlacedImage>(&item)) {
            const double shape = image->box.size.width / image->box.size.height;
            CHECK((shape == doctest::Approx(4.0 / 3) || shape == doctest::Approx(3.0 / 4)));
        }
}

TEST_CASE("an empty report is still a page with its number") {
    const Pages pages = laid_out({});
    CHECK(pages.pages.size() == 1);
    CHECK(page_with(pages, "page 1 of 1") == 0);
}

TEST_CASE("marks at the deck stand one over the other above it; the deck keeps its word, and no two leaders cross") {
    for (const std::size_t count : {std::size_t{1}, std::size_t{4}, std::size_t{9}, std::size_t{14}})
        for (const double deck : {0.6, 1.0, 1.6}) {
            CAPTURE(count);
            CAPTURE(deck);
            d::MarginMast mast;
            mast.top = 15;
            mast.deck = deck;
            mast.metre = "m", mast.deck_word = "deck", mast.waterline_word = "waterline";
            std::vector<MarginMark> marks;
            for (std::size_t i = 0; i < count; ++i)
                marks.push_back(
                    {{survey::Verdict::renew, static_cast<int>(i) + 1}, deck + 0.06 * static_cast<double>(i % 5)});
            std::vector<PlacedItem> items;
            add_margin_mast(mast, marks, HalfWide(), a4, items);
            const double waterline = a4.foot_rule.value - 40, masthead = 92;
            const double at_deck = waterline - (waterline - masthead) * deck / 15;
            std::size_t numbers = 0, words = 0;
            std::vector<std::pair<Point, Point>> lines;
            for (const PlacedItem& item : items) {
                if (const auto* text = std::get_if<PlacedText>(&item)) {
                    words += text->text == "deck";
                    if (text->face != Face::bold) continue;
                    ++numbers;
                    CHECK(text->baseline.y.value < at_deck + 3);  // its middle no lower than the deck
                    CHECK(text->baseline.y.value > masthead);
                }
                if (const auto* shape = std::get_if<PlacedShape>(&item); shape != nullptr && shape->shape.stroke &&
                                                                         shape->shape.stroke->width == 0.5_pt &&
                                                                         shape->shape.path.size() == 2)
                    lines.push_back({std::get<drawing::MoveTo>(shape->shape.path[0]).to,
                                     std::get<drawing::LineTo>(shape->shape.path[1]).to});
            }
            CHECK(numbers == count);
            CHECK(words == 1);
            for (const auto& [from, to] : lines) CHECK((from.x == to.x || from.y == to.y));  // along the mast, and out
        }
}
