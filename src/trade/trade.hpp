#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/language.hpp"
#include "survey/survey.hpp"
#include "trade/letterhead.hpp"
#include "trade/own_templates.hpp"
#include "trade/plan.hpp"
#include "trade/tables.hpp"
#include "trade/wording.hpp"

/// What the trade knows, read from templates/: a new kind, sign or make is a row there, not code here.
namespace rigdeed::trade {

using survey::Verdict;

/// The sign of every kind that a stay may be said to be without.
inline constexpr std::string_view missing = "missing";

/// When a sign stops whoever climbs.
enum class Bars { never, at_deck, always };

/// What rules, calculations and drawings know a sign as.
enum class SignIs { nothing, crack, creep, broken_wire, dull_wire, rust, bent };

/// What a sign looks like where it is drawn on its fitting; nothing: a ring alone says where it is.
enum class Shows {
    nothing,
    crack,  ///< which way it runs is not said
    crack_along,
    crack_across,
    broken,
    rust,
    corroded,
    pits,
    blisters,
    gone,  ///< what should be there is not
    bent,
    dent,
    worn,
    chafed,
    loose,
    dead,  ///< does not work, does not turn
    reversed,
    slipped,
    foreign,
    leak,
    hidden
};

/// One thing that can be wrong with a fitting, and what follows.
struct SignRule {
    std::string code;
    SignIs is = SignIs::nothing;
    Shows shows = Shows::nothing;
    Verdict verdict = Verdict::renew;
    Bars bars = Bars::always;
    bool renews_stay = false;  ///< the whole stay is finished, not only this fitting
    bool spreads = false;      ///< corrosion or fatigue: stays of the same make and age are watched
    std::string source;        ///< title of a standard or book, "common practice", or "from memory"
    std::string name;          ///< as it stands in the report, in the surveyor's language: "cracks along the barrel"
    std::string plainly;       ///< the same for someone who has never seen one; may be empty
    std::string means;
    std::string act;   ///< what to do; may hold {stay}
    std::string then;  ///< follow-up; may be empty
    std::string work;  ///< a line of the works list; may hold {stay}
    std::string at;    ///< where on the kind's schematic it usually is: a key of its labels; may be empty
};

/// A piece that a fitting is made of.
struct Part {
    std::string name;
    std::vector<std::string> metals;  ///< what it is usually made of; or "fitting", "stay", "mast": of the same as that
};

/// A limit of what is measured or calculated: beyond it stands a finding, as if a sign had been seen.
struct Limit {
    SignRule rule;       ///< its code is the limit's id; its words may hold {value} and {limit}
    std::string of;      ///< a quantity of trade/limits.hpp
    bool least = false;  ///< the least that is enough; else the most
    double value = 0;
    std::vector<std::string> kinds;  ///< of fitting; none: all
    std::vector<std::string> makes;  ///< of its stay; none: all
    std::vector<std::string> roles;
    std::vector<std::string> at;  ///< of labels, the first that signs of the kind use
};

/// A measure that makes a sign milder: so much is left.
struct Milder {
    std::string id;
    std::vector<std::string> signs;  ///< codes
    std::string of;
    double least = 0;
    Verdict verdict = Verdict::rectify;
    std::string source;
    std::string because;
};

/// What rules and calculations know a kind as: the line of a stay itself, one of wires that break, what ends it, what
/// ages with it, …
enum class KindIs { line, wires, terminal, eye, toggle, pin, split_pin, tip, sail, lamp, aged, root };
/// Where a drawing puts a fitting that belongs to no stay.
enum class Stands { at_mast, masthead, stem, bowsprit_end, side_deck, spreader_root, spreader, spreader_tip };

struct Kind {
    std::string id;
    std::vector<KindIs> is;
    Stands stands = Stands::at_mast;
    std::string name;
    std::string family;
    std::string schematic;
    std::vector<std::string> metals;  ///< usual ones
    std::vector<Part> parts;
    std::string plain;   ///< for someone who has never seen one
    std::string look;    ///< how it is inspected
    std::string hidden;  ///< what no visual inspection of it sees, or "none"
    std::vector<SignRule> signs;

