#include <regex>

#include "base/text.hpp"
#include "report/composed.hpp"
#include "survey/sample.hpp"
#include "survey/temporary_survey.hpp"

using namespace rigdeed;
using namespace rigdeed::sample;
namespace d = rigdeed::document;

namespace {

std::string shroud(const std::string& id, const std::string& side, const std::string& size, const std::string& fitted) {
    return "<stay id=\"" + id + "\" role=\"cap-shroud\" side=\"" + side + "\" diameter=\"" + size +
           "\" make=\"1x19\" alloy=\"316\" fitted=\"" + fitted + "\" age-source=\"invoice\"/>";
}

std::string broken(const std::string& stay) {
    return fitting(stay + "-line", "strand", stay, "mast", "<sign code=\"wire-broken\">seen</sign>");
}

/// The rows of the calculations, each as one text, of two shrouds that are both renewed.
std::vector<std::string> rows_of(const std::string& language, const std::string& other_size, const std::string& month) {
    const trade::Trade trade = trade::load_trade({}, language);
    const TemporarySurvey file(text_with(
        shroud("p", "port", "8 mm", month) + shroud("s", "starboard", other_size, month), broken("p") + broken("s")));
    const Composed made = composed(file.file(), trade);
    std::vector<std::string> rows;
    for (const d::Table& table : blocks_of<d::Table>(chapter(made.report, "calculations")))
        for (const d::RowGroup& group : table.groups)
            for (const d::Row& row : group.rows) {
                std::string text;
                for (const d::Cell& cell : row.cells) text += cell.bold + " " + join(cell.lines, " ") + " | ";
                rows.push_back(text);
            }
    return rows;
}

}  // namespace

TEST_CASE("quantities of two sizes are two rows, each with its own numbers") {
    std::size_t of_eight = 0, of_six = 0;
    for (const std::string& row : rows_of("en", "6 mm", "2014-05")) {
        if (row.find("stays: 1; terminals: 2") == std::string::npos) continue;
        const bool eight = row.find("8 mm") != std::string::npos, six = row.find("6 mm") != std::string::npos;
        CHECK_MESSAGE(eight != six, row);
        of_eight += eight;
        of_six += six;
    }
    CHECK(of_eight == 1);
    CHECK(of_six == 1);
    std::size_t both = 0;
    for (const std::string& row : rows_of("en", "8 mm", "2014-05"))
        both += row.find("stays: 2; terminals: 4") != std::string::npos;
    CHECK(both == 1);
}

TEST_CASE("no month and no word in the calculations of another language is English") {
    const std::regex english("\\b(January|February|March|May|June|July|October|December|both|the|and|with)\\b");
    for (const std::string language : {"de", "es", "fr"})
        for (const std::string month : {"01", "03", "05", "10", "12"}) {
            const auto rows = rows_of(language, "8 mm", "2014-" + month);
            CHECK(rows.size() > 4);
            for (const std::string& row : rows) {
                const std::string text = std::regex_replace(row, std::regex("The Complete Rigger.s Apprentice"), "");
                CHECK_MESSAGE(!std::regex_search(text, english), language, ": ", row);
            }
        }
}
