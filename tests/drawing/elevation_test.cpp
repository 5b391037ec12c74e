#include "drawing/elevation.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <set>

#include "drawing/segments.hpp"
#include "survey/sample.hpp"
#include "trade/plan.hpp"
#include "trade/trade.hpp"

using namespace rigdeed;
using namespace rigdeed::drawing;

namespace {

const ElevationWords some_words{"side view", "from astern", "port", "starboard", "m", "the rig"};

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

std::vector<survey::Survey> rigs() {
    std::vector<survey::Survey> all;
    for (const trade::Plan& plan : the_trade().plans)
        all.push_back(trade::start_survey(plan, {}, {2026, 10, 3}, the_trade()));
    all.push_back(sample::read(sample::text_of("demo/survey.xml")));
    return all;
}

std::vector<ElevationMark> all_fittings(const survey::Survey& survey) {
    std::vector<ElevationMark> marks;
    int number = 0;
    for (const survey::Fitting& fitting : survey.fittings)
        marks.push_back({&fitting, survey::Verdict::watch, ++number});
    return marks;
}

}  // namespace

TEST_CASE("every mark stands at its fitting's own height above the waterline, within one percent") {
    for (const survey::Survey& survey : rigs()) {
        const RigGeometry rig = rig_geometry(survey, the_trade());
        const auto marks = all_fittings(survey);
        ElevationOptions options;
        options.size = {336_pt, 318_pt};
        const Elevation drawn = elevation(rig, marks, options, some_words);
        REQUIRE(drawn.spots.size() == marks.size());
        const double point_in_metres = drawn.scale_one_to * 0.0254 / 72;
        for (std::size_t i = 0; i < marks.size(); ++i) {
            const double height = (drawn.waterline - drawn.spots[i].at.y).value * point_in_metres;
            const double surveyed = marks[i].fitting->height.quantity.value / 1000;
            CHECK_MESSAGE(std::abs(height - surveyed) <= rig.top() * 0.01, survey.yacht.rig, ": ",
                          marks[i].fitting->id);
        }
    }
}

TEST_CASE("port is drawn left of starboard from astern, and the bow left of the stern") {
    for (const survey::Survey& survey : rigs()) {
        const RigGeometry rig = rig_geometry(survey, the_trade());
        for (const StayLine& stay : rig.stays) {
            CAPTURE(survey.yacht.rig);
            CAPTURE(stay.stay->id);
            for (const Place& place : stay.points) {
                if (stay.stay->side == survey::Side::port) CHECK(place.y <= 0);
                if (stay.stay->side == survey::Side::starboard) CHECK(place.y >= 0);
                if (stay.stay->side == survey::Side::centre) CHECK(std::abs(place.y) < 0.01);
            }
            if (stay.stay->role == "forestay") CHECK(stay.points.front().x < stay.points.back().x);
            if (stay.stay->role == "backstay") CHECK(stay.points.front().x > stay.points.back().x);
        }
    }
}

TEST_CASE("the scale is the largest that fits, and everything lies in the panel") {
    for (const survey::Survey& survey : rigs()) {
        const RigGeometry rig = rig_geometry(survey, the_trade());
        for (const Size size : {Size{336_pt, 318_pt}, Size{124_pt, 168_pt}, Size{336_pt, 236_pt}}) {
            ElevationOptions options;
            options.size = size;
            const Elevation drawn = elevation(rig, all_fittings(survey), options, some_words);
            CHECK(drawn.scale_one_to > 0);
            for (const auto& item : drawn.drawing.items)
                if (const auto* shape = std::get_if<Shape>(&item))
                    for (const Segment& segment : shape->path)
                        if (const auto* line = std::get_if<LineTo>(&segment)) {
                            CHECK(line->to.x.value >= -0.5);
                            CHECK(line->to.x.value <= size.width.value + 0.5);
                            CHECK(line->to.y.value >= -0.5);
                            CHECK(line->to.y.value <= size.height.value + 0.5);
                        }
        }
    }
}

