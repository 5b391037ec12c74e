#include "evidence/sharpness.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>

using namespace rigdeed;
using namespace rigdeed::evidence;

namespace {

/// Squares of 60 pixels, light and dark, each edge smeared like a Gaussian of `sigma` pixels, with noise of `noise`.
Raster squares(int width, int height, double sigma, double noise = 0) {
    Raster raster;
    raster.resize(width, height, 1);
    std::mt19937 random(1);
    std::normal_distribution<double> grain(0, noise > 0 ? noise : 1);
    const auto step = [&](int at) {  // −1 … 1, changing sign every 60 pixels
        const double from_edge = std::remainder(at - 30.0, 60.0);
        const bool odd = static_cast<int>(std::floor(at / 60.0)) % 2 != 0;
        const double share = 0.5 * std::erfc((30 - std::abs(from_edge)) / (sigma * std::sqrt(2.0)));
        return (odd ? -1.0 : 1.0) * (1 - 2 * share);
    };
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            raster.row(y)[x] = static_cast<unsigned char>(
                std::clamp(128 + 80 * step(x) * step(y) + (noise > 0 ? grain(random) : 0), 0.0, 255.0));
    return raster;
}

bool blurred(const Raster& raster) {
    Photo photo;
    photo.width = raster.width;
    photo.height = raster.height;
    photo.finest_edge = finest_edge_of(raster, std::nullopt);
    return is_blurred(photo);
}

}  // namespace

TEST_CASE("an edge smeared by a Gaussian takes 2.5 times its sigma: contrast over steepest slope (analysis)") {
    for (const double sigma : {2.0, 4.0, 8.0}) {
        const auto edge = finest_edge_of(squares(2000, 1500, sigma), std::nullopt);
        REQUIRE(edge);
        CHECK(*edge == doctest::Approx(std::sqrt(2 * 3.14159265) * sigma).epsilon(0.25));
    }
    CHECK(*finest_edge_of(squares(2000, 1500, 0.01), std::nullopt) == doctest::Approx(2).epsilon(0.1));
}

TEST_CASE("the more a picture is smeared, the wider its edges, with noise too") {
    for (const double noise : {0.0, 4.0, 8.0}) {
        double before = 0;
        for (const double sigma : {0.5, 1.5, 3.0, 5.0, 8.0}) {
            const auto edge = finest_edge_of(squares(2000, 1500, sigma, noise), std::nullopt);
            REQUIRE(edge);
            CHECK(*edge >= before);
            before = *edge;
        }
    }
}

TEST_CASE("a picture out of focus is blurred, a sharp one is not, and a small one cannot be told so easily") {
    CHECK(blurred(squares(2000, 1500, 5)));
    CHECK(blurred(squares(2000, 1500, 5, 4)));
    CHECK_FALSE(blurred(squares(2000, 1500, 1)));
    CHECK_FALSE(blurred(squares(2000, 1500, 1, 8)));
    CHECK_FALSE(blurred(squares(400, 300, 1)));
}

TEST_CASE("where there are no edges nothing is said") {
    Raster grey;
    grey.resize(800, 600, 1);
    CHECK_FALSE(finest_edge_of(grey, std::nullopt));
    CHECK_FALSE(finest_edge_of(squares(12, 9, 1), std::nullopt));
    CHECK_FALSE(is_blurred(Photo{}));
}

TEST_CASE("at a mark only what is there counts") {
    Raster half = squares(2000, 1500, 8);
    const Raster sharp = squares(2000, 1500, 0.5);
    for (int y = 0; y < half.height; ++y)
        for (int x = 0; x < 1000; ++x) half.row(y)[x] = sharp.pixels[static_cast<std::size_t>(y * 2000 + x)];
    const auto at = [&](double x) { return *finest_edge_of(half, survey::Mark{x, 0.375, 0.05}); };
    CHECK(at(0.2) < 4);
    CHECK(at(0.8) > 14);
}
