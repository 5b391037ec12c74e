#include <algorithm>
#include <cmath>

#include "report/compose.hpp"

namespace rigdeed::report {
namespace {

// Widths on paper in points, and 300 dpi.
constexpr double finding_width = 158;
constexpr double card_width = 76;
int pixels(double points) { return static_cast<int>(std::lround(points / 72 * 300)); }

}  // namespace

evidence::ForPrint for_print(const assessment::Assessment& assessment, const survey::Survey& survey, double share) {
    evidence::ForPrint print;
    const auto want = [&](const std::string& name, int size) {
        if (!name.empty()) print.sizes[name] = std::max(print.sizes[name], size);
    };
    for (const survey::OtherPhoto& other : survey.photos.others) want(other.name, pixels(finding_width * share));
    for (const assessment::FittingVerdict& one : assessment.fittings)
        for (const survey::Seen& seen : one.fitting->seen) {
            const int size = pixels(one.is_finding() ? finding_width : card_width * share);
            want(seen.far, size);
            want(seen.close, size);
        }
    for (const assessment::FittingVerdict& one : assessment.fittings)
        for (const trade::JudgedSign& sign : one.signs)  // the worst first
            if (sign.sign->mark && !sign.seen->close.empty())
                print.details.try_emplace(sign.seen->close, *sign.sign->mark);
    return print;
}

}  // namespace rigdeed::report
