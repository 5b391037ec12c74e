#include "drawing/rig_geometry.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace rigdeed::drawing {
namespace {

using survey::Fitting;
using survey::Side;

double metres(const Length& length) { return length.quantity.value / 1000; }

double sign_of(Side side) { return side == Side::port ? -1 : side == Side::starboard ? 1 : 0; }

trade::Stands stands_of(const Fitting& fitting, const trade::Trade& trade) {
    const trade::Kind* kind = trade.kind(fitting.kind);
    return kind != nullptr ? kind->stands : trade::Stands::at_mast;
}

constexpr double one_pair = 0.75;  ///< metres in height within which roots and tips are of one pair of spreaders

bool is_of_spreader(trade::Stands where) {
    return where == trade::Stands::spreader_root || where == trade::Stands::spreader ||
           where == trade::Stands::spreader_tip;
}

/// Where masts stand, as a share of the length: usual proportions, from memory; a drawing, not a measurement.
double mast_share(const std::string& id, const survey::Survey& survey, const trade::Trade& trade) {
    const auto has = [&](const char* one) {
        return std::any_of(survey.stays.begin(), survey.stays.end(),
                           [&](const auto& stay) { return stay.mast == one; }) ||
               std::any_of(survey.fittings.begin(), survey.fittings.end(),
                           [&](const auto& f) { return f.mast == one; });
    };
    if (id == "fore") return 0.30;
    if (id == "mizzen") return survey.yacht.rig == "yawl" ? 0.93 : 0.80;
    if (id == "main") return has("fore") ? 0.60 : 0.37;
    const bool forestay = std::any_of(survey.stays.begin(), survey.stays.end(), [&](const auto& stay) {
        const trade::Role* role = trade.role(stay.role);
        return role != nullptr && role->foot.at == trade::Foot::At::bow;
    });
    return forestay ? 0.42 : 0.14;
}

class Builder {
 public:
    Builder(const survey::Survey& survey, const trade::Trade& trade) : survey_(survey), trade_(trade) {}

    RigGeometry build() {
        hull();
        masts();
        spreaders();
        for (const trade::Kind& kind : trade_.kinds) result_.stands.emplace(kind.id, kind.stands);
        for (const survey::Stay& stay : survey_.stays) result_.stays.push_back(line_of(stay));
        gear();
        return std::move(result_);
    }

 private:
    std::string mast_of(const Fitting& fitting) const {
        const survey::Stay* stay = fitting.stay.empty() ? nullptr : survey_.stay(fitting.stay);
        return stay != nullptr ? stay->mast : fitting.mast;
    }

    void hull() {
        result_.length = metres(survey_.yacht.loa);
        result_.beam = survey_.yacht.beam ? metres(*survey_.yacht.beam) : result_.length / 3.1;
        double lowest = 1e9;
        for (const Fitting& fitting : survey_.fittings)
            if (fitting.at_deck()) lowest = std::min(lowest, metres(fitting.height));
        result_.deck = survey_.yacht.freeboard ? metres(*survey_.yacht.freeboard)
                       : lowest < 1e9          ? lowest
                                               : result_.length * 0.1;
        const bool sprit = std::any_of(survey_.stays.begin(), survey_.stays.end(), [&](const survey::Stay& stay) {
            return role_of(stay).runs == trade::Runs::at_deck;
        });
        result_.bowsprit = sprit ? result_.length * 0.13 : 0;
    }

    /// The ends of such a stay stand at two masts, and say of neither how high it is.
    bool is_between_masts(const Fitting& fitting) const {
        const survey::Stay* stay = fitting.stay.empty() ? nullptr : survey_.stay(fitting.stay);
        return stay != nullptr && role_of(*stay).foot.at == trade::Foot::At::other_masthead;
    }

