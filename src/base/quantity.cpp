#include "base/quantity.hpp"

#include <array>
#include <charconv>
#include <cmath>

#include "base/error.hpp"
#include "base/text.hpp"

namespace rigdeed {
namespace {

struct UnitRow {
    Measure measure;
    std::string_view name;
    double factor;  // to the base unit of the measure; exact by NIST SP 811 appendix B
};

constexpr std::array units{
    UnitRow{Measure::length, "mm", 1.0},
    UnitRow{Measure::length, "cm", 10.0},
    UnitRow{Measure::length, "m", 1000.0},
    UnitRow{Measure::length, "in", 25.4},
    UnitRow{Measure::length, "ft", 304.8},
    UnitRow{Measure::force, "kN", 1.0},
    UnitRow{Measure::force, "N", 0.001},
    UnitRow{Measure::force, "kgf", 0.00980665},
    UnitRow{Measure::force, "lbf", 0.0044482216152605},
    UnitRow{Measure::mass, "kg", 1.0},
    UnitRow{Measure::mass, "t", 1000.0},
    UnitRow{Measure::mass, "lb", 0.45359237},
    UnitRow{Measure::moment, "N m", 1.0},
    UnitRow{Measure::moment, "kN m", 1000.0},
    UnitRow{Measure::moment, "kgf m", 9.80665},
    UnitRow{Measure::moment, "ft lbf", 1.3558179483314004},
    UnitRow{Measure::angle, "°", 1.0},
    UnitRow{Measure::angle, "deg", 1.0},
    UnitRow{Measure::percent, "%", 1.0},
    UnitRow{Measure::power, "W", 1.0},
    UnitRow{Measure::voltage, "V", 1.0},
    UnitRow{Measure::time, "h", 1.0},
    UnitRow{Measure::distance, "nmi", 1.0},
    UnitRow{Measure::distance, "km", 1.0 / 1.852},
    UnitRow{Measure::count, "", 1.0},
};

struct MeasureWords {
    std::string_view name;     // with article
    std::string_view example;  // how it is written
};

MeasureWords words_for(Measure measure) {
    switch (measure) {
        case Measure::length: return {"a length", "12.4 m, 8 mm or 5/16 in"};
        case Measure::force: return {"a load", "50.4 kN or 11300 lbf"};
        case Measure::mass: return {"a mass", "7900 kg or 17400 lb"};
        case Measure::moment: return {"a moment", "40700 N m or 30000 ft lbf"};
        case Measure::angle: return {"an angle", "18° or 18 deg"};
        case Measure::percent: return {"a share", "15 %"};
        case Measure::power: return {"a power", "25 W"};
        case Measure::voltage: return {"a voltage", "12 V"};
        case Measure::time: return {"a time", "8 h"};
        case Measure::distance: return {"a distance", "18000 nmi"};
        case Measure::count: return {"a number", "2"};
    }
    throw Error("a measure without words", "quantity.cpp", {}, ExitCode::bug);
}

// "5/16" or "1 1/4"
std::optional<double> read_fraction(std::string_view text) {
    const auto slash = text.find('/');
    if (slash == std::string_view::npos) return std::nullopt;
    const auto blank = text.find(' ');
    const auto whole = blank == std::string_view::npos ? std::optional(0.0) : read_plain_number(text.substr(0, blank));
    const auto start = blank == std::string_view::npos ? 0 : blank + 1;
    if (start > slash) return std::nullopt;
    const auto above = read_plain_number(text.substr(start, slash - start));
    const auto below = read_plain_number(text.substr(slash + 1));
    if (!whole || !above || !below || *below <= 0 || *above < 0 || *whole < 0) return std::nullopt;
    return *whole + *above / *below;
}

}  // namespace

std::optional<double> read_plain_number(std::string_view text) {
    const bool plain = !text.empty() && text.find_first_not_of("0123456789.-") == std::string_view::npos &&
                       text.front() != '.' && text.back() != '.';
    double value = 0;
    const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
    if (!plain || code != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
    return value;
}

MeasureReading read_measure(std::string_view text, Measure measure) {
    const auto [name, example] = words_for(measure);
    const auto digits = text.find_last_of("0123456789");
    const std::string_view number = digits == std::string_view::npos ? "" : text.substr(0, digits + 1);
    const std::string_view unit = trim(text.substr(number.size()));
    const std::string wrong = in_quotes(text) + " is not " + std::string(name);
    const std::string write = "write for example " + std::string(example);

    if (number.find(',') != std::string_view::npos) {
        std::string better(text);
        better.replace(better.find(','), 1, ".");
        return {{}, {wrong + ": the decimal sign is a point, not a comma", "write " + in_quotes(better)}};
    }
    auto value = read_plain_number(number);
    if (!value) value = read_fraction(number);
    if (!value) return {{}, {wrong, write}};
    if (unit.empty() && measure != Measure::count) return {{}, {wrong + ": the unit is missing", write}};
    for (const UnitRow& row : units)
        if (row.measure == measure && row.name == unit) return {Written{*value * row.factor, std::string(text)}, {}};
    return {{}, {wrong + ": unit " + in_quotes(unit) + " does not fit here", write}};
}

std::string fixed(double value, int decimals) {
    if (!std::isfinite(value)) throw Error("a number that is not finite reached print", {}, {}, ExitCode::bug);
    std::array<char, 64> buffer{};
    const auto [end, code] =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, decimals);
    if (code != std::errc{}) throw Error("a number too long to print", {}, {}, ExitCode::bug);
    std::string text(buffer.data(), end);
    if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
    return text;
}

}  // namespace rigdeed
