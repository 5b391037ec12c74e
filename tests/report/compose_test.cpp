#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>

#include "drawing/elevation.hpp"
#include "report/composed.hpp"

using namespace rigdeed;
namespace d = rigdeed::document;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

sample::Composed fixture(const std::string& name, std::optional<report::SignerFacts> signer = std::nullopt) {
    return sample::composed(std::string(RIGDEED_SOURCE_DIR) + "/" + name + "/survey.xml", the_trade(),
                            std::move(signer));
}

const report::SignerFacts signer{"A. Surveyor", "", std::string(64, 'a'), "1 January 2030"};

/// Numbers of the chapters that have one.
std::vector<std::string> chapter_numbers(const d::Document& report) {
    std::vector<std::string> numbers;
    for (const d::Heading& heading : sample::blocks_of<d::Heading>(report))
        if (heading.level == d::Level::title && !heading.number.empty()) numbers.push_back(heading.number);
    return numbers;
}

bool has_chapter(const d::Document& report, const std::string& anchor) {
    return !sample::chapter(report, anchor).blocks.empty();
}

}  // namespace

TEST_CASE("chapters are numbered 1, 2, 3 … whatever the survey is like") {
    for (const char* name :
         {"demo", "fixtures/complete", "fixtures/stopped", "fixtures/unstepped", "fixtures/gaps/photo-unused"})
        for (const auto& by : {std::optional<report::SignerFacts>(), std::optional(signer)}) {
            CAPTURE(name);
            const auto numbers = chapter_numbers(fixture(name, by).report);
            REQUIRE(numbers.size() == 9);
            for (std::size_t i = 0; i < numbers.size(); ++i) CHECK(numbers[i] == std::to_string(i + 1));
        }
}

TEST_CASE("every chapter begins on a new page, and its anchor is its own") {
    std::set<std::string> anchors;
    const d::Document report = fixture("demo").report;
    for (std::size_t i = 0; i < report.blocks.size(); ++i) {
        const auto* heading = std::get_if<d::Heading>(&report.blocks[i].value);
        if (heading == nullptr || heading->level != d::Level::title) continue;
        REQUIRE(i > 0);
        CHECK(std::holds_alternative<d::PageBreak>(report.blocks[i - 1].value));
        CHECK(anchors.insert(heading->anchor).second);
    }
    CHECK(anchors.size() == 11);  // the contents have none
}

TEST_CASE("gaps have a chapter of their own and a stamp on every page; a complete survey has neither") {
    const d::Document open = fixture("fixtures/gaps/photo-unused", signer).report;
    CHECK(has_chapter(open, "gaps"));
    CHECK(open.head.stamps == std::vector<std::string>{the_trade().wording("stamp.incomplete")});
    const auto listed = sample::blocks_of<d::Table>(sample::chapter(open, "gaps"));
    REQUIRE(listed.size() == 1);
    CHECK(listed[0].groups.at(0).rows.size() == 1);
    const d::Document whole = fixture("fixtures/complete", signer).report;
    CHECK(!has_chapter(whole, "gaps"));
    CHECK(whole.head.stamps.empty());
    CHECK(whole.watermark.empty());
}

TEST_CASE("the page on how to check has a code beside the fingerprint, and a preview has none") {
    const auto codes = [](const d::Document& report) {
        std::vector<std::string> beside;
        for (const auto& one : sample::blocks_of<d::Fingerprint>(report))
            if (one.code && !one.code->items.empty() && !one.code_caption.empty()) beside.push_back(one.hex);
        return beside;
    };
    CHECK(codes(fixture("fixtures/complete", signer).report) == std::vector{signer.fingerprint});
    CHECK(codes(fixture("fixtures/complete").report).empty());
}

TEST_CASE("without a signer every page says that it is a preview") {
    const d::Document report = fixture("fixtures/complete").report;
    CHECK(report.head.stamps == std::vector<std::string>{the_trade().wording("stamp.preview")});
    CHECK(report.watermark == the_trade().wording("stamp.preview"));
}