    [[nodiscard]] bool is_a(KindIs what) const;
};

/// A stay of some make must have at least `least` fittings of any of `kinds`.
enum class Place { deck, ends, along, top };  ///< at the foot of the stay, one at each end, in between, at its head

struct Demand {
    std::string id;
    std::string name;
    Place at = Place::deck;
    std::vector<std::string> kinds;
    std::size_t least = 1;
};

struct Make {
    std::string id;
    std::string name;
    std::string family;
    std::vector<Demand> demands;
};

/// What a stay of this role has in place of one of its make's demands; no kinds: nothing.
struct Instead {
    std::string of;  ///< id of the demand
    std::string name;
    std::vector<std::string> kinds;
};

/// Where a stay of some role runs: from the deck up the mast, along the hull (a bobstay), or aloft only (a triatic).
enum class Runs { deck_to_mast, at_deck, aloft };

/// Where a drawing puts the foot of a stay: usual proportions, from memory; a drawing, not a measurement.
struct Foot {
    enum class At { beside, ahead, bow, foredeck, aft, hull, below_stem, other_masthead };
    At at = At::beside;
    double along = 0;   ///< share of the yacht's length
    double out = 0.96;  ///< share of half her beam
};

/// Whether a stay of some role leads over the tips of spreaders: of none, of some, of all on its side.
enum class OverTips { none, some, all };

struct Role {
    std::string id;
    std::string name;
    Runs runs = Runs::deck_to_mast;
    Foot foot;
    OverTips over_tips = OverTips::none;
    bool pairs = true;  ///< port and starboard stand under load at the same time, their tensions alike
    bool sail = false;  ///< it carries a sail: it is shaken in every plane
    std::vector<Instead> instead;
};

struct Material {
    std::string id;
    std::string name;
    std::string now;          ///< what is fitted today where a stay of this one was; empty: the same
    bool calculated = false;  ///< pins and plates of it are as strong as tables/calculations.xml says
};

struct Interval {
    std::string id;
    int months = 0;
    std::string source;
};

/// What a sign on one fitting says of another; assessment/rules.cpp knows how to find each by its id.
struct CrossRule {
    std::string id;
    std::optional<Verdict> verdict;  ///< at least this; none: it only adds its words
    bool renews_stay = false;        ///< the whole stay
    std::string source;
    std::string name;
    std::string means;
    std::string act;
    std::string work;
};

/// What cannot both be true of one fitting in one pass.
struct Contradiction {
    std::string kind;
    std::string sign;
    std::string other;     ///< another sign, or empty
    std::string measured;  ///< a measure, or empty
    std::string because;
};

/// Other words that the trade has for something, in any language; the program knows it by one.
struct Alias {
    std::string of;  ///< kind, sign, role, make, material
    std::string id;
    std::vector<std::string> words;  ///< in small letters
};

enum class Occasion { always, barred, climbed, reliance, found };

/// A caution, the places it stands in (cover, report, terminal, sheet), and when.
struct CautionText {
    std::string id;
    std::vector<std::string> where;
    Occasion when = Occasion::always;
    std::string sign;  ///< for `found`: its code
    std::string words;
};

struct Trade {
    std::vector<Kind> kinds;
    std::vector<SignRule> any_signs;  ///< on every kind
    std::vector<Make> makes;
    std::vector<Role> roles;
    std::vector<Material> materials;
    std::vector<Interval> intervals;
    std::vector<CrossRule> rules;
    std::vector<Limit> limits;
    std::vector<Milder> milder;
    std::vector<Plan> plans;
    std::vector<CautionText> cautions;
    std::vector<Contradiction> contradictions;
    std::vector<Alias> aliases;
    Tables tables;
    Letterhead letterhead;
    Wording wording;
    OwnTemplates own;  ///< those of the user's that stand in for ours in this language

    [[nodiscard]] const Kind* kind(std::string_view id) const;
    [[nodiscard]] bool is_a(const survey::Fitting& fitting, KindIs what) const;
    [[nodiscard]] const Make* make(std::string_view id) const;
    [[nodiscard]] const Role* role(std::string_view id) const;
    /// What is meant by a word of the trade where `of` is asked for; empty if it is none.
    [[nodiscard]] std::vector<std::string> meant(std::string_view of, std::string_view word) const;
    /// Port and starboard of one role and mast: of one size, renewed together.
    [[nodiscard]] bool are_pair(const survey::Stay& port, const survey::Stay& starboard) const;
    /// What a stay of this make and role must have; empty for an unknown make.
    [[nodiscard]] std::vector<Demand> demands_of(const survey::Stay& stay) const;
    [[nodiscard]] const Plan* plan(std::string_view id) const;
    [[nodiscard]] const SignRule* sign(const Kind& kind, std::string_view code) const;
    /// The name of a role or material; the id itself if there is none.
    [[nodiscard]] std::string role_name(std::string_view id) const;
    [[nodiscard]] std::string material_name(std::string_view id) const;
    [[nodiscard]] const Material* material(std::string_view id) const;
    [[nodiscard]] const CrossRule& rule(std::string_view id) const;     ///< throws Error (bug) if there is none
    [[nodiscard]] const Interval& interval(std::string_view id) const;  ///< throws Error (bug) if there is none
};

/// Reads the templates built in, each replaced by the one of the same name among `own` if there is one; further ones
/// under kinds/ add to them. In another language than English their texts are those of phrases/LANGUAGE/, by the
/// English ones; what one of `own` says and no phrase knows stays as it is. Throws Error with file, line and hint on
/// the first bad one.
[[nodiscard]] Trade load_trade(const OwnTemplates& own = {}, std::string_view language = "en");

/// Every name in the survey that the trade does not know, with the nearest that it does.
[[nodiscard]] Problems check_names(const survey::Survey& survey, const Trade& trade);

}  // namespace rigdeed::trade
