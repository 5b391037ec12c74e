#include <algorithm>
#include <cmath>

#include "report/compose.hpp"

namespace rigdeed::report {
namespace {

// Widths on paper in points, and 300 dpi.
constexpr double finding_width = 228;
constexpr double card_width = 76;
int pixels(double points) { return static_cast<int>(std::lround(points / 72 * 300)); }

}  // namespace

evidence::PrintSizes print_sizes(const assessment::Assessment& assessment, const survey::Survey& survey) {
    evidence::PrintSizes sizes;
    const auto want = [&](const std::string& name, int size) {
        if (!name.empty()) sizes[name] = std::max(sizes[name], size);
    };
    for (const survey::OtherPhoto& other : survey.photos.others) want(other.name, pixels(finding_width));
    for (const assessment::FittingVerdict& one : assessment.fittings)
        for (const survey::Seen& seen : one.fitting->seen) {
            const int size = pixels(one.is_finding() ? finding_width : card_width);
            want(seen.far, size);
            want(seen.close, size);
        }
    return sizes;
}

}  // namespace rigdeed::report
