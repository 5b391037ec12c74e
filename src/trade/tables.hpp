#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.hpp"

/// The tables that calculations read, each row with its source: templates/tables/.
namespace rigdeed::trade {

/// What may be measured on a fitting.
struct MeasureName {
    std::string id;
    std::string name;
    Measure measure = Measure::length;
    double least = 0;  ///< in the base unit of the measure
    double most = 0;
    std::vector<std::string> kinds;  ///< of fitting; empty: all
};

/// How a strand is laid.
struct Construction {
    std::string id;  ///< of a make
    int wires = 1;
    int outer = 1;                ///< wires that can be seen
    std::optional<Ratio> factor;  ///< K of F = K d² R
    std::optional<Ratio> fill;    ///< metal in the circle
    std::string source;
};

struct Grade {
    std::vector<std::string> makes;  ///< none: all that have wires
    std::vector<std::string> alloys;
    Millimetres up_to;  ///< largest diameter it is for
    Stress value;
    std::string source;
};

/// A breaking load as a printed table gives it.
struct PrintedLoad {
    std::string make;
    std::string alloy;
    Millimetres diameter;
    Kilonewtons load;
    std::string source;
};

/// Of the circle round a strand. Sources disagree: there may be several for one alloy.
struct Modulus {
    std::vector<std::string> makes;
    std::vector<std::string> alloys;
    Stress value;
    std::string source;
};

struct Metal {
    std::string id;                  ///< of a material
    std::optional<Volts> index;      ///< anodic index
    std::optional<Volts> elsewhere;  ///< the index by another source that disagrees
    std::optional<Volts> noble;      ///< potential in seawater against the calomel electrode, the nobler end
    std::optional<Volts> base;
    std::string source;
};

/// Kinds of fitting that touch each other on the same stay; "mast": the mast's wall.
struct Touch {
    std::string kind;
    std::string other;
};

struct SplitPinSize {
    Millimetres over;   ///< diameters of clevis pin above this …
    Millimetres up_to;  ///< … up to and including this
    Millimetres size;
    std::string source;
};

/// The customary times to renewal of a make.
struct Band {
    std::string make;
    int least = 0;  ///< months
    int common = 0;
    int most = 0;
    std::optional<NauticalMiles> miles_least;
    std::optional<NauticalMiles> miles_most;
    std::string also;  ///< what is looked at meanwhile; may be empty
    std::string source;
};

/// Part of the rig's load on one stay.
struct LoadShare {
    std::string role;
    Percent share;
    std::string source;
};

/// A number that a calculation takes from the trade, by its id.
struct Constant {
    std::string id;
    double value = 0;
    std::string source;
};

/// How the strength of a link is found: by its pin's cross section, its plate's edge, or its maker's figure alone.
enum class LinkBy { pin, plate, maker };

/// A kind of fitting that carries the load of its stay.
struct LinkKind {
    std::string kind;
    LinkBy by = LinkBy::maker;
    std::vector<std::string> least;  ///< constants: how many times the strand it should hold
};

/// Where a calculation is from.
struct FormulaSource {
    std::string id;  ///< of the calculation
    std::string source;
};

/// Between which limits a value of a survey can lie, and between which it usually does. Units: as the table says.
struct Plausible {
    std::string id;
    double least = 0;
    double usual_least = 0;
    double usual_most = 0;
    double most = 0;
    std::string source;
};

struct Tables {
    std::vector<Plausible> plausible;
    std::vector<MeasureName> measures;
    std::vector<Construction> constructions;
    std::vector<Grade> grades;
    std::vector<PrintedLoad> printed_loads;
    std::vector<Modulus> moduli;
    std::vector<Metal> metals;
    std::vector<Touch> touches;
    std::vector<SplitPinSize> split_pins;
    std::vector<Band> bands;
    std::vector<LoadShare> shares;
    std::vector<Constant> constants;
    std::vector<FormulaSource> formulas;
    std::vector<LinkKind> links;  ///< from the deck up

    [[nodiscard]] const MeasureName* measure(std::string_view id) const;
    [[nodiscard]] const Construction* construction(std::string_view make) const;
    [[nodiscard]] const Plausible& plausible_of(std::string_view id) const;  ///< throws Error (bug) if none
    [[nodiscard]] const Metal* metal(std::string_view id) const;
    [[nodiscard]] const Band* band(std::string_view make) const;
    [[nodiscard]] const LoadShare* share(std::string_view role) const;
    [[nodiscard]] const Constant& constant(std::string_view id) const;               ///< throws Error (bug) if none
    [[nodiscard]] const std::string& source_of(std::string_view calculation) const;  ///< throws Error (bug) if none
};

}  // namespace rigdeed::trade
