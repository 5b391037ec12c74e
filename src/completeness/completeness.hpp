#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "evidence/evidence.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"

/// What is missing before a report may be issued, and what a reader of it should know about the evidence.
namespace rigdeed::completeness {

/// Something found by a row of the requirements table.
struct Note {
    std::string code;     ///< the row's: "no-photo-pair"
    std::string fitting;  ///< id of the fitting or stay it is about; empty: the survey as a whole
    int line = 0;         ///< in the survey file
    std::string what;     ///< one sentence, no full stop
    std::string hint;     ///< what to do; may be empty for remarks
};

struct Completeness {
    std::vector<Note> gaps;     ///< block `issue`
    std::vector<Note> remarks;  ///< printed, do not block

    [[nodiscard]] bool complete() const { return gaps.empty(); }
};

/// Everything a requirement may look at.
struct Inspection {
    const survey::Survey& survey;
    const evidence::Evidence& evidence;
    const trade::Trade& trade;
    std::optional<Date> issued;  ///< day of issue, or today; none: not known
};

/// A row: its code, what it asks for, and the function that finds where it is not met.
struct Requirement {
    std::string_view code;
    std::string_view asks;
    void (*find)(const Inspection&, std::vector<Note>&);
    bool in_sum = false;  ///< said once where there are many, in the words of "remark.<code>.sum"
};

/// Notes of one row of the table, to be told one by one or, where there are more than `most_told`, in sum.
struct NoteGroup {
    std::string sum;  ///< empty: tell them one by one
    std::vector<const Note*> notes;
};
inline constexpr std::size_t most_told = 8;
[[nodiscard]] std::vector<NoteGroup> grouped_remarks(const Completeness& completeness, const trade::Trade& trade);

/// Why a photo is not usable.
[[nodiscard]] std::string reason_words(const evidence::Photo& photo, const trade::Wording& words);

[[nodiscard]] const std::vector<Requirement>& gap_requirements();
[[nodiscard]] const std::vector<Requirement>& remark_requirements();

/// Runs every row; all that they find, in the order of the rows.
[[nodiscard]] Completeness check_completeness(const Inspection& inspection);

/// What is missing about single fittings, the first of each: as long as it is, none of them is called sound.
[[nodiscard]] std::map<std::string, std::string> by_fitting(const Completeness& completeness);

/// Must this fitting have been seen in that pass? Not aloft where the inspection stopped at the deck,
/// nor on the way down then, nor where a reason stands why it was not seen.
[[nodiscard]] bool must_be_seen(const survey::Fitting& fitting, survey::Way pass, const survey::Survey& survey);

}  // namespace rigdeed::completeness
