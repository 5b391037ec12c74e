#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "survey/survey.hpp"

namespace rigdeed::trade {

/// Something about a rig that can be chosen: the number of spreader pairs, an inner forestay or none.
struct Parameter {
    std::string id;
    std::string says;
    std::vector<std::string> values;
    std::string standard;  ///< the value if none is chosen
    bool asked = true;     ///< who leaves it out is told; else it is as the standard says
};

using Settings = std::map<std::string, std::string>;

/// "inner-forestay=yes"; empty: always.
struct Condition {
    std::string parameter;
    std::string value;

    [[nodiscard]] bool holds(const Settings& settings) const;
};

struct PlanMast {
    std::string id;  ///< fore, main, mizzen; empty where there is one only
    Length height;   ///< of the masthead above the waterline
};

/// A stay of the plan, or one for each value of a parameter ("each"), or one a side.
struct PlanStay {
    std::string id;
    std::string role;
    bool both_sides = false;
    std::string mast;
    std::string make;
    std::string alloy;
    Length diameter;
    std::optional<double> top;  ///< of the mast's height, 0 … 1; none: at the n-th spreader
    std::string each;           ///< parameter that counts; empty: one
    int from = 1;               ///< first n
    Condition when;

    [[nodiscard]] bool required() const { return when.parameter.empty() && each.empty(); }
};

/// A fitting besides those that a stay's make demands.
struct PlanFitting {
    std::string id;
    std::string kind;
    std::string stay;  ///< id of a stay on the centreline, or empty
    bool both_sides = false;
    std::string mast;
    std::string station;  ///< "spreader" for the n-th spreader
    std::optional<double> height;
    std::string each;
    Condition when;
};

struct Plan {
    std::string id;
    std::string name;
    std::string says;  ///< one line for the list
    std::string mast_material;
    Length loa;
    std::vector<Parameter> parameters;
    std::vector<PlanMast> masts;
    std::vector<PlanStay> stays;
    std::vector<PlanFitting> fittings;

    [[nodiscard]] const Parameter* parameter(std::string_view parameter_id) const;
};

/// In place of a plan, for a rig like none of them.
inline constexpr std::string_view any_rig = "other";

struct Trade;

/// A survey of this rig with every fitting in climbing order and nothing seen yet. `settings` override the plan's
/// standard values; `today` is the date of attendance to begin with; an unknown parameter or value throws Error with
/// what there is.
[[nodiscard]] survey::Survey start_survey(const Plan& plan, const Settings& settings, const Date& today,
                                          const Trade& trade);

}  // namespace rigdeed::trade