TEST_CASE("mirrored fittings are drawn at mirrored places") {
    const survey::Survey survey = trade::start_survey(*the_trade().plan("cutter"), {}, {2026, 10, 3}, the_trade());
    const RigGeometry rig = rig_geometry(survey, the_trade());
    std::size_t pairs = 0;
    for (const survey::Fitting& port : survey.fittings) {
        if (port.id.find("-port") == std::string::npos) continue;
        std::string other = port.id;
        other.replace(other.find("-port"), 5, "-starboard");
        for (const survey::Fitting& starboard : survey.fittings)
            if (starboard.id == other) {
                const Place a = rig.place_of(port), b = rig.place_of(starboard);
                CHECK(a.x == doctest::Approx(b.x));
                CHECK(a.y == doctest::Approx(-b.y));
                CHECK(a.z == doctest::Approx(b.z));
                ++pairs;
            }
    }
    CHECK(pairs > 20);
}

TEST_CASE("what was not looked at aloft is hatched, down to the deck and no further") {
    const survey::Survey survey = trade::start_survey(*the_trade().plan("cutter"), {}, {2026, 10, 3}, the_trade());
    const RigGeometry rig = rig_geometry(survey, the_trade());
    ElevationOptions options;
    options.size = {336_pt, 318_pt};
    const Elevation plain = elevation(rig, {}, options, some_words);
    options.aloft_unseen = true;
    const Elevation hatched = elevation(rig, {}, options, some_words);
    REQUIRE(hatched.drawing.items.size() == plain.drawing.items.size() + 1);
    const double deck = hatched.waterline.value - rig.deck / (hatched.scale_one_to * 0.0254 / 72);
    std::size_t lines = 0;
    for (const auto& item : hatched.drawing.items)
        if (const auto* shape = std::get_if<Shape>(&item); shape != nullptr && shape->path.size() > 60)
            for (const Segment& segment : shape->path)
                if (const auto* line = std::get_if<LineTo>(&segment)) {
                    ++lines;
                    CHECK(line->to.y.value <= deck);
                }
    CHECK(lines > 30);
}

TEST_CASE("no two leaders cross, no mark covers another, and port is marked to port: up to 25 marks on any rig") {
    for (const survey::Survey& survey : rigs()) {
        const RigGeometry rig = rig_geometry(survey, the_trade());
        const auto all = all_fittings(survey);
        for (const std::size_t count : {std::size_t{5}, std::size_t{12}, std::size_t{25}})
            for (std::size_t from = 0; from < all.size(); from += count * 2) {
                const std::vector<ElevationMark> marks(
                    all.begin() + static_cast<long>(from),
                    all.begin() + static_cast<long>(std::min(from + count, all.size())));
                ElevationOptions options;
                options.size = {310_pt, 250_pt};
                const Elevation drawn = elevation(rig, marks, options, some_words);
                CAPTURE(survey.yacht.rig);
                CAPTURE(count);
                CAPTURE(from);
                REQUIRE(drawn.shapes.size() == marks.size());
                const auto turn = [](Point a, Point b, Point c) {
                    return (b.x - a.x).value * (c.y - a.y).value - (b.y - a.y).value * (c.x - a.x).value;
                };
                std::size_t crossings = 0, covered = 0, passed = 0, words = 0;
                for (const auto& item : drawn.drawing.items) {
                    const auto* label = std::get_if<Label>(&item);
                    if (label == nullptr || label->text.find_first_not_of("0123456789") == std::string::npos) continue;
                    const Points width = label->size * (0.5 * static_cast<double>(label->text.size()));
                    const Points left = label->anchor == Anchor::left     ? label->at.x
                                        : label->anchor == Anchor::middle ? label->at.x - width * 0.5
                                                                          : label->at.x - width;
                    for (const Point shape : drawn.shapes)
                        words += std::abs((shape.y - label->at.y + label->size * 0.35).value) < 10 &&
                                 shape.x + 7.6_pt > left && shape.x - 7.6_pt < left + width;
                }
                for (std::size_t i = 0; i < marks.size(); ++i)
                    for (std::size_t k = i + 1; k < marks.size(); ++k) {
                        const Point a = drawn.spots[i].at, b = drawn.shapes[i], c = drawn.spots[k].at,
                                    d = drawn.shapes[k];
                        if (turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0) ++crossings;
                        if (std::hypot((b.x - d.x).value, (b.y - d.y).value) < 14) ++covered;
                        passed += distance(b, Segment2{c, d}) < 7.6 || distance(d, Segment2{a, b}) < 7.6;
                    }
                CHECK(crossings == 0);
                CHECK(covered == 0);
                CHECK(words == 0);
                // behind another mark: only where a dozen are at the same few points
                CHECK(passed <= (count <= 12 ? 1U : 2U));
            }
    }
}

