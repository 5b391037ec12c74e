#include "survey/own_words.hpp"

#include "base/own_words.hpp"

namespace rigdeed::survey {
namespace {

/// Calls `change` with each text that the surveyor put into words.
void each_of_own_words(Survey& survey, const auto& change) {
    for (std::string* text : {&survey.surveyor.qualification, &survey.surveyor.independence, &survey.surveyor.indemnity,
                              &survey.attendance.because, &survey.attendance.weather, &survey.attendance.standards,
                              &survey.history.statement, &survey.photos.because})
        change(*text);
    for (PastSurvey& past : survey.history.surveys) change(past.left);
    for (Repair& repair : survey.history.repairs) change(repair.done);
    for (LoggedTension& tension : survey.history.tensions) change(tension.with);
    for (OtherPhoto& other : survey.photos.others) change(other.shows);
    for (Absent& absent : survey.absent) change(absent.because);
    for (Stay& stay : survey.stays)
        for (Without& without : stay.without) change(without.because);
    for (Fitting& fitting : survey.fittings) {
        for (Seen& seen : fitting.seen) {
            change(seen.because);
            for (Sign& sign : seen.signs) change(sign.words);
        }
        if (fitting.not_seen) change(*fitting.not_seen);
        for (NotSeenIn& pass : fitting.not_seen_in) change(pass.reason);
        for (ClimbedDespite& climbed : fitting.climbed_despite) change(climbed.because);
        if (fitting.verdict) change(fitting.verdict->because);
        for (Gone& gone : fitting.gone) change(gone.because);
    }
}

}  // namespace

bool written_in_another(const Survey& survey, std::string_view language) {
    const std::string_view tag = survey.written_in;
    return !tag.empty() && tag.substr(0, tag.find('-')) != language;
}

void mark_own_words(Survey& survey) {
    each_of_own_words(survey, [](std::string& text) { text = as_own_words(text); });
}

void unmark_own_words(Survey& survey) {
    each_of_own_words(survey, [](std::string& text) { text = without_own_words_marks(text); });
}

}  // namespace rigdeed::survey
