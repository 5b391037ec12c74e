#include "layout/fill_pages.hpp"

#include <doctest/doctest.h>

#include <numeric>

using namespace rigdeed;
using layout::fill_pages;
using layout::Pieces;
using layout::Placing;

namespace {

/// Each piece by the heights of its ways, on pages 100 high, 10 between two.
struct Trial {
    std::vector<std::vector<double>> heights;
    std::vector<bool> roomy = {};  ///< shares a page in its first way alone
    double used = 0;

    [[nodiscard]] std::vector<Placing> placed() const {
        Pieces pieces{[this](std::size_t piece, std::size_t way) { return Points{heights[piece][way]}; },
                      {},
                      {},
                      10_pt,
                      100_pt,
                      Points{used}};
        for (std::size_t i = 0; i < heights.size(); ++i) {
            pieces.ways.push_back(heights[i].size());
            pieces.shared.push_back(i < roomy.size() && roomy[i] ? 0 : heights[i].size());
        }
        return fill_pages(pieces);
    }
};

std::size_t pages_of(const std::vector<Placing>& placed) {
    return std::accumulate(placed.begin(), placed.end(), std::size_t{1},
                           [](std::size_t sum, const Placing& one) { return sum + one.new_page; });
}

/// The tallest page.
double tallest(const Trial& trial) {
    const auto placed = trial.placed();
    double height = trial.used, most = 0;
    for (std::size_t i = 0; i < placed.size(); ++i) {
        const double own = trial.heights[i][placed[i].way];
        height = placed[i].new_page ? own : height + own + (i > 0 ? 10 : 0);
        most = std::max(most, height);
    }
    return most;
}

}  // namespace

TEST_CASE("pieces share a page where the closest ways allow it, and what is left goes to the first") {
    const auto placed = Trial{{{90, 60, 40}, {90, 50, 40}}}.placed();
    CHECK(pages_of(placed) == 1);
    CHECK(placed[0].way == 2);  // 60 and 10 and 40 are too much
    CHECK(placed[1].way == 1);
    const auto roomier = Trial{{{90, 48, 40}, {90, 42, 40}}}.placed();
    CHECK(roomier[0].way == 1);
    CHECK(roomier[1].way == 1);
}

TEST_CASE("a roomy piece never gives way to a neighbour") {
    const auto placed = Trial{{{90, 40}, {90, 40}}, {true}}.placed();
    CHECK(pages_of(placed) == 2);
    CHECK(placed[0].way == 0);
    CHECK(placed[1].way == 0);
    CHECK(Trial{{{90, 40}}, {true}, 20}.placed()[0].way == 1);         // unless the page has no room for it
    CHECK(Trial{{{110, 60, 40}, {50}}, {true}}.placed()[0].way == 1);  // nor closer than the page itself asks for
}

TEST_CASE("the fewest pages are found where taking pairs from the front would need more") {
    // 40 30 | 60 30 | 60 30 by pairs; in any case three pages, and no piece is closer than it must be
    const Trial trial{{{40}, {30}, {60}, {30}, {60}, {30}}};
    CHECK(pages_of(trial.placed()) == 3);
    const Trial front{{{50}, {40}, {45}, {45}, {95}}};
    CHECK(pages_of(front.placed()) == 3);
    CHECK(tallest(front) <= 100);
}

TEST_CASE("no page is overfull, whatever is placed, and no arrangement in order needs fewer pages") {
    unsigned seed = 7;
    const auto next = [&](unsigned below) { return (seed = seed * 1664525u + 1013904223u) / 65536 % below; };
    for (int round = 0; round < 300; ++round) {
        Trial trial;
        const std::size_t count = 1 + next(7);
        for (std::size_t i = 0; i < count; ++i) {
            const double least = 10 + next(80);
            trial.heights.push_back({least + 10.0 * next(2), least + 5, least});
            trial.roomy.push_back(next(4) == 0);
        }
        CAPTURE(round);
        CHECK(tallest(trial) <= 100);
        std::size_t fewest = count;
        for (std::size_t breaks = 0; breaks < (std::size_t{1} << (count - 1)); ++breaks) {
            std::size_t pages = 1;
            double height = 0;
            bool fits = true;
            for (std::size_t i = 0; i < count; ++i) {
                const bool fresh = i > 0 && ((breaks >> (i - 1)) & 1) != 0;
                const double own = trial.roomy[i] ? trial.heights[i].front() : trial.heights[i].back();
                pages += fresh;
                height = fresh || i == 0 ? own : height + 10 + own;
                fits = fits && height <= 100;
            }
            if (fits) fewest = std::min(fewest, pages);
        }
        CHECK(pages_of(trial.placed()) == fewest);
    }
}

TEST_CASE("a piece that no page holds has one for itself, in its closest way") {
    const auto placed = Trial{{{30}, {190, 150}, {30}}}.placed();
    CHECK(pages_of(placed) == 3);
    CHECK(placed[1].way == 1);
}
