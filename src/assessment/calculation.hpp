#pragma once

#include <optional>
#include <string>
#include <vector>

#include "assessment/assessment.hpp"
#include "base/unit.hpp"
#include "evidence/evidence.hpp"

/// What can be calculated from a survey, with its working. Aids to a qualified rigger, not approvals.
namespace rigdeed::assessment {

/// One number of a calculation, or what stands in its place.
struct Figure {
    std::string id;               ///< what it is, in every calculation that has one: "scale", "breaking-load"
    std::string symbol;           ///< as in the formula: "F"
    std::string name;             ///< "breaking load"
    std::optional<double> value;  ///< in `unit`; always finite
    Unit unit = Unit::none;
    int decimals = 0;
    std::string text;    ///< a date or a word, where it is no number
    std::string source;  ///< of an input
    std::string of;      ///< id of the fitting it is about, where there are several

    [[nodiscard]] bool known() const { return value.has_value() || !text.empty(); }
};

/// What a calculation would need.
struct Missing {
    std::string input;  ///< name of an attribute or measure of the survey file
    std::string name;   ///< in words
    std::string of;     ///< id of a stay or fitting; empty: the yacht
};

struct Calculation {
    std::string id;  ///< "strand-strength"
    std::string title;
    std::vector<std::string> about;  ///< ids of stays and fittings; none: the rig
    std::string subject;             ///< the same in words
    std::vector<Figure> inputs;
    std::string formula;  ///< as printed
    std::vector<Figure> results;
    std::string source;
    std::string caveat;
    std::vector<Missing> missing;
    std::vector<std::string> remarks;
    std::vector<std::string> notes;   ///< what is to be kept in mind of every one like it
    std::vector<std::string> doubts;  ///< quantities out of sense, with the reason

    /// By id; throws Error (bug) if there is none of that id. Of several, the first.
    [[nodiscard]] const Figure& input(std::string_view figure) const;
    [[nodiscard]] const Figure& result(std::string_view figure) const;
    /// By id; nothing if this one has none.
    [[nodiscard]] const Figure* find_result(std::string_view figure) const;
    [[nodiscard]] bool has_result() const;
};

using Calculations = std::vector<Calculation>;

/// What calculations are made from. Everything lives longer than the call.
struct Case {
    const survey::Survey& survey;
    const trade::Trade& trade;
    const Assessment& assessment;
    const evidence::Evidence& evidence;
};

/// Every calculation for every stay and fitting it applies to, in the order of the report. Where an input is missing
/// the result is absent and `missing` says what it would take.
[[nodiscard]] Calculations calculate(const Case& one);

/// A line of the list of what would be known with what else.
struct Wanted {
    std::string input;
    std::string name;
    std::vector<std::string> of;            ///< ids; none: the yacht
    std::vector<std::string> calculations;  ///< titles
};
/// What is missing, each input once.
[[nodiscard]] std::vector<Wanted> wanted(const Calculations& calculations);

/// "50.43 kN", or the words for "not measured".
[[nodiscard]] std::string text_of(const Figure& figure, UnitSystem units, const trade::Wording& words);

}  // namespace rigdeed::assessment
