#include "completeness/completeness.hpp"

#include "base/text.hpp"

namespace rigdeed::completeness {

bool must_be_seen(const survey::Fitting& fitting, survey::Way pass, const survey::Survey& survey) {
    if (fitting.not_seen) return false;
    if (survey.attendance.climbed != survey::Climbed::stopped) return true;
    return fitting.at_deck() && pass == survey::Way::up;
}

std::vector<NoteGroup> grouped_remarks(const Completeness& completeness) {
    std::vector<NoteGroup> groups;
    for (const Requirement& row : remark_requirements()) {
        NoteGroup group;
        for (const Note& note : completeness.remarks)
            if (note.code == row.code) group.notes.push_back(&note);
        if (group.notes.size() > most_told && !row.in_sum.empty())
            group.sum = filled(row.in_sum, {{"n", std::to_string(group.notes.size())}});
        if (!group.notes.empty()) groups.push_back(std::move(group));
    }
    return groups;
}

Completeness check_completeness(const Inspection& inspection) {
    Completeness result;
    for (const Requirement& row : gap_requirements()) row.find(inspection, result.gaps);
    for (const Requirement& row : remark_requirements()) row.find(inspection, result.remarks);
    return result;
}

}  // namespace rigdeed::completeness