    void masts() {
        std::vector<std::string> ids;
        const auto note = [&](const std::string& id) {
            if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
        };
        for (const survey::Stay& stay : survey_.stays) note(stay.mast);
        for (const Fitting& fitting : survey_.fittings) note(mast_of(fitting));
        if (ids.size() > 1) std::erase(ids, std::string());
        if (ids.empty()) ids.emplace_back();
        for (const std::string& id : ids) {
            MastLine mast{id, mast_share(id, survey_, trade_) * result_.length, result_.deck, 0};
            double masthead = 0, highest = 0;
            for (const Fitting& fitting : survey_.fittings) {
                if (ids.size() > 1 && (mast_of(fitting) != id || is_between_masts(fitting))) continue;
                highest = std::max(highest, metres(fitting.height));
                if (fitting.station == "masthead" &&
                    (!fitting.stay.empty() || stands_of(fitting, trade_) == trade::Stands::masthead))
                    masthead = std::max(masthead, metres(fitting.height));
            }
            mast.top = std::max({masthead > 0 ? masthead : highest, result_.deck + 1.0});
            result_.masts.push_back(mast);
        }
    }

    void spreaders() {
        for (const MastLine& mast : result_.masts) {
            std::map<std::string, std::vector<double>> numbered;  // heights by station
            std::vector<double> others;                           // that a plan or a surveyor put on "mast"
            for (const Fitting& fitting : survey_.fittings) {
                if (!fitting.stay.empty() || (result_.masts.size() > 1 && fitting.mast != mast.id)) continue;
                if (fitting.station.rfind("spreader-", 0) == 0)
                    numbered[fitting.station].push_back(metres(fitting.height));
                else if (is_of_spreader(stands_of(fitting, trade_))) others.push_back(metres(fitting.height));
            }
            const std::size_t first = result_.spreaders.size();
            for (const auto& [station, heights] : numbered) add_spreader(mast, station, heights);
            std::erase_if(others, [&](double z) {
                return std::any_of(result_.spreaders.begin() + static_cast<long>(first), result_.spreaders.end(),
                                   [&](const SpreaderLine& known) { return std::abs(known.z - z) <= one_pair; });
            });
            std::sort(others.begin(), others.end());
            for (std::size_t i = 0, from = 0; i < others.size(); ++i)
                if (i + 1 == others.size() || others[i + 1] - others[i] > one_pair) {
                    add_spreader(mast, {},
                                 {others.begin() + static_cast<long>(from), others.begin() + static_cast<long>(i + 1)});
                    from = i + 1;
                }
            std::sort(result_.spreaders.begin() + static_cast<long>(first), result_.spreaders.end(),
                      [](const SpreaderLine& a, const SpreaderLine& b) { return a.z < b.z; });
        }
    }

    void add_spreader(const MastLine& mast, const std::string& station, const std::vector<double>& heights) {
        const double z = std::accumulate(heights.begin(), heights.end(), 0.0) / static_cast<double>(heights.size());
        const double up = (z - result_.deck) / (mast.top - result_.deck);
        result_.spreaders.push_back(
            {mast.id, station, z, result_.beam * 0.5 * std::max(0.35, 0.86 - 0.45 * up), mast.x});
    }

    /// Nothing that is said to be gone.
    bool is_there(const Fitting& fitting, const trade::Kind& kind) const {
        for (const survey::Seen& seen : fitting.seen)
            for (const survey::Sign& sign : seen.signs)
                if (const trade::SignRule* rule = trade_.sign(kind, sign.code))
                    if (rule->shows == trade::Shows::gone) return false;
        return true;
    }

    void gear() {
        for (const Fitting& fitting : survey_.fittings) {
            const trade::Kind* kind = trade_.kind(fitting.kind);
            if (kind == nullptr || !fitting.stay.empty() || !is_there(fitting, *kind)) continue;
            const std::string mast = result_.mast(fitting.mast).id;
            const double z = metres(fitting.height), side = fitting.side ? sign_of(*fitting.side) : 0;
            if (kind->is_a(trade::KindIs::lamp)) result_.gear.push_back({GearIs::lamp, mast, z, side});
            if (kind->schematic == "wind-instrument") result_.gear.push_back({GearIs::wind, mast, z, side});
            if (kind->schematic == "antenna") result_.gear.push_back({GearIs::aerial, mast, z, side});
            const bool boom = kind->schematic == "gooseneck" || kind->schematic == "boom" || kind->id == "rigid-vang";
            if (boom) boom_at(mast, kind->id == "gooseneck" ? z : 0);
        }
    }