TEST_CASE("lamps, sensors, aerials, a boom and a furled sail are drawn where they were recorded, and only there") {
    const auto drawn = [](const survey::Survey& survey) {
        ElevationOptions options;
        options.size = {310_pt, 250_pt};
        return elevation(rig_geometry(survey, the_trade()), {}, options, some_words).drawing.items.size();
    };
    const survey::Survey whole = sample::read(sample::text_of("demo/survey.xml"));
    const std::size_t all = drawn(whole);
    const auto without = [&](const std::set<std::string>& kinds) {
        survey::Survey survey = whole;
        std::erase_if(survey.fittings, [&](const survey::Fitting& one) { return kinds.contains(one.kind); });
        return survey;
    };
    for (const auto& [kinds, fewer] : {std::pair(std::set<std::string>{"light"}, true),
                                       {{"wind-instrument"}, true},
                                       {{"antenna"}, true},
                                       {{"gooseneck", "vang-fitting", "boom", "rigid-vang"}, true},
                                       {{"foil"}, true},
                                       {{"nest"}, false}}) {
        CAPTURE(*kinds.begin());
        CHECK((drawn(without(kinds)) < all) == fewer);
    }
    survey::Survey gone = whole;  // an aerial that is said to be gone is not drawn
    const trade::Kind& aerial = *the_trade().kind("antenna");
    const auto sign = std::find_if(aerial.signs.begin(), aerial.signs.end(),
                                   [](const trade::SignRule& rule) { return rule.shows == trade::Shows::gone; });
    if (sign == aerial.signs.end()) return;
    for (survey::Fitting& fitting : gone.fittings)
        if (fitting.kind == "antenna") {
            survey::Sign said;
            said.code = sign->code;
            fitting.seen.front().signs.push_back(said);
        }
    CHECK(drawn(gone) < all);
}

TEST_CASE(
    "the rig stands at 1:200 or larger wherever the panel has the room that this takes, and no smaller than fits") {
    for (const survey::Survey& survey : rigs()) {
        const RigGeometry rig = rig_geometry(survey, the_trade());
        CAPTURE(survey.yacht.rig);
        ElevationOptions options;
        const Size room = room_of(rig, 200);
        options.size = {room.width + 0.1_pt, room.height + 0.1_pt};
        CHECK(elevation(rig, {}, options, some_words).scale_one_to <= 200);
        options.size = {310_pt, 230_pt};
        const int scale = elevation(rig, {}, options, some_words).scale_one_to;
        const Size larger = room_of(rig, scale - 5);
        CHECK((larger.width > options.size.width || larger.height > options.size.height));
    }
}

TEST_CASE("each mast has its own view from astern, and a fitting is marked in that of its mast") {
    for (const survey::Survey& survey : rigs()) {
        const RigGeometry rig = rig_geometry(survey, the_trade());
        if (rig.masts.size() < 2) continue;
        ElevationOptions options;
        options.size = {310_pt, 250_pt};
        const auto marks = all_fittings(survey);
        const Elevation drawn = elevation(rig, marks, options, some_words);
        std::map<std::string, std::pair<double, double>> reach;  // of marks from astern, by mast
        for (std::size_t i = 0; i < marks.size(); ++i) {
            if (!drawn.spots[i].from_astern) continue;
            const survey::Stay* stay = survey.stay(marks[i].fitting->stay);
            const std::string mast = rig.mast(stay != nullptr ? stay->mast : marks[i].fitting->mast).id;
            const double x = drawn.spots[i].at.x.value;
            auto& [least, most] = reach.try_emplace(mast, 1e9, -1e9).first->second;
            least = std::min(least, x), most = std::max(most, x);
        }
        for (const auto& [mast, one] : reach)
            for (const auto& [other, two] : reach)
                if (mast != other) CHECK((one.second < two.first || two.second < one.first));
    }
}

