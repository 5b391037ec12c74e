#include <doctest/doctest.h>

#include <algorithm>

#include "layout/paginate.hpp"
#include "pdf/font_metrics.hpp"
#include "report/composed.hpp"

using namespace rigdeed;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

const std::string demo = std::string(RIGDEED_SOURCE_DIR) + "/demo/survey.xml";

}  // namespace

TEST_CASE("no photo is printed wider than was asked for it at 300 dpi") {
    const sample::Composed made = sample::composed(demo, the_trade());
    const auto print = report::for_print(made.inspected->assessment, made.inspected->survey);
    const layout::Pages pages = layout::paginate(made.report, *pdf::font_metrics(), layout::a4);
    const auto asked_of = [&](const layout::Image& image) {
        for (const evidence::Photo& photo : made.inspected->evidence.photos) {
            if (photo.print.jpeg == image.jpeg) return print.sizes.find(photo.name)->second;
            if (photo.detail.jpeg == image.jpeg) return print.detail_size;
        }
        return 0;
    };
    std::size_t photos = 0;
    for (const layout::Page& page : pages.pages)
        for (const auto& item : page.items)
            if (const auto* placed = std::get_if<layout::PlacedImage>(&item)) {
                const int asked = asked_of(pages.images.at(placed->image));
                const Points longer = std::max(placed->box.size.width, placed->box.size.height);
                CHECK(asked >= longer.value / 72 * 300 - 1);
                ++photos;
            }
    CHECK(photos > 50);
}

TEST_CASE("photos of no sign may give way, those of a sign and those that a sign shares never") {
    const sample::Composed made = sample::composed(demo, the_trade());
    const auto& [assessment, survey] = std::tie(made.inspected->assessment, made.inspected->survey);
    const auto print = report::for_print(assessment, survey);
    std::size_t kept = 0;
    for (const assessment::FittingVerdict& one : assessment.fittings)
        for (const survey::Seen& seen : one.fitting->seen)
            for (const std::string& name : {seen.far, seen.close}) {
                if (name.empty() || one.signs.empty()) continue;
                CHECK(!print.giving_way.contains(name));
                ++kept;
            }
    CHECK(kept > 30);
    CHECK(print.giving_way.size() > 30);
    CHECK(print.exact.empty());
}