    /// At its gooseneck; where that was not recorded a metre above the mast's foot.
    void boom_at(const std::string& mast, double z) {
        const auto known = std::find_if(result_.booms.begin(), result_.booms.end(),
                                        [&](const BoomLine& boom) { return boom.mast == mast; });
        if (known == result_.booms.end()) result_.booms.push_back({mast, z > 0 ? z : result_.mast(mast).foot + 0.9});
        else if (z > 0) known->z = z;
    }

    double lowest_of(const survey::Stay& stay, double otherwise) const {
        double z = 1e9;
        for (const Fitting& fitting : survey_.fittings)
            if (fitting.stay == stay.id) z = std::min(z, metres(fitting.height));
        return z < 1e9 ? z : otherwise;
    }

    double highest_of(const survey::Stay& stay, double otherwise) const {
        double z = -1e9;
        for (const Fitting& fitting : survey_.fittings)
            if (fitting.stay == stay.id && fitting.station != "deck") z = std::max(z, metres(fitting.height));
        return z > -1e9 ? z : otherwise;
    }

    StayLine line_of(const survey::Stay& stay) const {
        StayLine line;
        line.stay = &stay;
        line.furled_sail = std::any_of(survey_.fittings.begin(), survey_.fittings.end(), [&](const Fitting& fitting) {
            return fitting.stay == stay.id && is_a(fitting, trade::KindIs::sail);
        });
        const MastLine& mast = result_.mast(stay.mast);
        const double side = sign_of(stay.side);
        const double foot_z = lowest_of(stay, result_.deck);
        const double head_z = std::min(highest_of(stay, mast.top), mast.top + 0.5);
        const Place foot = foot_of(stay, mast, head_z, foot_z);
        const Place head = head_of(stay, mast, head_z);
        line.between_masts = role_of(stay).foot.at == trade::Foot::At::other_masthead;
        line.points.push_back(foot);
        if (role_of(stay).over_tips != trade::OverTips::none && side != 0)
            for (const SpreaderLine& spreader : result_.spreaders)
                if (spreader.mast == stay.mast && spreader.z > foot.z && spreader.z < head.z - 0.3)
                    line.points.push_back({mast.x, side * spreader.half, spreader.z});
        line.points.push_back(head);
        if (role_of(stay).runs == trade::Runs::at_deck) {
            line.lowest = foot_z;
            line.highest = foot_z;
            for (const Fitting& fitting : survey_.fittings)
                if (fitting.stay == stay.id) line.highest = std::max(line.highest, metres(fitting.height));
        }
        return line;
    }

    Place foot_of(const survey::Stay& stay, const MastLine& mast, double head_z, double z) const {
        const double side = sign_of(stay.side), half = result_.beam * 0.5, length = result_.length;
        const double share = std::clamp((head_z - result_.deck) / (mast.top - result_.deck), 0.1, 1.0);
        const trade::Foot place = role_of(stay).foot;
        const double along = length * place.along, y = side * half * place.out;
        switch (place.at) {
            case trade::Foot::At::beside: return {mast.x + along, y, z};
            case trade::Foot::At::ahead: return {mast.x - along, y, z};
            case trade::Foot::At::bow: return {mast.id == "mizzen" ? mast.x * 0.6 : -result_.bowsprit, side * 0.3, z};
            case trade::Foot::At::foredeck: return {mast.x * (1 - share), side * 0.3, z};
            case trade::Foot::At::aft: return {std::max(along, mast.x + 0.4), y, z};
            case trade::Foot::At::hull: return {along, y, z};
            case trade::Foot::At::below_stem: return {along, 0, std::min(z, result_.deck * 0.3)};
            case trade::Foot::At::other_masthead: return other_masthead(stay, mast);
        }
        return {mast.x, y, z};
    }

    Place head_of(const survey::Stay& stay, const MastLine& mast, double z) const {
        if (role_of(stay).runs == trade::Runs::at_deck)
            return {-result_.bowsprit, 0, std::max(result_.deck, lowest_of(stay, result_.deck))};
        return {mast.x, 0, z};
    }