TEST_CASE("a spreader is drawn wherever a root or a tip was recorded, whatever its station is called, and only there") {
    std::size_t on_mast = 0;
    for (survey::Survey survey : rigs()) {
        CAPTURE(survey.yacht.rig);
        const auto is_spreader = [](const survey::Fitting& one) {
            return one.kind == "spreader-root" || one.kind == "spreader-tip";
        };
        const RigGeometry rig = rig_geometry(survey, the_trade());
        for (const survey::Fitting& one : survey.fittings) {
            if (!is_spreader(one)) continue;
            CAPTURE(one.id);
            on_mast += one.station == "mast";
            const std::string mast = rig.mast(one.mast).id;
            const double z = one.height.quantity.value / 1000;
            const auto line = std::find_if(rig.spreaders.begin(), rig.spreaders.end(), [&](const SpreaderLine& drawn) {
                return drawn.mast == mast && std::abs(drawn.z - z) < 0.75;
            });
            REQUIRE(line != rig.spreaders.end());
            const double out = std::abs(rig.place_of(one).y);
            if (one.kind == "spreader-tip") CHECK(out == doctest::Approx(line->half));
            else CHECK(out < line->half * 0.5);
        }
        // the same rig with the stations that were written otherwise is drawn the same
        survey::Survey otherwise = survey;
        for (survey::Fitting& one : otherwise.fittings)
            if (is_spreader(one)) one.station = "mast";
        const RigGeometry again = rig_geometry(otherwise, the_trade());
        REQUIRE(again.spreaders.size() == rig.spreaders.size());
        for (std::size_t i = 0; i < rig.spreaders.size(); ++i) {
            CHECK(again.spreaders[i].z == doctest::Approx(rig.spreaders[i].z));
            CHECK(again.spreaders[i].half == doctest::Approx(rig.spreaders[i].half));
        }
        std::erase_if(survey.fittings, [](const survey::Fitting& one) {
            return one.kind.find("spreader") != std::string::npos || one.station.find("spreader") != std::string::npos;
        });
        CHECK(rig_geometry(survey, the_trade()).spreaders.empty());
    }
    CHECK(on_mast >= 8);
}

TEST_CASE(
    "both ends of a diamond and of a jumper stay are on the mast, out at a spreader only where one was recorded") {
    std::size_t aloft = 0;
    for (survey::Survey survey : rigs()) {
        if (survey.stays.empty()) continue;
        survey::Stay jumper = survey.stays.front();
        jumper.id = "a-jumper", jumper.role = "jumper-stay", jumper.side = survey::Side::port;
        survey.stays.push_back(jumper);
        const RigGeometry rig = rig_geometry(survey, the_trade());
        for (const StayLine& line : rig.stays) {
            if (line.stay->role != "diamond-shroud" && line.stay->role != "jumper-stay") continue;
            CAPTURE(line.stay->id);
            ++aloft;
            const MastLine& mast = rig.mast(line.stay->mast);
            for (const Place& place : line.points) {
                CHECK(place.x == doctest::Approx(mast.x));
                const bool at_spreader =
                    std::any_of(rig.spreaders.begin(), rig.spreaders.end(), [&](const SpreaderLine& one) {
                        return one.mast == mast.id && one.z == place.z && one.half == std::abs(place.y);
                    });
                CHECK((std::abs(place.y) < 0.3 || at_spreader));
            }
            CHECK(std::abs(line.points.front().y) < 0.3);
            CHECK(std::abs(line.points.back().y) < 0.3);
        }
    }
    CHECK(aloft > 14);
}

TEST_CASE("a fitting of a stay between two mastheads stands at the mast whose height it was recorded at") {
    std::size_t between = 0;
    for (const survey::Survey& survey : rigs()) {
        const RigGeometry rig = rig_geometry(survey, the_trade());
        for (const survey::Fitting& one : survey.fittings) {
            const survey::Stay* stay = survey.stay(one.stay);
            if (stay == nullptr || stay->role != "triatic") continue;
            CAPTURE(survey.yacht.rig);
            CAPTURE(one.id);
            ++between;
            const Place place = rig.place_of(one);
            const MastLine& own = rig.mast(stay->mast);
            for (const MastLine& mast : rig.masts)
                if (place.x == doctest::Approx(mast.x))
                    CHECK(std::abs(place.z - mast.top) <= std::abs(place.z - own.top) + 0.01);
            CHECK(std::any_of(rig.masts.begin(), rig.masts.end(),
                              [&](const MastLine& mast) { return mast.x == place.x; }));
            if (survey.yacht.rig != "schooner") CHECK(place.x == doctest::Approx(own.x));
            // recorded at the other masthead: there
            for (const MastLine& other : rig.masts) {
                if (other.id == stay->mast || std::abs(other.top - rig.mast(stay->mast).top) < 1) continue;
                survey::Survey moved = survey;
                for (survey::Fitting& of : moved.fittings)
                    if (of.id == one.id) of.height.quantity.value = other.top * 1000;
                const RigGeometry drawn = rig_geometry(moved, the_trade());
                for (const survey::Fitting& of : moved.fittings)
                    if (of.id == one.id) CHECK(drawn.place_of(of).x == doctest::Approx(other.x));
            }
        }
    }
    CHECK(between > 8);
}

