#include <algorithm>

#include "assessment/assessment.hpp"

namespace rigdeed::assessment {
namespace {

bool found(const std::string& sign_code, const Assessment& assessment) {
    return std::any_of(assessment.fittings.begin(), assessment.fittings.end(), [&](const FittingVerdict& one) {
        return std::any_of(one.signs.begin(), one.signs.end(),
                           [&](const auto& sign) { return sign.rule->code == sign_code; });
    });
}

bool applies(const trade::CautionText& caution, const Assessment& assessment, const survey::Survey& survey) {
    switch (caution.when) {
        case trade::Occasion::always: return true;
        case trade::Occasion::barred: return assessment.do_not_climb;
        case trade::Occasion::climbed: return survey.attendance.climbed != survey::Climbed::no;
        case trade::Occasion::reliance: return survey.yacht.relies_on_rig;
        case trade::Occasion::found: return found(caution.sign, assessment);
    }
    return true;
}

}  // namespace

std::vector<std::string> cautions_for(std::string_view place, const Assessment& assessment,
                                      const survey::Survey& survey, const trade::Trade& trade) {
    std::vector<std::string> words;
    for (const trade::CautionText& caution : trade.cautions)
        if (std::find(caution.where.begin(), caution.where.end(), place) != caution.where.end() &&
            applies(caution, assessment, survey))
            words.push_back(caution.words);
    return words;
}

}  // namespace rigdeed::assessment