    /// At the height that was recorded there; where none was, as high as the two masts have in common.
    Place other_masthead(const survey::Stay& stay, const MastLine& mast) const {
        for (const MastLine& other : result_.masts) {
            if (other.id == mast.id) continue;
            double z = std::min(other.top, mast.top), nearest = 1e9;
            for (const Fitting& fitting : survey_.fittings) {
                const double there = std::abs(metres(fitting.height) - other.top);
                if (fitting.stay == stay.id && there < std::abs(metres(fitting.height) - mast.top) && there < nearest)
                    z = metres(fitting.height), nearest = there;
            }
            return {other.x, 0, z};
        }
        return {mast.x, 0, mast.top};
    }

    /// As its template says; beside the mast for a role that nobody knows.
    trade::Role role_of(const survey::Stay& stay) const {
        const trade::Role* role = trade_.role(stay.role);
        return role != nullptr ? *role : trade::Role{};
    }

    bool is_a(const Fitting& fitting, trade::KindIs what) const {
        const trade::Kind* kind = trade_.kind(fitting.kind);
        return kind != nullptr && kind->is_a(what);
    }

    const survey::Survey& survey_;
    const trade::Trade& trade_;
    RigGeometry result_;
};

}  // namespace

double RigGeometry::top() const {
    double top = deck;
    for (const MastLine& mast : masts) top = std::max(top, mast.top);
    return top;
}

const MastLine& RigGeometry::mast(std::string_view id) const {
    for (const MastLine& one : masts)
        if (one.id == id) return one;
    return masts.front();
}

const StayLine* RigGeometry::line_of(std::string_view stay) const {
    for (const StayLine& line : stays)
        if (line.stay->id == stay) return &line;
    return nullptr;
}

Place RigGeometry::place_of(const Fitting& fitting) const {
    const double z = metres(fitting.height);
    if (const StayLine* line = fitting.stay.empty() ? nullptr : line_of(fitting.stay)) {
        const Place &foot = line->points.front(), &head = line->points.back();
        if (line->between_masts) {  // at the mast whose end of it is nearer in height; its own where both are
            const Place& end = std::abs(z - foot.z) + 0.01 < std::abs(z - head.z) ? foot : head;
            return {end.x, end.y, z};
        }
        if (line->highest > line->lowest) {
            const double t = (z - line->lowest) / (line->highest - line->lowest);
            return {foot.x + t * (head.x - foot.x), foot.y + t * (head.y - foot.y), z};
        }
        for (std::size_t i = 0; i + 1 < line->points.size(); ++i) {
            const Place &low = line->points[i], &high = line->points[i + 1];
            if (z > high.z && i + 2 < line->points.size()) continue;
            const double span = high.z - low.z;
            const double t = std::abs(span) < 1e-6 ? 0 : std::clamp((z - low.z) / span, 0.0, 1.0);
            return {low.x + t * (high.x - low.x), low.y + t * (high.y - low.y), z};
        }
    }
    const MastLine& mast = this->mast(fitting.mast);
    const double side = fitting.side ? sign_of(*fitting.side) : 0;
    const auto known = stands.find(fitting.kind);
    const trade::Stands where = known != stands.end() ? known->second : trade::Stands::at_mast;
    if (where == trade::Stands::side_deck) return {length * 0.7, side * beam * 0.48, z};
    if (where == trade::Stands::bowsprit_end) return {-bowsprit, 0, z};
    if (where == trade::Stands::stem) return {0, 0, z};
    for (const SpreaderLine& spreader : spreaders)
        if (spreader.mast == mast.id &&
            (spreader.station == fitting.station || (fitting.station.rfind("spreader-", 0) != 0 &&
                                                     is_of_spreader(where) && std::abs(spreader.z - z) <= one_pair))) {
            const double out = where == trade::Stands::spreader_root ? 0.12
                               : where == trade::Stands::spreader    ? 0.5
                                                                     : 1.0;
            return {mast.x, side * spreader.half * out, z};
        }
    return {mast.x, side * 0.1, z};
}

RigGeometry rig_geometry(const survey::Survey& survey, const trade::Trade& trade) {
    return Builder(survey, trade).build();
}

}  // namespace rigdeed::drawing
