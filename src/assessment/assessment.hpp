#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "assessment/limits.hpp"
#include "base/date.hpp"
#include "survey/survey.hpp"
#include "trade/judge.hpp"
#include "trade/trade.hpp"

/// Verdicts, and what follows from them for the rig. Pointers live as long as survey and trade.
namespace rigdeed::assessment {

using survey::Verdict;

/// A rule over several fittings that speaks of this one.
struct Consequence {
    const trade::CrossRule* rule = nullptr;
    std::optional<std::size_t> because_of;  ///< index of the fitting that brought it up, if another
};

struct FittingVerdict {
    const survey::Fitting* fitting = nullptr;
    const survey::Stay* stay = nullptr;  ///< null where it belongs to none
    const trade::Kind* kind = nullptr;
    std::string name;                  ///< "port cap shroud, lower swaged terminal"
    std::string own_name;              ///< the same without its stay: "lower swaged terminal"
    Verdict verdict = Verdict::sound;  ///< the one that stands
    Verdict told = Verdict::sound;     ///< what its signs and passes say, before the surveyor's own word
    std::string unseen_because;        ///< why it could not be inspected, if it could not
    bool seen_once = false;            ///< only one look was asked for: the inspection stopped at the deck
    bool passes_differ = false;        ///< the two passes by themselves would say different things
    bool bars_climbing = false;
    bool absent = false;                   ///< the stay is said to be without it: nothing was looked at
    std::vector<trade::JudgedSign> signs;  ///< findings only (not dirt), worst first; those of measures have no pass
    std::vector<Consequence> consequences;
    int number = 0;                   ///< of its finding and its line in the works list, from 1; 0: none
    std::optional<int> renewed_with;  ///< number of an earlier line that renews the same stay
    std::optional<std::size_t> with;  ///< index of the fitting whose finding speaks of this one too

    [[nodiscard]] bool is_finding() const { return !with && has_something(); }
    [[nodiscard]] bool has_something() const {
        return verdict != Verdict::sound || !signs.empty() || !consequences.empty();
    }
    [[nodiscard]] bool milder_than_told() const { return verdict < told; }
};

/// The rig's own statement: the worst over its fittings, in one of a few forms.
enum class Answer {
    nothing_found,          ///< no sign found that keeps the rig from service
    nothing_found_in_seen,  ///< the same, in the parts seen
    after_work,             ///< serviceable once the listed work is done
    not_to_be_sailed,       ///< until the listed parts are renewed
    stopped_at_deck,
};

/// A mast that nobody climbs, and the numbers of the findings that bar it.
struct BarredMast {
    std::string mast;  ///< main, mizzen, fore; empty where there is one
    std::vector<int> items;
};

struct Assessment {
    ToldByMeasure told;                                          ///< what findings from measures point to
    std::vector<std::shared_ptr<const survey::Fitting>> absent;  ///< fittings that a stay is said to be without
    std::vector<FittingVerdict> fittings;                        ///< in the survey's order
    std::vector<std::size_t> findings;  ///< indices into fittings, worst first: number 1, 2, …
    Answer answer = Answer::stopped_at_deck;
    Verdict worst = Verdict::renew;
    bool do_not_climb = true;
    std::vector<BarredMast> barred;  ///< from the first mast that the survey names
    Date surveyed;
    Date watch_by;  ///< when to look again at what is watched

    [[nodiscard]] std::size_t count(Verdict verdict) const;
};

/// "not-to-be-sailed".
[[nodiscard]] std::string_view name_of(Answer answer);

/// Ids of fittings about which something is missing, and what: none of them is called sound.
using Withheld = std::map<std::string, std::string>;

/// Judges every fitting and the rig. The survey's names must have been checked against the trade.
[[nodiscard]] Assessment assess(const survey::Survey& survey, const trade::Trade& trade, const Withheld& withheld = {});

/// The rule over several fittings that makes this one's verdict worse than its signs do; null where none does.
[[nodiscard]] const Consequence* worse_than_signs(const FittingVerdict& one);

/// Whether a sign on this fitting has its whole stay renewed.
[[nodiscard]] bool renews_stay(const FittingVerdict& one);

/// The cautions that stand in this place for this survey, in the order of the table.
[[nodiscard]] std::vector<std::string> cautions_for(std::string_view place, const Assessment& assessment,
                                                    const survey::Survey& survey, const trade::Trade& trade);

/// The masts that a fitting holds up, or would bar: its own; all of them where the survey does not say which.
[[nodiscard]] std::vector<std::string> masts_of(const survey::Fitting& fitting, const survey::Survey& survey,
                                                const trade::Trade& trade);

/// When to look again at what is watched.
[[nodiscard]] Date watch_date(const survey::Survey& survey, const trade::Trade& trade);

/// Words of a rule over several fittings with {stay}, {fitting}, {other}, {item} and {date} filled in, and of its stay
/// {age}, {common}, {least}, {most} (the custom for its make) and {sailed}.
[[nodiscard]] std::string words_of(const Consequence& consequence, const std::string& pattern,
                                   const FittingVerdict& one, const Assessment& assessment, const trade::Trade& trade);

}  // namespace rigdeed::assessment
