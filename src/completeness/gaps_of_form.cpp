#include <algorithm>

#include "base/text.hpp"
#include "completeness/gaps.hpp"

namespace rigdeed::completeness {
namespace {

/// Id of the stay or fitting that it stands in; empty for what belongs to the survey as a whole.
std::string subject_of(const survey::Open& open, const survey::Survey& survey) {
    const std::string first = open.of.substr(0, open.of.find('/'));
    const auto has = [&](const auto& rows) {
        return std::any_of(rows.begin(), rows.end(), [&](const auto& row) { return row.id == first; });
    };
    return has(survey.stays) || has(survey.fittings) ? first : std::string();
}

/// "name of surveyor"; "height"
std::string value_name(const survey::Open& open, const std::string& subject) {
    const std::string attribute = open.attribute.empty() ? "…" : open.attribute;
    return subject == open.of ? attribute : "<" + open.of.substr(open.of.find('/') + 1) + "> " + attribute;
}

}  // namespace

void left_open(const Inspection& in, Notes& notes) {
    for (const survey::Open& open : in.survey.open) {
        if (!open.value.empty()) continue;
        const std::string subject = subject_of(open, in.survey);
        notes.push_back({"left-open", subject, open.line,
                         in.trade.wording("gap.left-open", {{"value", value_name(open, subject)}}),
                         "write what it is in place of the \"?\""});
    }
}

/// One note for all proposals of one stay, fitting or section.
void unconfirmed(const Inspection& in, Notes& notes) {
    const auto& all = in.survey.open;
    for (auto at = all.begin(); at != all.end();) {
        const auto end = std::find_if(at, all.end(), [&](const survey::Open& one) { return one.of != at->of; });
        const std::string subject = subject_of(*at, in.survey);
        std::vector<std::string> names;
        for (auto one = at; one != end; ++one)
            if (!one->value.empty()) names.push_back(value_name(*one, subject));
        if (!names.empty())
            notes.push_back({"unconfirmed", subject, at->line,
                             in.trade.wording("gap.unconfirmed", {{"values", in.trade.wording.listed(names)}}),
                             "measure it or look at it on board, correct it, and take the \"?\" away"});
        at = end;
    }
}

void sign_without_words(const Inspection& in, Notes& notes) {
    for (const survey::Fitting& fitting : in.survey.fittings)
        for (const survey::Seen& seen : fitting.seen)
            for (const survey::Sign& sign : seen.signs) {
                if (!sign.words.empty()) continue;
                Note note = about(fitting, "sign-without-words",
                                  in.trade.wording("gap.sign-without-words", {{"sign", sign.code}}),
                                  "say in a sentence what was seen, between <sign …> and </sign>");
                note.line = sign.line;
                notes.push_back(std::move(note));
            }
}

}  // namespace rigdeed::completeness
