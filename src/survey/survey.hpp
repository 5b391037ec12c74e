#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"
#include "base/quantity.hpp"
#include "base/unit.hpp"

/// The survey file as plain values. What its elements and attributes mean is said in templates/survey.xsd.
namespace rigdeed::survey {

enum class Purpose { pre_purchase, insurance, passage, periodic, damage };
enum class Role { buyer, owner, seller, insurer, other };
enum class Climbed { yes, no, stopped };  ///< no: the mast lay unstepped; stopped: at deck level
enum class Side { port, starboard, centre };
enum class Way { up, down };  ///< a pass; heel to truck and back where the mast lies unstepped
enum class Verdict { sound, unseen, watch, rectify, renew };  ///< from best to worst
/// As every list of them stands on paper.
inline constexpr std::array worst_first{Verdict::renew, Verdict::rectify, Verdict::watch, Verdict::unseen,
                                        Verdict::sound};
enum class AgeSource { invoice, plate, owner, estimate };
enum class EndAt { top, bottom };
enum class Form { eye, fork, stud, tee, ball, hook, loop };  ///< of what ends a stay
enum class Hand { right, left };                             ///< of a thread
enum class Isolator { fitted, missing, not_seen };           ///< between a fitting and the metal it sits on

struct Surveyor {
    int line = 0;
    std::string name;
    std::string firm;
    std::string qualification;
    std::string contact;
    std::string independence;
    std::string indemnity;  ///< professional indemnity cover: for how much, until when
};

struct Client {
    int line = 0;
    std::string name;
    Role role = Role::other;
    std::string contact;
};

struct Yacht {
    int line = 0;
    std::string name;
    std::string hin;
    std::string rig;   ///< id of a rig plan
    std::string mast;  ///< material
    std::optional<int> built;
    Length loa;
    std::optional<Length> beam;
    std::optional<Length> freeboard;  ///< deck above the waterline, amidships
    std::optional<Mass> displacement;
    std::optional<Moment> rm30;         ///< righting moment at 30° of heel
    std::optional<Length> gz30;         ///< righting lever at 30° of heel
    std::optional<Mass> heel_mass;      ///< of a heel test: moved athwartships …
    std::optional<Length> heel_arm;     ///< … so far …
    std::optional<Angle> heel_angle;    ///< … and what she heeled by it
    std::optional<Length> chainplates;  ///< between the chainplates of the cap shrouds, athwartships
    bool relies_on_rig = false;         ///< cannot motor home
};

struct Attendance {
    int line = 0;
    Date on;
    std::string place;
    Climbed climbed = Climbed::yes;
    std::string because;  ///< why not climbed, or why stopped
    std::optional<bool> afloat;
    std::string weather;
    std::string standards;  ///< by which it was made
};

/// A photo that shows no single fitting: the yacht at her berth.
struct OtherPhoto {
    int line = 0;
    std::string name;
    std::string shows;
    bool hull_number = false;  ///< it shows the hull identification number
};

/// A point of an upright photo: right and down from its top left corner, in fractions of its width.
struct PhotoPoint {
    double x = 0;
    double y = 0;

    bool operator==(const PhotoPoint&) const = default;
};
/// Ends of lines drawn on a photo: two points a line.
using PhotoLines = std::vector<PhotoPoint>;

/// A line across something whose size is known gives a photo its scale, in the plane of that thing.
struct PhotoScale {
    int line = 0;
    std::string photo;
    Length length;
    std::string of;    ///< what is so long: "strand"
    PhotoLines along;  ///< one line
};

/// What to add to the time of one of several cameras.
struct CameraClock {
    int line = 0;
    std::string name;  ///< make and model, as the camera writes them
    int clock = 0;     ///< seconds
};

struct Photos {
    int line = 0;
    std::string folder;
    int camera_clock = 0;  ///< seconds to add to what a camera wrote, where it has no clock of its own
    std::vector<CameraClock> cameras;
    std::vector<Date> dated;  ///< the days they were taken on, where that is not the attendance's alone
    bool undated = false;     ///< dated="unknown": it is said that nobody knows when they were taken
    std::string because;      ///< why
    std::vector<OtherPhoto> others;
    std::vector<PhotoScale> scales;  ///< at most one a photo