TEST_CASE("a leader hides no spreader at which it begins: white parts it crosses, and runs along nothing") {
    std::size_t roots = 0, partings = 0;
    for (const survey::Survey& survey : rigs()) {
        const RigGeometry rig = rig_geometry(survey, the_trade());
        for (const survey::Fitting& fitting : survey.fittings) {
            if (fitting.kind.find("spreader") == std::string::npos) continue;
            CAPTURE(survey.yacht.rig);
            CAPTURE(fitting.id);
            ++roots;
            ElevationOptions options;
            options.size = {310_pt, 250_pt};
            const Elevation drawn = elevation(rig, {{&fitting, survey::Verdict::watch, 1}}, options, some_words);
            std::vector<Segment2> spreaders, white;
            for (const auto& item : drawn.drawing.items) {
                const auto* shape = std::get_if<Shape>(&item);
                if (shape == nullptr || !shape->stroke || shape->path.size() != 2) continue;
                const auto* from = std::get_if<MoveTo>(&shape->path[0]);
                const auto* to = std::get_if<LineTo>(&shape->path[1]);
                if (from == nullptr || to == nullptr) continue;
                if (shape->stroke->width == 1.1_pt) spreaders.push_back({from->to, to->to});
                if (shape->stroke->width == 2.2_pt) white.push_back({from->to, to->to});
            }
            CHECK(!spreaders.empty());
            for (const Segment2& one : white) {
                ++partings;
                for (const Segment2& spreader : spreaders)
                    CHECK((distance(one.from, spreader) > 1 || distance(one.to, spreader) > 1));
            }
        }
    }
    CHECK(roots > 50);
    CHECK(partings > 10);
}

TEST_CASE("a mark stands on its own side and in its own view, with any marks from all over the rig") {
    std::size_t seen = 0, wrong = 0, strange = 0, passed = 0;
    for (const survey::Survey& survey : rigs()) {
        const RigGeometry rig = rig_geometry(survey, the_trade());
        const auto all = all_fittings(survey);
        for (const std::size_t count : {std::size_t{5}, std::size_t{12}, std::size_t{25}})
            for (std::size_t from = 0; from < all.size(); from += count * 3) {
                std::vector<ElevationMark> marks;  // from all over the rig, as findings are
                const std::size_t stride = std::max<std::size_t>(1, all.size() / count);
                for (std::size_t i = 0; i < count && i * stride < all.size(); ++i)
                    marks.push_back(all[(from / count + i * stride) % all.size()]);
                ElevationOptions options;
                options.size = {310_pt, 250_pt};
                const Elevation drawn = elevation(rig, marks, options, some_words);
                std::map<bool, std::pair<double, double>> reach{{false, {1e9, -1e9}}, {true, {1e9, -1e9}}};
                for (std::size_t i = 0; i < marks.size(); ++i) {
                    const ElevationSpot& spot = drawn.spots[i];
                    ++seen;
                    const double dx = (drawn.shapes[i].x - spot.at.x).value;
                    const bool is_wrong = spot.out != 0 && dx * spot.out < 0;
                    wrong += is_wrong;
                    if (count <= 5) CHECK(!is_wrong);
                    for (std::size_t k = 0; k < marks.size(); ++k) {
                        strange +=
                            !spot.from_astern && drawn.spots[k].from_astern && drawn.shapes[i].x > drawn.spots[k].at.x;
                        if (k == i) continue;
                        passed += distance(drawn.shapes[k], Segment2{spot.at, drawn.shapes[i]}) < 7.6;
                    }
                }
            }
    }
    CHECK(seen > 1000);
    CHECK(wrong * 20 <= seen);  // a score and more on two masts: where all are at one side's few points
    CHECK(strange == 0);
    CHECK(passed == 0);
}
