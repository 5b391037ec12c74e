#include "report/scale_bar.hpp"

#include <array>

#include "base/text.hpp"

namespace rigdeed::report {
namespace {

struct Length {
    double value;
    int decimals;
};
constexpr std::array in_millimetres{Length{50, 0}, Length{20, 0}, Length{10, 0}, Length{5, 0},
                                    Length{2, 0},  Length{1, 0},  Length{0.5, 1}};
constexpr std::array in_inches{Length{2, 0},   Length{1, 0},    Length{0.5, 1}, Length{0.2, 1},
                               Length{0.1, 1}, Length{0.05, 2}, Length{0.02, 2}};
constexpr Millimetres inch{25.4};

}  // namespace

std::optional<ScaleBar> scale_bar(Millimetres across, UnitSystem units) {
    const bool us = units == UnitSystem::us;
    for (const Length& length : us ? in_inches : in_millimetres) {
        const Millimetres bar = us ? inch * length.value : Millimetres{length.value};
        if (bar > across * 0.4) continue;
        return ScaleBar{bar, us ? fixed(length.value, length.decimals) + " in"
                                : printed(length.value, Unit::millimetre, length.decimals, units)};
    }
    return std::nullopt;
}

}  // namespace rigdeed::report
