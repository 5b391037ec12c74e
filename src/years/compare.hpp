#pragma once

#include <optional>
#include <string>
#include <vector>

#include "assessment/assessment.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"

/// What changed on a rig from one survey to the next. Both are judged by the rules of this program.
namespace rigdeed::years {

/// One survey of the rig.
struct Visit {
    const survey::Survey* survey = nullptr;
    const assessment::Assessment* assessment = nullptr;
};

enum class Change {
    fresh,    ///< the survey before has no such fitting
    gone,     ///< this one has no such fitting
    renewed,  ///< its stay was fitted after the survey before
    better,
    worse,
    same,
};

/// A sign, in words.
struct SignNamed {
    std::string code;
    std::string name;
};

struct Figure {
    Date on;
    std::string text;  ///< as it was written
    double value = 0;  ///< in the unit of the text
};

/// What was measured of one thing, oldest first: two or more.
struct Course {
    std::string what;  ///< "pin-diameter"
    std::string name;  ///< "diameter of the pin"
    std::string unit;
    std::vector<Figure> figures;
    double difference = 0;           ///< of the last two
    std::optional<double> per_year;  ///< of three and more, by least squares
};

struct FittingChange {
    std::string name;       ///< "port cap shroud, lower swaged terminal"
    std::string id;         ///< in the newer survey; empty: it has none such
    std::string id_before;  ///< in the one before; empty: it had none such
    Change change = Change::same;
    std::optional<survey::Verdict> verdict, verdict_before;
    std::vector<SignNamed> come, still, gone;
    std::vector<SignNamed> not_said;  ///< there before, and neither seen now nor said to be gone
    bool guessed = false;             ///< found by its kind and place: it was called otherwise
    std::vector<Course> courses;
};

/// What looks exchanged: a name that stood for another fitting before.
struct Exchanged {
    std::string id;
    std::optional<survey::Side> before, now;  ///< where only the side is another; none: it is told by its place
};

struct Comparison {
    /// One each of the newer survey, in its order; those that are gone behind.
    std::vector<FittingChange> fittings;
    std::vector<Exchanged> exchanged;

    [[nodiscard]] std::size_t count(Change change) const;
};

/// Whether two surveys are of one yacht: by their hull numbers, where both have one; else by their names.
[[nodiscard]] bool of_one_yacht(const survey::Survey& one, const survey::Survey& other);

/// Of two surveys or more, oldest first: changes from the last but one to the last, measures over all. Throws Error if
/// they are not in the order of their days.
[[nodiscard]] Comparison compare(const std::vector<Visit>& visits, const trade::Trade& trade);

[[nodiscard]] std::string_view name_of(Change change);

}  // namespace rigdeed::years