TEST_CASE("the works list has each finding once, what bars climbing first, then from worst to least") {
    const sample::Composed demo = fixture("demo", signer);
    const assessment::Assessment& assessment = demo.inspected->assessment;
    const auto tables = sample::blocks_of<d::Table>(sample::chapter(demo.report, "works"));
    REQUIRE(tables.size() == 2);  // the schedule of sizes stands below
    CHECK(tables[1].groups.at(0).rows.size() == demo.inspected->survey.stays.size());
    std::vector<int> numbers, urgency;
    const auto add_named = [&](const d::Row& row, int first) {  // what is asked of several fittings names each
        std::string text = row.cells.at(1).lines.at(0);
        for (auto at = text.find("(item "); at != std::string::npos; at = text.find("(item ", at + 1))
            if (const int number = std::stoi(text.substr(at + 6));
                number != first && text.find(")", at) < at + 10 &&
                row.cells.at(0).mark->verdict == survey::Verdict::watch &&
                assessment.fittings.at(assessment.findings.at(static_cast<std::size_t>(number) - 1)).verdict ==
                    survey::Verdict::watch)
                numbers.push_back(number);
    };
    for (const d::RowGroup& group : tables[0].groups)
        for (const d::Row& row : group.rows) {
            add_named(row, row.cells.at(0).mark.value().number);
            const int number = row.cells.at(0).mark.value().number;
            numbers.push_back(number);
            const auto one =
                std::find_if(assessment.fittings.begin(), assessment.fittings.end(),
                             [&](const auto& fitting) { return fitting.number == number && !fitting.with; });
            REQUIRE(one != assessment.fittings.end());
            const std::map<survey::Verdict, int> rank{{survey::Verdict::renew, 1},
                                                      {survey::Verdict::rectify, 2},
                                                      {survey::Verdict::watch, 3},
                                                      {survey::Verdict::unseen, 4}};
            const bool stops = one->bars_climbing &&
                               (one->verdict == survey::Verdict::renew || one->verdict == survey::Verdict::rectify);
            urgency.push_back(stops ? 0 : rank.at(one->verdict));
        }
    CHECK(std::is_sorted(urgency.begin(), urgency.end()));
    CHECK(urgency.front() == 0);
    CHECK(urgency.back() > 0);
    CHECK(numbers.size() == assessment.findings.size());
    CHECK(std::set<int>(numbers.begin(), numbers.end()).size() == numbers.size());
}

TEST_CASE("every fitting stands in the register, with the page it is told of") {
    const sample::Composed demo = fixture("demo", signer);
    std::vector<std::string> ids;
    for (const d::Table& table : sample::blocks_of<d::Table>(sample::chapter(demo.report, "register")))
        for (const d::RowGroup& group : table.groups)
            for (const d::Row& row : group.rows) {
                if (row.cells.size() != 7 || row.cells[2].lines.empty())
                    continue;  // of another table; a photo of no fitting
                ids.push_back(row.cells[2].lines.at(0));
                CHECK(!row.link.empty());
            }
    std::vector<std::string> wanted;
    for (const auto& one : demo.inspected->assessment.fittings) wanted.push_back(one.fitting->id);
    CHECK(ids == wanted);
}

TEST_CASE("what was told from before stands in the report, and what was not is said to be so") {
    const auto told = [](const sample::Composed& made) {
        std::map<std::string, std::string> rows;
        for (const char* chapter : {"rig", "scope"})
            for (const d::Table& table : sample::blocks_of<d::Table>(sample::chapter(made.report, chapter)))
                for (const d::RowGroup& group : table.groups)
                    for (const d::Row& row : group.rows)
                        for (std::size_t i = 0; i + 1 < row.cells.size(); i += 2)  // two columns, or two beside two
                            if (!row.cells[i + 1].lines.empty())
                                rows[row.cells[i].bold] += row.cells[i + 1].lines.front();
        return rows;
    };
    auto all = told(fixture("fixtures/spellings"));
    CHECK(all["Survey before this one"] == "2022, Cal Fenn, no. C-7");
    CHECK(all["Left undone since"] == "lights");
    CHECK(all["Work done"] == "April 2024, the owner: shroud renewed");
    CHECK(all["Sailed with this rig"] == "4000 km");
    CHECK(all["Owner's statement"] == "never aground?");
    CHECK(all["Tension measured before"].find("120 kgf") != std::string::npos);
    CHECK(all["Photo of the hull number"] == "X2.jpg");
    CHECK(all["indemnity cover"] == "500 000 a claim, until 2027-03");
    CHECK(all["standards applied"] == "common practice?");
    auto none = told(fixture("fixtures/complete"));
    for (const char* row : {"Survey before this one", "Work done", "Sailed with this rig", "Owner's statement",
                            "Tension measured before", "indemnity cover", "standards applied"})
        CHECK(none[row] == "not stated");
    CHECK(none["Photo of the hull number"] == "none");
}

