#include "base/unit.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/error.hpp"

namespace rigdeed {
namespace {

struct UsUnit {
    Unit unit;
    std::string_view symbol;
    double size;  // of one US unit in the metric one; NIST SP 811, appendix B.8
    int more;     // decimals to add for about the same number of significant digits
};

constexpr double inch = 25.4;
constexpr double pound_force = 0.0044482216152605;

constexpr std::array us_units{
    UsUnit{Unit::millimetre, "in", inch, 2},
    UsUnit{Unit::kilonewton, "lbf", pound_force, -2},
    UsUnit{Unit::kilogram, "lb", 0.45359237, 0},
    UsUnit{Unit::newton_metre, "ft·lbf", 1.3558179483314004, 0},
    UsUnit{Unit::stress, "psi", pound_force * 1000 / (inch * inch), -2},
    UsUnit{Unit::square_millimetre, "in²", inch* inch, 3},
};

std::string with_symbol(const std::string& number, std::string_view symbol) {
    const bool close = symbol.empty() || symbol == "°";
    return number + (close ? "" : " ") + std::string(symbol);
}

}  // namespace

std::string unit_symbol(Unit unit) {
    switch (unit) {
        case Unit::none: return "";
        case Unit::millimetre: return "mm";
        case Unit::kilonewton: return "kN";
        case Unit::kilogram: return "kg";
        case Unit::newton_metre: return "N·m";
        case Unit::stress: return "N/mm²";
        case Unit::square_millimetre: return "mm²";
        case Unit::degree: return "°";
        case Unit::percent: return "%";
        case Unit::watt: return "W";
        case Unit::volt: return "V";
        case Unit::ampere: return "A";
        case Unit::ampere_hour: return "Ah";
        case Unit::hour: return "h";
        case Unit::nautical_mile: return "nmi";
        case Unit::month: return "months";
    }
    throw Error("a unit without a symbol", "unit.cpp", {}, ExitCode::bug);
}

Shown in_us(double value, Unit unit, int decimals) {
    for (const UsUnit& row : us_units)
        if (row.unit == unit) return {value / row.size, std::string(row.symbol), std::clamp(decimals + row.more, 0, 6)};
    return {value, unit_symbol(unit), decimals};
}

std::string printed(double value, Unit unit, int decimals, UnitSystem system) {
    const std::string metric = with_symbol(fixed(value, decimals), unit_symbol(unit));
    if (system == UnitSystem::metric) return metric;
    const Shown shown = in_us(value, unit, decimals);
    const std::string us = with_symbol(fixed(shown.value, shown.decimals), shown.symbol);
    return system == UnitSystem::us || us == metric ? us : metric + " (" + us + ")";
}

}  // namespace rigdeed
