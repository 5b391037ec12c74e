#include "completeness/completeness.hpp"

#include "base/text.hpp"
#include "completeness/remarks.hpp"

namespace rigdeed::completeness {

bool must_be_seen(const survey::Fitting& fitting, survey::Way pass, const survey::Survey& survey) {
    if (fitting.not_seen || fitting.not_seen_on(pass) != nullptr) return false;
    if (survey.attendance.climbed != survey::Climbed::stopped) return true;
    return fitting.at_deck() && pass == survey::Way::up;
}

std::vector<NoteGroup> grouped_remarks(const Completeness& completeness, const trade::Trade& trade) {
    const trade::Wording& words = trade.wording;
    const double hairline = trade.tables.constant("hairline").value;
    std::vector<NoteGroup> groups;
    for (const Requirement& row : remark_requirements()) {
        NoteGroup group;
        for (const Note& note : completeness.remarks)
            if (note.code == row.code) group.notes.push_back(&note);
        if (group.notes.size() > most_told && row.in_sum)
            group.sum = words("remark." + std::string(row.code) + ".sum",
                              {{"n", std::to_string(group.notes.size())}, {"hairline", words.number(hairline, 1)}});
        if (!group.notes.empty()) groups.push_back(std::move(group));
    }
    return groups;
}

std::string reason_words(const evidence::Photo& photo, const trade::Wording& words) {
    const evidence::Trouble& trouble = photo.trouble;
    if (trouble.why == evidence::Why::told_before) return trouble.told;
    const bool elsewhere = trouble.why == evidence::Why::not_there && !trouble.files.empty();
    return words("photo.trouble." + std::string(evidence::row_of(trouble.why).name) + (elsewhere ? ".but" : ""),
                 {{"n", std::to_string(trouble.number)},
                  {"files", trouble.files.empty() ? std::string() : words.either(trouble.files)}});
}

Completeness check_completeness(const Inspection& inspection) {
    Completeness result;
    for (const Requirement& row : gap_requirements()) row.find(inspection, result.gaps);
    for (const Requirement& row : remark_requirements()) row.find(inspection, result.remarks);
    return result;
}

std::map<std::string, std::string> by_fitting(const Completeness& completeness) {
    std::map<std::string, std::string> open;
    for (const Note& gap : completeness.gaps)
        if (!gap.fitting.empty()) open.emplace(gap.fitting, gap.what);
    return open;
}

}  // namespace rigdeed::completeness
