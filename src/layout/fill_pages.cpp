#include "layout/fill_pages.hpp"

#include <algorithm>
#include <limits>
#include <optional>

namespace rigdeed::layout {
namespace {

struct Cost {
    std::size_t pages = std::numeric_limits<std::size_t>::max();
    std::size_t closeness = 0;  ///< sum of the ways' squares

    bool operator<(const Cost& other) const {
        return pages != other.pages ? pages < other.pages : closeness < other.closeness;
    }
};

class Filler {
 public:
    explicit Filler(const Pieces& pieces) : pieces_(pieces), count_(pieces.ways.size()) {}

    std::vector<Placing> run() {
        // From the end: what the pieces from `first` on cost, each group of them on a page of its own.
        std::vector<Cost> cost(count_ + 1);
        std::vector<std::vector<std::size_t>> ways(count_);
        cost[count_] = {0, 0};
        for (std::size_t first = count_; first-- > 0;)
            for (std::size_t end = first + 1; end <= count_; ++end) {
                const auto tried = on_one_page(first, end, first == 0 ? pieces_.used : 0_pt);
                if (!tried) break;
                Cost all{cost[end].pages + 1, cost[end].closeness};
                for (const std::size_t way : *tried) all.closeness += way * way;
                if (!(all < cost[first])) continue;
                cost[first] = all;
                ways[first] = *tried;
            }
        std::vector<Placing> placed;
        for (std::size_t first = 0; first < count_; first += ways[first].size())
            for (std::size_t i = 0; i < ways[first].size(); ++i)
                placed.push_back({i == 0 && first > 0, ways[first][i]});
        return placed;
    }

 private:
    Points height(std::size_t piece, std::size_t way) const { return pieces_.height(piece, way); }

    /// The closest way that this piece may be set in; closer than it may share a page, only where no page holds it.
    std::size_t closest(std::size_t piece) const {
        const std::size_t last = pieces_.ways[piece] - 1;
        std::size_t way = std::min(pieces_.shared[piece], last);
        while (way < last && height(piece, way) > pieces_.page) ++way;
        return way;
    }

    /// The ways in which these stand on one page; none if they do not. One alone always does.
    std::optional<std::vector<std::size_t>> on_one_page(std::size_t first, std::size_t end, Points used) const {
        std::vector<std::size_t> ways;
        Points sum = used;
        for (std::size_t i = first; i < end; ++i) {
            ways.push_back(closest(i));
            sum += height(i, ways.back()) + (i > first ? pieces_.between : 0_pt);
        }
        if (sum > pieces_.page) {
            if (end > first + 1) return std::nullopt;
            ways.front() = pieces_.ways[first] - 1;
            sum = used + height(first, ways.front());
        }
        for (std::size_t i = first; i < end; ++i) {
            std::size_t& way = ways[i - first];
            const Points others = sum - height(i, way);
            for (std::size_t roomier = 0; roomier < way; ++roomier) {
                if (others + height(i, roomier) > pieces_.page) continue;
                way = roomier;
                break;
            }
            sum = others + height(i, way);
        }
        return ways;
    }

    const Pieces& pieces_;
    std::size_t count_;
};

}  // namespace

std::vector<Placing> fill_pages(const Pieces& pieces) { return Filler(pieces).run(); }

}  // namespace rigdeed::layout
