#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "survey/survey.hpp"
#include "trade/trade.hpp"

namespace rigdeed::drawing {

/// A place on the yacht in metres: x aft of the stem at deck level, y to starboard of the centreline, z above the
/// waterline. Heights are the survey's own; where along and across the yacht things are is drawn from length, beam
/// and what the stays are, and is no measurement.
struct Place {
    double x = 0;
    double y = 0;
    double z = 0;
};

struct MastLine {
    std::string id;  ///< fore, main, mizzen; empty where there is one only
    double x = 0;
    double foot = 0;
    double top = 0;
};

struct StayLine {
    const survey::Stay* stay = nullptr;
    std::vector<Place> points;  ///< from foot to head, over the tips of spreaders
    bool furled_sail = false;
    bool between_masts = false;  ///< its foot is on another mast than its head
    double lowest = 0;           ///< of its fittings, where it runs at the deck: they are drawn along it
    double highest = 0;
};

struct SpreaderLine {
    std::string mast;
    std::string station;  ///< "spreader-1"; empty where its fittings stand on another
    double z = 0;         ///< of its tips
    double half = 0;      ///< from the mast to a tip
    double x = 0;
};

/// What stands at the masts besides spars and stays: drawn where it was recorded, and nowhere else.
enum class GearIs { lamp, wind, aerial };

struct Gear {
    GearIs is = GearIs::lamp;
    std::string mast;
    double z = 0;
    double side = 0;  ///< -1 port, 1 starboard
};

struct BoomLine {
    std::string mast;
    double z = 0;  ///< above the waterline, at the mast
};

struct RigGeometry {
    double length = 0;
    double beam = 0;
    double deck = 0;      ///< above the waterline
    double bowsprit = 0;  ///< beyond the stem; 0: none
    std::vector<MastLine> masts;
    std::vector<SpreaderLine> spreaders;
    std::vector<StayLine> stays;
    std::vector<Gear> gear;
    std::vector<BoomLine> booms;                               ///< where something of one was recorded
    std::map<std::string, trade::Stands, std::less<>> stands;  ///< of fittings that belong to no stay, by their kind

    [[nodiscard]] double top() const;
    [[nodiscard]] const StayLine* line_of(std::string_view stay) const;
    /// Where a fitting is; its height is the survey's.
    [[nodiscard]] Place place_of(const survey::Fitting& fitting) const;
    [[nodiscard]] const MastLine& mast(std::string_view id) const;
};

/// The survey must outlive the result. Where stays lead and fittings stand, the templates of their roles and kinds say.
[[nodiscard]] RigGeometry rig_geometry(const survey::Survey& survey, const trade::Trade& trade);

}  // namespace rigdeed::drawing
