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

/// One sign of each kind of fitting after the other, on a rig far past its custom.
survey::Survey with_signs(const trade::Plan& plan, std::size_t turn) {
    survey::Survey survey = sample::old_rig(plan, the_trade());
    for (std::size_t i = turn; i < survey.fittings.size(); i += 3) {
        survey::Fitting& fitting = survey.fittings[i];
        if (fitting.seen.empty()) continue;
        const auto& signs = the_trade().kind(fitting.kind)->signs;
        survey::Sign sign;
        sign.code = signs[(i + turn) % signs.size()].code;
        fitting.seen.front().signs = {sign};
    }
    return survey;
}

}  // namespace

TEST_CASE("a part that is renewed is not to be looked at again, tested, or planned for") {
    std::size_t renewed = 0;
    for (const trade::Plan& plan : the_trade().plans)
        for (std::size_t turn = 0; turn < 6; ++turn) {
            const sample::TemporarySurvey file(survey::write_survey(with_signs(plan, turn)));
            const sample::Composed made = sample::composed(file.file(), the_trade());
            const d::Document chapter = sample::chapter(made.report, "findings");
            std::vector<d::Block> flat;
            const auto flatten = [&](const auto& self, const std::vector<d::Block>& blocks) -> void {
                for (const d::Block& block : blocks) {
                    if (const auto* together = std::get_if<d::Together>(&block.value)) self(self, together->blocks);
                    else if (const auto* stack = std::get_if<d::Stack>(&block.value))
                        for (const d::Stack::Piece& piece : stack->pieces) self(self, piece.ways.front());
                    else flat.push_back(block);
                }
            };
            flatten(flatten, chapter.blocks);
            const d::FindingHead* head = nullptr;
            for (const d::Block& block : flat) {
                if (const auto* next = std::get_if<d::FindingHead>(&block.value)) head = next;
                const auto* texts = std::get_if<d::TwoTexts>(&block.value);
                if (texts == nullptr || head == nullptr || head->mark.verdict != survey::Verdict::renew) continue;
                ++renewed;
                CAPTURE(plan.id);
                CAPTURE(head->title);
                for (const char* milder : {"ook again by", "plan its renewal", "plan to renew", "or unstep and test",
                                           "if not,", "if one is pitted"})
                    CHECK_MESSAGE(texts->right.find(milder) == std::string::npos, texts->right);
                CHECK(!texts->right.empty());
            }
        }
    CHECK(renewed > 200);
}