    [[nodiscard]] const PhotoScale* scale_of(std::string_view photo) const;
    [[nodiscard]] int clock_of(std::string_view camera) const;
};

/// A survey of this rig before this one.
struct PastSurvey {
    int line = 0;
    PartDate on;
    std::string by;
    std::string number;
    std::string left;    ///< what it asked for that was not done
    std::string sha256;  ///< of its sealed report, in hex
};

/// What was done to the rig.
struct Repair {
    int line = 0;
    PartDate on;
    std::string done;
    std::string by;
};

/// A tension at rest, measured on a day before.
struct LoggedTension {
    int line = 0;
    PartDate on;
    std::string stay;  ///< id
    Force tension;
    std::string with;  ///< what: a gauge, a rule
};

/// What is known of the rig from before, by those who own it. All of it may be left out.
struct History {
    int line = 0;                    ///< 0: the survey says nothing of it
    std::optional<Distance> sailed;  ///< with this rig
    std::string statement;           ///< the owner's, of groundings, collisions, a mast lost
    std::vector<PastSurvey> surveys;
    std::vector<Repair> repairs;
    std::vector<LoggedTension> tensions;
};

/// What the rig's plan, or any rig, has and this one has not: a stay, or a fitting. Left out: of any side, mast, place.
struct Absent {
    int line = 0;
    std::string kind;  ///< of a fitting; empty: the whole stay
    std::string stay;  ///< id of the stay that the fitting would belong to
    std::string role;  ///< of the stay that is absent, or that the fitting would belong to
    std::optional<Side> side;
    std::string mast;
    std::string station;
    std::string because;
};

/// A fitting that a stay should have and has not: a finding, not a gap.
struct Without {
    int line = 0;
    std::string fitting;  ///< its kind
    std::string because;
};

/// One end of a stay, as a rigger orders it.
struct StayEnd {
    int line = 0;
    EndAt at = EndAt::bottom;
    std::string terminal;  ///< kind of fitting
    std::optional<Form> form;
    std::optional<Length> pin;
    std::string thread;  ///< as it is called: "M12", "1/2 UNF"
    std::optional<Hand> hand;
    std::optional<bool> toggle;
    std::optional<Length> hole;  ///< of the chainplate or tang that takes it
};

/// A row of the table of the gauge that was used: its reading on a strand, and the tension that it means.
struct GaugeRow {
    int line = 0;
    Length diameter;
    double reading = 0;
    Force tension;
};

struct Stay {
    int line = 0;
    std::string id;
    std::string role;
    std::string mast;  ///< fore, main, mizzen; empty where there is one mast only
    Side side = Side::centre;
    std::string make;
    std::string alloy;
    Length diameter;
    std::optional<PartDate> fitted;
    std::optional<AgeSource> age_source;
    std::optional<Length> length;
    std::optional<Force> breaking_load;  ///< of a certificate
    std::optional<Distance> sailed;      ///< since it was fitted
    std::vector<StayEnd> ends;           ///< at most one of each
    std::vector<Without> without;

    [[nodiscard]] const StayEnd* end(EndAt at) const;
};

/// Where on a photo something is: fractions of the upright photo's width, from its top left corner.
struct Mark {
    double x = 0;
    double y = 0;
    double radius = 0;

    bool operator==(const Mark&) const = default;
};

struct Sign {
    int line = 0;
    std::string code;
    std::string where;
    std::optional<int> count;
    std::vector<int> wires;  ///< which outer wires of 1x19 strand: 1 to 12 clockwise from the bow, seen from above
    std::optional<Length> length;
    std::optional<Mark> mark;
    std::string words;
};

struct Seen {
    int line = 0;
    Way pass = Way::up;
    TimeOfDay at;
    std::string far;  ///< photo names; empty if none was taken
    std::string close;
    std::vector<Sign> signs;
    std::string because;                        ///< why its photos are not as those of a pair are
    std::optional<Mark> on_far = std::nullopt;  ///< where on the far photo the fitting is

