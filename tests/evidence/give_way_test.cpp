#include "evidence/give_way.hpp"

#include <doctest/doctest.h>

#include "evidence/print.hpp"

using namespace rigdeed;
using evidence::GivingWay;

namespace {

/// So many photos whose copies shrink as their pixels do.
std::vector<GivingWay> photos(std::size_t count) {
    std::vector<GivingWay> all;
    for (std::size_t i = 0; i < count; ++i) {
        GivingWay one{"P" + std::to_string(i), {{500, 30000}}};
        for (const int side : evidence::smaller_sides(500))
            one.sizes.push_back({side, static_cast<std::size_t>(30000.0 * side * side / 250000)});
        all.push_back(one);
    }
    return all;
}

std::size_t bytes_of(const std::vector<GivingWay>& all, const evidence::PrintSizes& sides) {
    std::size_t sum = 0;
    for (const GivingWay& photo : all)
        for (const GivingWay::Size& size : photo.sizes)
            if (size.side == sides.at(photo.name)) sum += size.bytes;
    return sum;
}

}  // namespace

TEST_CASE("photos give way just so far as there must be room") {
    const auto all = photos(400);
    for (const double share : {1.0, 0.9, 0.7, 0.5, 0.3, 0.1}) {
        const auto budget = static_cast<std::size_t>(share * static_cast<double>(evidence::largest(all)));
        const auto sides = evidence::sides_within(all, budget);
        REQUIRE(sides);
        CHECK(bytes_of(all, *sides) <= budget);
        CHECK(static_cast<double>(bytes_of(all, *sides)) >= 0.97 * static_cast<double>(budget));
        CHECK(sides->size() == all.size());
    }
    CHECK(!evidence::sides_within(all, evidence::smallest(all) - 1));
    CHECK(evidence::sides_within({}, 0));
}

TEST_CASE("smaller copies go down in steps, never below what shows anything") {
    const auto sides = evidence::smaller_sides(500);
    REQUIRE(sides.size() > 5);
    CHECK(sides.front() == 425);
    CHECK(sides.back() >= 64);
    for (std::size_t i = 1; i < sides.size(); ++i) CHECK(sides[i] < sides[i - 1]);
    CHECK(evidence::smaller_sides(60).empty());
}
