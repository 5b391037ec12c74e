#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "survey/survey.hpp"
#include "trade/trade.hpp"

/// What the rig of a survey must have: by its plan and what was chosen of it, else what any such rig has.
namespace rigdeed::completeness {

/// Stays of one role, or fittings of one kind, in one place.
struct Wanted {
    bool stay = false;
    std::string id;                    ///< a role, or a kind
    std::optional<survey::Side> side;  ///< none: on whichever side
    std::string mast;
    std::string station;  ///< empty: wherever
    std::string of_role;  ///< of the stay that a fitting belongs to; empty: of none, or of any
    std::size_t count = 1;
    bool of_plan = false;
};

class RigDemanded {
 public:
    RigDemanded(const survey::Survey& survey, const trade::Trade& trade);

    [[nodiscard]] const std::vector<Wanted>& wanted() const { return wanted_; }
    /// How many of them the survey lists.
    [[nodiscard]] std::size_t listed(const Wanted& wanted) const;
    /// Whether the survey says that there is none, and why.
    [[nodiscard]] bool declared_absent(const Wanted& wanted) const;
    [[nodiscard]] bool fits(const survey::Absent& absent, const Wanted& wanted) const;
    /// What was taken for chosen because the survey does not say.
    [[nodiscard]] const trade::Settings& guessed() const { return guessed_; }

 private:
    void by_plan(const trade::Plan& plan);
    void by_any_rig(bool all);
    void want(Wanted wanted);
    [[nodiscard]] std::vector<Wanted> of_plan(const trade::Plan& plan, const trade::Settings& settings) const;
    [[nodiscard]] std::size_t off(const std::vector<Wanted>& wanted, const std::vector<Wanted>& possible) const;
    [[nodiscard]] bool same_mast(const std::string& a, const std::string& b) const { return one_mast_ || a == b; }

    const survey::Survey& survey_;
    const trade::Trade& trade_;
    bool one_mast_ = false;
    std::map<std::string, const survey::Stay*> stays_;
    std::vector<Wanted> wanted_;
    trade::Settings guessed_;
};

}  // namespace rigdeed::completeness
