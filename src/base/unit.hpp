#pragma once

#include <string>

#include "base/quantity.hpp"

/// Numbers with their unit as words: what a calculation prints, in metric or US customary units.
namespace rigdeed {

/// The unit a figure is held in; for each its quantity type, if it has one.
enum class Unit {
    none,          ///< a pure number or a count
    millimetre,    ///< Millimetres
    kilonewton,    ///< Kilonewtons
    kilogram,      ///< Kilograms
    newton_metre,  ///< NewtonMetres
    stress,        ///< Stress, N/mm²
    square_millimetre,
    degree,
    percent,
    watt,
    volt,
    ampere,
    ampere_hour,
    hour,
    nautical_mile,
    month,
};

constexpr Unit unit_of(Millimetres) { return Unit::millimetre; }
constexpr Unit unit_of(Kilonewtons) { return Unit::kilonewton; }
constexpr Unit unit_of(Kilograms) { return Unit::kilogram; }
constexpr Unit unit_of(NewtonMetres) { return Unit::newton_metre; }
constexpr Unit unit_of(Stress) { return Unit::stress; }
constexpr Unit unit_of(SquareMillimetres) { return Unit::square_millimetre; }
constexpr Unit unit_of(Degrees) { return Unit::degree; }
constexpr Unit unit_of(Percent) { return Unit::percent; }
constexpr Unit unit_of(Watts) { return Unit::watt; }
constexpr Unit unit_of(Volts) { return Unit::volt; }
constexpr Unit unit_of(Amperes) { return Unit::ampere; }
constexpr Unit unit_of(AmpereHours) { return Unit::ampere_hour; }
constexpr Unit unit_of(Hours) { return Unit::hour; }
constexpr Unit unit_of(NauticalMiles) { return Unit::nautical_mile; }
constexpr Unit unit_of(Ratio) { return Unit::none; }

enum class UnitSystem { metric, us, both };

/// "mm", "kN", "N/mm²", "°", …; empty for a pure number.
[[nodiscard]] std::string unit_symbol(Unit unit);

/// A number in the unit in which it is printed.
struct Shown {
    double value = 0;
    std::string symbol;
    int decimals = 0;
};

/// The same quantity in US customary units (in, lbf, lb, ft·lbf, psi, in²), with about as many significant digits;
/// unchanged if there is no other unit for it. Factors: NIST SP 811, appendix B.8.
[[nodiscard]] Shown in_us(double value, Unit unit, int decimals);

/// "50.43 kN", "11337 lbf", or "50.43 kN (11337 lbf)". Throws Error (code bug) if it is not finite.
[[nodiscard]] std::string printed(double value, Unit unit, int decimals, UnitSystem system);

}  // namespace rigdeed
