#include <doctest/doctest.h>

#include "base/text.hpp"
#include "report/composed.hpp"

using namespace rigdeed;
namespace d = rigdeed::document;

TEST_CASE("the register leads to the row of pictures where a sound fitting stands") {
    const trade::Trade trade = trade::load_trade({}, "en");
    const sample::Composed made =
        sample::composed(std::string(RIGDEED_SOURCE_DIR) + "/demo/survey.xml", trade, std::nullopt);
    const auto grids = sample::blocks_of<d::PairGrid>(sample::chapter(made.report, "sound"));
    REQUIRE(grids.size() == 1);
    std::map<std::string, std::string> anchors;
    for (std::size_t i = 0; i < grids[0].cards.size(); ++i)
        anchors[grids[0].cards[i].title] = d::PairGrid::anchor_of(grids[0].anchor, i);
    std::size_t sound = 0;
    for (const d::Table& table : sample::blocks_of<d::Table>(sample::chapter(made.report, "register")))
        for (const d::RowGroup& group : table.groups)
            for (const d::Row& row : group.rows) {
                if (row.cells.size() != 7) continue;
                const auto found = anchors.find(row.cells[1].bold);
                if (found == anchors.end()) {
                    CHECK((row.link.empty() || row.link.starts_with("finding-")));  // photos of no fitting
                    continue;
                }
                CHECK_MESSAGE(row.link == found->second, row.cells[1].bold);
                CHECK(row.cells[6].page_of == found->second);
                ++sound;
            }
    CHECK(sound == anchors.size());
    CHECK(sound > 30);
}
