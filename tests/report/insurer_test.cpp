#include <doctest/doctest.h>

#include "base/text.hpp"
#include "report/composed.hpp"
#include "report/old_rig.hpp"
#include "survey/temporary_survey.hpp"
#include "survey/write_survey.hpp"

using namespace rigdeed;
namespace d = rigdeed::document;

namespace {

using sample::the_trade;

/// All paragraphs of a chapter.
std::string words_of(const d::Document& chapter) {
    std::string all;
    for (const d::Paragraph& one : sample::blocks_of<d::Paragraph>(chapter)) all += one.text + "\n";
    return all;
}

}  // namespace

TEST_CASE("what nobody saw is told as that, whatever its age makes of it, and the counts add up") {
    std::size_t worse = 0;
    for (const trade::Plan& plan : the_trade().plans) {
        CAPTURE(plan.id);
        const sample::TemporarySurvey file(survey::write_survey(sample::old_rig(plan, the_trade())));
        const sample::Composed made = sample::composed(file.file(), the_trade());
        std::size_t unseen = 0, all = made.inspected->assessment.fittings.size();
        for (const assessment::FittingVerdict& one : made.inspected->assessment.fittings) {
            if (!one.fitting->seen.empty() && one.verdict != survey::Verdict::unseen) continue;
            ++unseen;
            if (one.verdict > survey::Verdict::unseen) ++worse;
        }
        const std::string told = std::to_string(all) + " fittings: " + std::to_string(all - unseen) +
                                 " seen twice, 0 once, " + std::to_string(unseen) + " not";
        bool on_cover = false;
        for (const d::Block& block : made.report.cover)
            if (const auto* facts = std::get_if<d::Facts>(&block.value))
                for (const auto& fact : facts->facts)
                    for (const std::string& line : fact.lines) on_cover = on_cover || line == told;
        CHECK_MESSAGE(on_cover, told);
        CHECK(words_of(sample::chapter(made.report, "insurer")).find(told) != std::string::npos);
    }
    CHECK(worse > 20);
}

TEST_CASE("the insurer's page says the answer, and what is urgent on no stay") {
    std::size_t named = 0;
    for (const trade::Plan& plan : the_trade().plans) {
        CAPTURE(plan.id);
        const sample::TemporarySurvey file(survey::write_survey(sample::old_rig(plan, the_trade())));
        const sample::Composed made = sample::composed(file.file(), the_trade());
        const std::string words = words_of(sample::chapter(made.report, "insurer"));
        for (const d::Block& block : made.report.cover)
            if (const auto* plate = std::get_if<d::AnswerPlate>(&block.value)) {
                CHECK(words.find(plate->statement) != std::string::npos);
                CHECK(words.find(plate->climb) != std::string::npos);
            }
        std::size_t most = made.inspected->survey.stays.size() > 9 ? 6 : 12;
        for (const std::size_t i : made.inspected->assessment.findings) {
            const assessment::FittingVerdict& one = made.inspected->assessment.fittings[i];
            if (one.stay != nullptr || one.verdict < survey::Verdict::rectify || most == 0) continue;
            --most, ++named;
            CHECK_MESSAGE(words.find(" " + std::to_string(one.number) + ": " + one.name) != std::string::npos,
                          one.name);
        }
    }
    CHECK(named > 14);
}
