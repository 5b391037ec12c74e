#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace rigdeed {

/// A number with its unit in its type. Adding metres to degrees does not compile.
template <class Unit>
struct Quantity {
    double value = 0;

    constexpr auto operator<=>(const Quantity&) const = default;
    constexpr Quantity operator-() const { return {-value}; }
    constexpr Quantity& operator+=(Quantity other) {
        value += other.value;
        return *this;
    }
    constexpr Quantity& operator-=(Quantity other) {
        value -= other.value;
        return *this;
    }
    friend constexpr Quantity operator+(Quantity a, Quantity b) { return {a.value + b.value}; }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return {a.value - b.value}; }
    friend constexpr Quantity operator*(Quantity a, double factor) { return {a.value * factor}; }
    friend constexpr Quantity operator*(double factor, Quantity a) { return {a.value * factor}; }
    friend constexpr Quantity operator/(Quantity a, double divisor) { return {a.value / divisor}; }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.value / b.value; }
};

using Millimetres = Quantity<struct MillimetreUnit>;
using Kilonewtons = Quantity<struct KilonewtonUnit>;
using Kilograms = Quantity<struct KilogramUnit>;
using NewtonMetres = Quantity<struct NewtonMetreUnit>;
using Degrees = Quantity<struct DegreeUnit>;
using Points = Quantity<struct PointUnit>;  ///< 1/72 in on paper
using SquareMillimetres = Quantity<struct SquareMillimetreUnit>;
using Stress = Quantity<struct StressUnit>;  ///< N/mm²
using Watts = Quantity<struct WattUnit>;
using Volts = Quantity<struct VoltUnit>;
using Amperes = Quantity<struct AmpereUnit>;
using AmpereHours = Quantity<struct AmpereHourUnit>;
using Hours = Quantity<struct HourUnit>;
using NauticalMiles = Quantity<struct NauticalMileUnit>;
using Percent = Quantity<struct PercentUnit>;
using Ratio = Quantity<struct RatioUnit>;  ///< a pure number

constexpr Points operator""_pt(long double value) { return {static_cast<double>(value)}; }
constexpr Points operator""_pt(unsigned long long value) { return {static_cast<double>(value)}; }

/// What kind of measure a field holds; decides which units it may be written in.
enum class Measure { length, force, mass, moment, angle, percent, power, voltage, time, distance, count };

/// A measure as the surveyor wrote it, and its value in the base unit
/// (mm, kN, kg, N m, degree, %, W, V, h, nautical mile; what is counted has none).
struct Written {
    double value = 0;
    std::string text;

    bool operator==(const Written&) const = default;
};

/// As Written, with the unit in the type.
template <class Q>
struct As {
    Q quantity;
    std::string text;  ///< exactly as written, for print and for writing the survey back

    bool operator==(const As&) const = default;
};

using Length = As<Millimetres>;
using Force = As<Kilonewtons>;
using Mass = As<Kilograms>;
using Moment = As<NewtonMetres>;
using Angle = As<Degrees>;
using Distance = As<NauticalMiles>;  ///< sailed

/// "12.4" or "-3": digits and a point; nothing for any other text, NaN and infinity among them.
[[nodiscard]] std::optional<double> read_plain_number(std::string_view text);

/// Why a text is not a measure, in words for the surveyor.
struct MeasureError {
    std::string what;
    std::string hint;
};

/// Reads "8 mm", "5/16 in", "1 1/4 in", "50.4 kN", "18°". A decimal comma, a missing or foreign unit,
/// NaN, infinity and exponents are refused. Unit factors: NIST SP 811, exact where it says so.
struct MeasureReading {
    std::optional<Written> value;
    MeasureError error;
};
[[nodiscard]] MeasureReading read_measure(std::string_view text, Measure measure);

/// Fixed decimals with a decimal point whatever the locale; never "-0", never NaN (throws Error, code bug).
[[nodiscard]] std::string fixed(double value, int decimals);

}  // namespace rigdeed
