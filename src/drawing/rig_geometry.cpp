#include "drawing/rig_geometry.hpp"

#include <algorithm>
#include <cmath>

namespace rigdeed::drawing {
namespace {

using survey::Fitting;
using survey::Side;

double metres(const Length& length) { return length.quantity.value / 1000; }

double sign_of(Side side) { return side == Side::port ? -1 : side == Side::starboard ? 1 : 0; }

/// Where masts stand, as a share of the length: usual proportions, from memory; a drawing, not a measurement.
double mast_share(const std::string& id, const survey::Survey& survey) {
    const auto has = [&](const char* one) {
        return std::any_of(survey.stays.begin(), survey.stays.end(),
                           [&](const auto& stay) { return stay.mast == one; }) ||
               std::any_of(survey.fittings.begin(), survey.fittings.end(),
                           [&](const auto& f) { return f.mast == one; });
    };
    if (id == "fore") return 0.30;
    if (id == "mizzen") return survey.yacht.rig == "yawl" ? 0.93 : 0.80;
    if (id == "main") return has("fore") ? 0.60 : 0.37;
    const bool forestay =
        std::any_of(survey.stays.begin(), survey.stays.end(), [](const auto& stay) { return stay.role == "forestay"; });
    return forestay ? 0.42 : 0.14;
}

class Builder {
 public:
    explicit Builder(const survey::Survey& survey) : survey_(survey) {}

    RigGeometry build() {
        hull();
        masts();
        spreaders();
        for (const survey::Stay& stay : survey_.stays) result_.stays.push_back(line_of(stay));
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
        const bool sprit = std::any_of(survey_.stays.begin(), survey_.stays.end(), [](const survey::Stay& stay) {
            return stay.role == "bobstay" || stay.role == "whisker-stay";
        });
        result_.bowsprit = sprit ? result_.length * 0.13 : 0;
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
            MastLine mast{id, mast_share(id, survey_) * result_.length, result_.deck, 0};
            double masthead = 0, highest = 0;
            for (const Fitting& fitting : survey_.fittings) {
                if (mast_of(fitting) != id && ids.size() > 1) continue;
                highest = std::max(highest, metres(fitting.height));
                if (fitting.station == "masthead" && (!fitting.stay.empty() || fitting.kind == "masthead"))
                    masthead = std::max(masthead, metres(fitting.height));
            }
            mast.top = std::max({masthead > 0 ? masthead : highest, result_.deck + 1.0});
            result_.masts.push_back(mast);
        }
    }

    void spreaders() {
        for (const MastLine& mast : result_.masts)
            for (int n = 1; n <= 6; ++n) {
                const std::string station = "spreader-" + std::to_string(n);
                double sum = 0, count = 0;
                for (const Fitting& fitting : survey_.fittings)
                    if (fitting.station == station && fitting.stay.empty() &&
                        (result_.masts.size() == 1 || fitting.mast == mast.id)) {
                        sum += metres(fitting.height);
                        ++count;
                    }
                if (count == 0) continue;
                const double z = sum / count;
                const double up = (z - result_.deck) / (mast.top - result_.deck);
                result_.spreaders.push_back(
                    {mast.id, station, z, result_.beam * 0.5 * std::max(0.35, 0.86 - 0.45 * up), mast.x});
            }
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
            return fitting.stay == stay.id && fitting.kind == "foil";
        });
        const MastLine& mast = result_.mast(stay.mast);
        const double side = sign_of(stay.side);
        const double foot_z = lowest_of(stay, result_.deck);
        const double head_z = std::min(highest_of(stay, mast.top), mast.top + 0.5);
        const Place foot = foot_of(stay, mast, head_z, foot_z);
        const Place head = head_of(stay, mast, head_z);
        line.points.push_back(foot);
        const bool over_tips = stay.role == "cap-shroud" || stay.role == "intermediate-shroud";
        if (over_tips && side != 0)
            for (const SpreaderLine& spreader : result_.spreaders)
                if (spreader.mast == stay.mast && spreader.z > foot.z && spreader.z < head.z - 0.3)
                    line.points.push_back({mast.x, side * spreader.half, spreader.z});
        line.points.push_back(head);
        return line;
    }

    Place foot_of(const survey::Stay& stay, const MastLine& mast, double head_z, double z) const {
        const double side = sign_of(stay.side), half = result_.beam * 0.5, length = result_.length;
        const double share = std::clamp((head_z - result_.deck) / (mast.top - result_.deck), 0.1, 1.0);
        if (stay.role == "forestay") return {mast.id == "mizzen" ? mast.x * 0.6 : -result_.bowsprit, side * 0.3, z};
        if (stay.role == "inner-forestay" || stay.role == "babystay") return {mast.x * (1 - share), side * 0.3, z};
        if (stay.role == "backstay") return {std::max(length, mast.x + 0.4), side * half * 0.6, z};
        if (stay.role == "running-backstay") return {std::max(length * 0.86, mast.x + 0.4), side * half * 0.7, z};
        if (stay.role == "check-stay") return {std::max(length * 0.8, mast.x + 0.4), side * half * 0.75, z};
        if (stay.role == "fore-lower") return {mast.x - length * 0.06, side * half * 0.92, z};
        if (stay.role == "aft-lower") return {mast.x + length * 0.06, side * half * 0.92, z};
        if (stay.role == "lower-shroud") return {mast.x + length * 0.02, side * half * 0.9, z};
        if (stay.role == "bobstay") return {length * 0.03, 0, std::min(z, result_.deck * 0.3)};
        if (stay.role == "whisker-stay") return {length * 0.12, side * half * 0.6, z};
        if (stay.role == "triatic") return other_masthead(mast);
        return {mast.x, side * half * 0.96, z};
    }

    Place head_of(const survey::Stay& stay, const MastLine& mast, double z) const {
        if (stay.role == "bobstay" || stay.role == "whisker-stay")
            return {-result_.bowsprit, 0, std::max(result_.deck, lowest_of(stay, result_.deck))};
        return {mast.x, 0, z};
    }

    Place other_masthead(const MastLine& mast) const {
        for (const MastLine& other : result_.masts)
            if (other.id != mast.id) return {other.x, 0, std::min(other.top, mast.top)};
        return {mast.x, 0, mast.top};
    }

    const survey::Survey& survey_;
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
    if (fitting.kind == "stanchion-base" || fitting.kind == "guardwire") return {length * 0.7, side * beam * 0.48, z};
    if (fitting.kind == "bowsprit" || fitting.kind == "cranse-iron") return {-bowsprit, 0, z};
    if (fitting.kind == "stem-fitting") return {0, 0, z};
    for (const SpreaderLine& spreader : spreaders)
        if (spreader.mast == mast.id && spreader.station == fitting.station) {
            const double out = fitting.kind == "spreader-root" ? 0.12 : fitting.kind == "spreader" ? 0.5 : 1.0;
            return {mast.x, side * spreader.half * out, z};
        }
    return {mast.x, side * 0.1, z};
}

RigGeometry rig_geometry(const survey::Survey& survey) { return Builder(survey).build(); }

}  // namespace rigdeed::drawing