    [[nodiscard]] bool has_pair() const { return !far.empty() && !close.empty(); }
};

struct Measured {
    int line = 0;
    std::string what;
    std::string value;  ///< with its unit
    std::string from;   ///< the photo it was measured on; empty: on board
    PhotoLines along;   ///< a length: one line; an angle: two, each drawn away from where they meet
};

/// One pass did not see the fitting; the other may have.
struct NotSeenIn {
    int line = 0;
    Way pass = Way::up;
    std::string reason;
};

/// Somebody climbed on although a sign bars it.
struct ClimbedDespite {
    int line = 0;
    std::string sign;  ///< its code
    std::string because;
};

struct GivenVerdict {
    int line = 0;
    Verdict is = Verdict::sound;
    std::string because;
};

/// What an earlier survey said of a fitting.
struct Before {
    int line = 0;
    std::string survey;  ///< its number
    Verdict verdict = Verdict::sound;
    std::vector<Sign> signs;
};

/// A sign of the survey before that is there no more.
struct Gone {
    int line = 0;
    std::string sign;  ///< its code
    std::string because;
};

struct Fitting {
    int line = 0;
    std::string id;
    std::string kind;
    std::string stay;  ///< id, or empty
    std::optional<Side> side;
    std::string mast;     ///< as of a stay; for a fitting that belongs to none
    std::string station;  ///< deck, mast, spreader-1 …, masthead
    Length height;        ///< above the waterline
    std::string metal;
    std::optional<Isolator> isolator;
    std::vector<Seen> seen;               ///< at most one a pass
    std::optional<std::string> not_seen;  ///< the reason, of both passes
    std::vector<NotSeenIn> not_seen_in;   ///< at most one a pass
    std::vector<ClimbedDespite> climbed_despite;
    std::vector<Measured> measured;
    std::optional<GivenVerdict> verdict;
    std::optional<Before> before;
    std::vector<Gone> gone;

    [[nodiscard]] bool at_deck() const { return station == "deck"; }
    [[nodiscard]] const Seen* in(Way pass) const;
    /// Why this pass did not see it; null if nothing is said of it. What was never seen has no pass of its own.
    [[nodiscard]] const NotSeenIn* not_seen_on(Way pass) const;
    [[nodiscard]] const Measured* measure(std::string_view what) const;
};

/// A value still with a "?": a blank of the form, or a proposal that nobody confirmed.
struct Open {
    int line = 0;
    std::string of;         ///< id of the stay or fitting, else the names of the elements: "yacht", "fit-1/seen"
    std::string attribute;  ///< empty: the words between the tags
    std::string value;      ///< what is proposed; empty: nothing is

    bool operator==(const Open& other) const {
        return of == other.of && attribute == other.attribute && value == other.value;
    }
};

struct Survey {
    std::string file;  ///< the path it was read from, for messages
    std::string number;
    Purpose purpose = Purpose::pre_purchase;
    std::optional<UnitSystem> units;  ///< in which the report prints what it calculates
    std::string replaces;             ///< number of the report this one corrects
    std::string written_in;           ///< language of the words in it, a BCP 47 tag; empty: not said
    Surveyor surveyor;
    Client client;
    Yacht yacht;
    Attendance attendance;
    History history;
    Photos photos;
    std::vector<GaugeRow> gauge;
    int rig_line = 0;
    std::optional<std::map<std::string, std::string>> choices;  ///< of the plan's parameters, by their ids
    std::vector<Stay> stays;
    std::vector<Absent> absent;
    std::vector<Fitting> fittings;  ///< in climbing order
    std::vector<Open> open;         ///< in the order of the file

    [[nodiscard]] const Stay* stay(std::string_view id) const;
};

/// Names of enumerators as they stand in the file.
template <class E>
struct Named {
    E value;
    std::string_view name;
};
[[nodiscard]] const std::vector<Named<Purpose>>& names(Purpose);
[[nodiscard]] const std::vector<Named<Role>>& names(Role);
[[nodiscard]] const std::vector<Named<Climbed>>& names(Climbed);
[[nodiscard]] const std::vector<Named<Side>>& names(Side);
[[nodiscard]] const std::vector<Named<Way>>& names(Way);
[[nodiscard]] const std::vector<Named<Verdict>>& names(Verdict);
[[nodiscard]] const std::vector<Named<AgeSource>>& names(AgeSource);
[[nodiscard]] const std::vector<Named<Isolator>>& names(Isolator);
[[nodiscard]] const std::vector<Named<EndAt>>& names(EndAt);
[[nodiscard]] const std::vector<Named<Form>>& names(Form);
[[nodiscard]] const std::vector<Named<Hand>>& names(Hand);
[[nodiscard]] const std::vector<Named<UnitSystem>>& names(UnitSystem);

template <class E>
[[nodiscard]] std::string name_of(E value) {
    for (const auto& row : names(value))
        if (row.value == value) return std::string(row.name);
    return {};
}

}  // namespace rigdeed::survey