TEST_CASE("the age of the rigging stands on the cover, with what is past the customary age or not known") {
    const auto line = [](const std::string& name) {
        for (const d::Block& block : fixture(name).report.cover)
            if (const auto* facts = std::get_if<d::Facts>(&block.value)) return facts->facts.back().lines;
        return std::vector<std::string>();
    };
    using Lines = std::vector<std::string>;
    CHECK(line("fixtures/complete") == Lines{"standing rigging fitted 2024", "by invoice"});
    CHECK(line("fixtures/worked") == Lines{"standing rigging fitted 2009 to 2023", "owner's word, by invoice, by plate",
                                           "stays past the customary age: 3 of 6", "stays of unknown age: 1 of 6"});
}

TEST_CASE("the register lists every photo, whether it can be printed or not") {
    for (const char* name : {"demo", "fixtures/complete", "fixtures/gaps/photo-unreadable"}) {
        CAPTURE(name);
        const sample::Composed made = fixture(name, signer);
        REQUIRE(!made.inspected->evidence.photos.empty());
        const auto tables = sample::blocks_of<d::Table>(sample::chapter(made.report, "register"));
        REQUIRE(!tables.empty());
        std::map<std::string, std::size_t> in_full;  // by the digest and the file's name
        for (const d::RowGroup& group : tables.back().groups)
            for (const d::Row& row : group.rows)
                for (const std::vector<std::string>& note : row.notes)
                    if (note.size() > 1) ++in_full[note.back()];
        for (const evidence::Photo& photo : made.inspected->evidence.photos) CHECK(in_full[photo.sha256.hex()] == 1);
    }
}

TEST_CASE("every finding has its head and every fitting found sound its card; none has both or neither") {
    const sample::Composed demo = fixture("demo", signer);
    std::size_t cards = 0;
    for (const d::PairGrid& grid : sample::blocks_of<d::PairGrid>(demo.report)) cards += grid.cards.size();
    const auto heads = sample::blocks_of<d::FindingHead>(demo.report);
    CHECK(heads.size() == demo.inspected->assessment.findings.size());
    CHECK(heads.size() + cards == demo.inspected->assessment.fittings.size());
}

TEST_CASE("in the demo at least five findings come from a measure, and as many from an age") {
    const sample::Composed demo = fixture("demo", signer);
    std::size_t measured = 0, old = 0;
    for (const std::size_t i : demo.inspected->assessment.findings) {
        const auto& one = demo.inspected->assessment.fittings[i];
        measured +=
            std::any_of(one.signs.begin(), one.signs.end(), [](const auto& sign) { return sign.seen == nullptr; });
        old += std::any_of(one.consequences.begin(), one.consequences.end(),
                           [](const auto& by) { return by.rule->id == "past-custom"; });
    }
    CHECK(measured >= 5);
    CHECK(old >= 5);
}

TEST_CASE("every stay that is renewed is underlaid on the cover's rig, that of the opposite number, too") {
    const auto inspected = sample::composed(std::string(RIGDEED_SOURCE_DIR) + "/demo/survey.xml", the_trade());
    std::set<std::string, std::less<>> renewed, by_rules;
    for (const assessment::FittingVerdict& one : inspected.inspected->assessment.fittings) {
        if (!assessment::renews_stay(one)) continue;
        renewed.insert(one.stay->id);
        if (std::none_of(one.signs.begin(), one.signs.end(), [](const auto& sign) { return sign.rule->renews_stay; }))
            by_rules.insert(one.stay->id);
    }
    const auto underlaid = [](const drawing::Drawing& drawing) {
        return std::count_if(drawing.items.begin(), drawing.items.end(), [](const auto& item) {
            const auto* shape = std::get_if<drawing::Shape>(&item);
            return shape != nullptr && shape->stroke && shape->stroke->width == 4.4_pt;
        });
    };
    const drawing::RigGeometry rig = drawing::rig_geometry(inspected.inspected->survey, the_trade());
    drawing::ElevationOptions options;
    options.size = {336_pt, 318_pt};
    options.renewed = renewed;
    const auto all = underlaid(drawing::elevation(rig, {}, options, {}).drawing);
    for (const std::string& id : by_rules) options.renewed.erase(id);
    CHECK(underlaid(drawing::elevation(rig, {}, options, {}).drawing) < all);
    std::size_t drawn = 0;
    for (const d::Block& block : inspected.report.cover)
        if (const auto* overview = std::get_if<d::Overview>(&block.value)) {
            CHECK(underlaid(overview->draw(options.size, 25)) == all);
            ++drawn;
        }
    CHECK(drawn == 1);
}
