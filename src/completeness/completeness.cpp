#include "completeness/completeness.hpp"

namespace rigdeed::completeness {

bool must_be_seen(const survey::Fitting& fitting, survey::Way pass, const survey::Survey& survey) {
    if (fitting.not_seen) return false;
    if (survey.attendance.climbed != survey::Climbed::stopped) return true;
    return fitting.at_deck() && pass == survey::Way::up;
}

Completeness check_completeness(const Inspection& inspection) {
    Completeness result;
    for (const Requirement& row : gap_requirements()) row.find(inspection, result.gaps);
    for (const Requirement& row : remark_requirements()) row.find(inspection, result.remarks);
    return result;
}

}  // namespace rigdeed::completeness
