#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/quantity.hpp"
#include "drawing/shape.hpp"

/// Bars and timelines. Values are given with the words that stand beside them; never the colour of a verdict, but for
/// the edge of the weakest link.
namespace rigdeed::drawing {

/// A number with so many decimals, as the language writes it.
using NumberWords = std::function<std::string(double value, int decimals)>;

/// A link of a stay's chain, from the mast to the deck.
struct ChainLink {
    std::string name;
    std::string remark;           ///< small: how it is known
    std::optional<double> value;  ///< in the chart's unit; none: not measured
    std::string value_words;
    std::string ratio_words;     ///< to the strand
    std::vector<double> wanted;  ///< strokes at these values
    bool weakest = false;
};

struct ChainWords {
    std::string strand;  ///< over the upright: "strand 38.6"
    std::string of_the_strand;
    std::string not_measured;
    std::string weakest;
    std::string alternative;
    NumberWords number = fixed;
};

/// Bars with the strand's strength as an upright across them.
[[nodiscard]] Drawing chain_chart(const std::vector<ChainLink>& links, std::optional<double> strand, Points width,
                                  const ChainWords& words);

struct AgeBar {
    std::string name;
    std::optional<double> years;
    std::string age_words;
    std::string source_words;
    bool proven = false;  ///< by a paper or plate, not by someone's word
};

struct AgeBand {
    double least = 7;
    double common = 10;
    double most = 20;
    std::string words;  ///< over the upright at `common`
};

/// Ages against the customary band.
[[nodiscard]] Drawing age_chart(const std::vector<AgeBar>& bars, const AgeBand& band, Points width,
                                const std::string& alternative);

struct TensionPair {
    std::string name;
    std::optional<double> port;  ///< percent of the breaking load
    std::optional<double> starboard;
};

struct TensionWords {
    std::string port;
    std::string starboard;
    std::string not_measured;
    std::string alternative;
    NumberWords number = fixed;
};

/// Port to the left, starboard to the right of an axis, with strokes at the customary caps.
[[nodiscard]] Drawing tension_chart(const std::vector<TensionPair>& pairs, const std::vector<double>& caps,
                                    Points width, const TensionWords& words);

struct CoursePoint {
    double years = 0;  ///< after the first
    double value = 0;
    std::string words;
};

/// What was measured of one thing over the years, oldest first; two points or more.
struct CourseRow {
    std::string name;
    std::string measure;
    std::vector<CoursePoint> points;
    std::string remark;  ///< at the right: how it changed
};

/// A row each over one axis of time, each in a scale of its own: what it shows is the way it goes.
[[nodiscard]] Drawing course_chart(const std::vector<CourseRow>& rows, Points width, const std::string& alternative);

}  // namespace rigdeed::drawing
