#include "drawing/schematic.hpp"

#include "drawing/palette.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>

#include "base/language.hpp"
#include "base/text.hpp"
#include "crypto/digest.hpp"
#include "pdf/font_metrics.hpp"
#include "survey/sample.hpp"
#include "trade/trade.hpp"

using namespace rigdeed;
using namespace rigdeed::drawing;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

const SchematicWords words = [](std::string_view key) { return the_trade().wording(key); };

std::string of(Point p) { return fixed(p.x.value, 1) + "," + fixed(p.y.value, 1); }

std::string of(const Path& path) {
    std::string text;
    for (const Segment& segment : path) {
        if (const auto* move = std::get_if<MoveTo>(&segment)) text += " M" + of(move->to);
        if (const auto* line = std::get_if<LineTo>(&segment)) text += " L" + of(line->to);
        if (const auto* curve = std::get_if<CurveTo>(&segment))
            text += " C" + of(curve->control1) + " " + of(curve->control2) + " " + of(curve->to);
        if (std::holds_alternative<Close>(segment)) text += " Z";
    }
    return text;
}

/// A line a shape or label, to a tenth of a point.
std::string text_of(const Drawing& drawing) {
    std::ostringstream text;
    text << "size " << fixed(drawing.size.width.value, 1) << " x " << fixed(drawing.size.height.value, 1) << "\n";
    for (const auto& item : drawing.items) {
        if (const auto* label = std::get_if<Label>(&item)) text << "label " << of(label->at) << " " << label->text;
        if (const auto* shape = std::get_if<Shape>(&item)) {
            text << "shape";
            if (shape->stroke)
                text << " w" << fixed(shape->stroke->width.value, 2) << (shape->stroke->dash.empty() ? "" : " dashed");
            if (shape->fill) text << " filled";
            text << of(shape->path);
        }
        text << "\n";
    }
    return text.str();
}

double reach_of(Point p, Size size) {
    return std::max({-p.x.value, -p.y.value, p.x.value - size.width.value, p.y.value - size.height.value});
}

}  // namespace

TEST_CASE("every kind of fitting has its schematic") {
    std::set<std::string> used;
    for (const trade::Kind& kind : the_trade().kinds) {
        CHECK_MESSAGE(schematic(kind.schematic, words).has_value(), kind.id, ": ", kind.schematic);
        used.insert(kind.schematic);
    }
    CHECK(used.size() > 30);
    CHECK(schematic_names().size() >= 27);
    CHECK(!schematic("no-such-thing", words));
}

TEST_CASE("schematics stay as they were looked at") {
    const bool write = std::getenv("RIGDEED_WRITE_GOLDEN") != nullptr;
    for (const std::string& name : schematic_names()) {
        CAPTURE(name);
        const std::string path = "tests/drawing/golden/" + name + ".txt";
        const std::string text = text_of(schematic(name, words)->drawing);
        if (write) std::ofstream(std::string(RIGDEED_SOURCE_DIR) + "/" + path) << text;
        CHECK(text == sample::text_of(path));
    }
}

TEST_CASE("nothing of a schematic leaves its frame, and every label has words of its own") {
    for (const std::string& name : schematic_names()) {
        CAPTURE(name);
        const Schematic drawn = *schematic(name, words);
        std::set<std::string> keys;
        for (const std::string& key : drawn.label_keys) CHECK_MESSAGE(keys.insert(key).second, key);
        CHECK(keys.size() >= 2);
        for (const auto& item : drawn.drawing.items) {
            if (const auto* label = std::get_if<Label>(&item)) {
                CHECK(reach_of(label->at, drawn.drawing.size) <= 0);
                CHECK(!label->text.empty());
                const double width = static_cast<double>(label->text.size()) * label->size.value * 0.56;
                if (label->anchor == Anchor::left)
                    CHECK(label->at.x.value + width < drawn.drawing.size.width.value + 12);
                if (label->anchor == Anchor::right) CHECK(label->at.x.value - width > -12);
            }
            if (const auto* shape = std::get_if<Shape>(&item))
                for (const Segment& segment : shape->path)
                    if (const auto* line = std::get_if<LineTo>(&segment))
                        CHECK_MESSAGE(reach_of(line->to, drawn.drawing.size) <= 6, of(line->to));
        }
        CHECK(!drawn.drawing.alternative.empty());
    }
}

TEST_CASE("labels of a schematic stay in its frame and off each other in every language") {
    const auto metrics = pdf::font_metrics();
    for (const std::string_view language : languages) {
        const trade::Trade trade = trade::load_trade({}, language);
        for (const std::string& name : schematic_names()) {
            const Schematic drawn = *schematic(name, [&](std::string_view key) { return trade.wording(key); });
            std::vector<std::pair<Box, std::string>> labels;
            for (const auto& item : drawn.drawing.items) {
                const auto* label = std::get_if<Label>(&item);
                if (label == nullptr) continue;
                const layout::Face face = label->bold ? layout::Face::bold : layout::Face::regular;
                const Points width = metrics->width(label->text, face, label->size);
                const Points left = label->anchor == Anchor::left    ? label->at.x
                                    : label->anchor == Anchor::right ? label->at.x - width
                                                                     : label->at.x - width / 2;
                CAPTURE(language);
                CAPTURE(name);
                CAPTURE(label->text);
                CHECK(left > -6_pt);
                CHECK(left + width < drawn.drawing.size.width + 6_pt);
                const Box core{{left, label->at.y - label->size * 0.46}, {width, label->size * 0.46}};
                for (const auto& [other, text] : labels) {
                    CAPTURE(text);
                    const bool meet = core.left() < other.right() && other.left() < core.right() &&
                                      core.top() < other.bottom() && other.top() < core.bottom();
                    CHECK_FALSE(meet);
                }
                labels.emplace_back(core, label->text);
            }
        }
    }
}

TEST_CASE("every sign has its usual place on its kind's schematic") {
    for (const trade::Kind& kind : the_trade().kinds) {
        const Schematic drawn = *schematic(kind.schematic, words);
        for (const trade::SignRule& rule : kind.signs)
            CHECK_MESSAGE(drawn.spots.contains(rule.at), kind.id, ", ", rule.code, ": ", rule.at);
    }
}

TEST_CASE("a sign is marked where the surveyor says, else where it usually is, else in the middle") {
    const Schematic fork = *schematic("swaged-fork", words);
    CHECK(spot_of(fork, {"mouth", "barrel"}, words).at == fork.spots.at("barrel"));
    CHECK(spot_of(fork, {"barrel", "at the mouth"}, words).at == fork.spots.at("mouth"));
    CHECK(spot_of(fork, {"barrel", "at the mouth"}, words).named);
    CHECK(spot_of(fork, {"mouth", ""}, words).at == fork.spots.at("mouth"));
    CHECK(!spot_of(fork, {"mouth", ""}, words).named);
    CHECK(!spot_of(fork, {"mouth", "somewhere else"}, words).named);
    CHECK(!spot_of(fork, {"mouth", "lower barrel"}, words).named);  // says more than the drawing knows
    const Point middle{fork.drawing.size.width * 0.5, fork.drawing.size.height * 0.5};
    CHECK(spot_of(fork, {"no-such-spot", ""}, words).at == middle);
    CHECK(spot_of(*schematic("split-pin", words), {"legs", "eye"}, words).named);
    const Schematic screw = *schematic("turnbuckle-open", words);
    CHECK(spot_of(screw, {"thread", "lower screw"}, words).at.y >
          spot_of(screw, {"thread", "upper screw"}, words).at.y);
}

namespace {

std::size_t vermilion_shapes(const Drawing& drawing) {
    return static_cast<std::size_t>(std::count_if(drawing.items.begin(), drawing.items.end(), [](const auto& item) {
        const auto* shape = std::get_if<Shape>(&item);
        return shape != nullptr &&
               ((shape->stroke && shape->stroke->colour == drawing::vermilion) || shape->fill == drawing::vermilion);
    }));
}

std::size_t dashed_rings(const Drawing& drawing) {
    return static_cast<std::size_t>(std::count_if(drawing.items.begin(), drawing.items.end(), [](const auto& item) {
        const auto* shape = std::get_if<Shape>(&item);
        return shape != nullptr && shape->stroke && shape->stroke->width == 1.1_pt &&
               shape->stroke->colour == drawing::black && !shape->stroke->dash.empty();
    }));
}

}  // namespace

TEST_CASE("of every sign of every kind nothing is drawn but where its place was named, and then what it looks like") {
    std::size_t drawn_signs = 0;
    for (const trade::Kind& kind : the_trade().kinds) {
        const Schematic plain = *schematic(kind.schematic, words);
        for (const trade::SignRule& rule : kind.signs) {
            CAPTURE(kind.id);
            CAPTURE(rule.code);
            const auto marked = [&](const std::string& where, trade::Shows shows) {
                Schematic drawn = plain;
                mark_signs(drawn, survey::Verdict::watch, 3, {{rule.at, where, shows}}, words);
                return drawn.drawing;
            };
            const Drawing named = marked(rule.at, rule.shows), unnamed = marked("", rule.shows);
            CHECK(vermilion_shapes(unnamed) == vermilion_shapes(marked("", trade::Shows::nothing)));
            if (rule.at == "rope-strands" &&
                rule.shows == trade::Shows::broken) {  // which of them, "strands" does not say
                CHECK(text_of(named) == text_of(unnamed));
                continue;
            }
            CHECK(dashed_rings(unnamed) == dashed_rings(named) + 1);
            const bool shows = vermilion_shapes(named) > vermilion_shapes(unnamed);
            CHECK(shows == (rule.shows != trade::Shows::nothing));
            drawn_signs += shows ? 1U : 0U;
        }
    }
    CHECK(drawn_signs > 250);
}

TEST_CASE("what each sign looks like stays as it was looked at, no two alike, within its ring") {
    std::ostringstream text;
    std::set<std::string> looks;
    std::set<trade::Shows> done{trade::Shows::nothing};
    for (const trade::Kind& kind : the_trade().kinds)
        for (const trade::SignRule& rule : kind.signs) {
            if (!done.insert(rule.shows).second) continue;
            Drawing drawing;
            drawing.size = {20_pt, 20_pt};
            add_sign_glyph(drawing, {10_pt, 10_pt}, rule.shows);
            CHECK(looks.insert(text_of(drawing)).second);
            text << rule.code << "\n" << text_of(drawing);
            for (const auto& item : drawing.items)
                for (const Segment& segment : std::get<Shape>(item).path)
                    if (const auto* line = std::get_if<LineTo>(&segment))
                        CHECK(std::hypot(line->to.x.value - 10, line->to.y.value - 10) < 8.5);
        }
    CHECK(looks.size() == 20);
    const std::string path = "tests/drawing/golden/signs.txt";
    if (std::getenv("RIGDEED_WRITE_GOLDEN") != nullptr)
        std::ofstream(std::string(RIGDEED_SOURCE_DIR) + "/" + path) << text.str();
    CHECK(text.str() == sample::text_of(path));
}

TEST_CASE("each sign of each kind is drawn as it was looked at, named and not named") {
    std::ostringstream text;
    std::size_t signs = 0;
    for (const trade::Kind& kind : the_trade().kinds)
        for (const trade::SignRule& rule : kind.signs) {
            text << kind.id << " " << rule.code;
            for (const std::string& where : {rule.at, std::string()}) {
                SchematicFacts facts;
                facts.upside_down = rule.shows == trade::Shows::reversed &&
                                    (kind.is_a(trade::KindIs::pin) || kind.is_a(trade::KindIs::split_pin));
                Schematic drawn = *schematic(kind.schematic, words, facts);
                mark_signs(drawn, rule.verdict, 17, {{rule.at, where, rule.shows}}, words);
                text << " " << crypto::sha256(text_of(drawn.drawing)).hex().substr(0, 16);
            }
            text << "\n";
            ++signs;
        }
    CHECK(signs > 300);
    const std::string path = "tests/drawing/golden/signs-of-kinds.txt";
    if (std::getenv("RIGDEED_WRITE_GOLDEN") != nullptr)
        std::ofstream(std::string(RIGDEED_SOURCE_DIR) + "/" + path) << text.str();
    CHECK(text.str() == sample::text_of(path));
}

TEST_CASE("legs stand at their measured angle, a pin put in from below hangs head down, a spreader rises as measured") {
    const auto spot = [](const char* name, const SchematicFacts& facts, const char* key) {
        return schematic(name, words, facts)->spots.at(key);
    };
    for (const double degrees : {40.0, 90.0, 128.0, 170.0}) {
        const SchematicFacts facts{degrees, {}, false};
        const Point root = spot("split-pin", facts, "leg-root"), a = spot("split-pin", facts, "long-leg"),
                    b = spot("split-pin", facts, "short-leg");
        const double middle = root.x.value + 0.4 * 5.8;  // the legs begin on the axis
        const double left = std::atan2(middle - a.x.value, a.y.value - root.y.value);
        const double right = std::atan2(b.x.value - middle, b.y.value - root.y.value);
        CHECK((left + right) * 180 / 3.14159265 == doctest::Approx(degrees).epsilon(0.01));
    }
    CHECK(spot("split-pin", {}, "split-eye").y < spot("split-pin", {}, "legs").y);
    CHECK(spot("split-pin", {{}, {}, true}, "split-eye").y > spot("split-pin", {{}, {}, true}, "legs").y);
    CHECK(spot("clevis-pin", {{}, {}, true}, "pin-head").y > spot("clevis-pin", {{}, {}, true}, "washer").y);
    for (const double degrees : {0.0, 0.5, 12.0}) {
        const SchematicFacts facts{{}, degrees, false};
        const Point root = spot("spreader", facts, "root-end"), tip = spot("spreader", facts, "tip-end");
        const double steepest = spot("spreader", {{}, 20.0, false}, "tip-end").y.value;
        CHECK(tip.y.value > steepest);
        CHECK(std::abs((root.y - tip.y).value / (tip.x - root.x).value - std::tan(degrees * 3.14159265 / 180)) < 0.17);
    }
}

TEST_CASE("signs are ringed once a place, and their number stands in the frame and on no label, where there is room") {
    std::size_t hidden = 0;
    for (const trade::Kind& kind : the_trade().kinds) {
        const Schematic plain = *schematic(kind.schematic, words);
        Schematic drawn = plain;
        std::vector<SignPlace> places;
        std::set<std::string> spots;
        for (const trade::SignRule& rule : kind.signs) {
            places.push_back({rule.at, ""});
            spots.insert(of(plain.spots.at(rule.at)));
        }
        places.push_back(places.front());
        mark_signs(drawn, survey::Verdict::renew, 17, places, words);
        CHECK(dashed_rings(drawn.drawing) == dashed_rings(plain.drawing) + spots.size());
        const auto* number = std::get_if<Label>(&drawn.drawing.items.back());
        REQUIRE(number != nullptr);
        CHECK(number->text == "17");
        CHECK(reach_of(number->at, drawn.drawing.size) < 0);
        for (const auto& item : plain.drawing.items)
            if (const auto* label = std::get_if<Label>(&item)) {
                const double far = std::hypot((label->at.x - number->at.x).value, (label->at.y - number->at.y).value);
                if (far < 8) ++hidden;
            }
    }
    CHECK(hidden == 0);
}

TEST_CASE(
    "a fitting that is gone is drawn dashed all over, without a ring; of a strand that parted nobody says which") {
    const auto lines = [](const Schematic& drawn) {
        std::pair<std::size_t, std::size_t> whole_and_dashed;
        for (const auto& item : drawn.drawing.items)
            if (const auto* shape = std::get_if<Shape>(&item); shape && shape->stroke && shape->stroke->width > 0.4_pt)
                ++(shape->stroke->dash.empty() ? whole_and_dashed.first : whole_and_dashed.second);
        return whole_and_dashed;
    };
    Schematic gone = *schematic("toggle", words);
    const auto before = lines(gone);
    CHECK(before.first > 5);
    mark_signs(gone, survey::Verdict::rectify, 24, {{"eye", "eye", trade::Shows::gone, true}}, words);
    const auto after = lines(gone);
    CHECK(after.second == before.first + before.second);
    CHECK(after.first <= 3);  // the leader, and the number's shape
    Schematic there = *schematic("toggle", words);
    mark_signs(there, survey::Verdict::rectify, 24, {{"eye", "eye", trade::Shows::bent, false}}, words);
    CHECK(lines(there).first > before.first);

    const Schematic rope = *schematic("wire-rope", words);
    CHECK(!spot_of(rope, {"rope-strands", "rope-strands", trade::Shows::broken}, words).named);
    CHECK(spot_of(rope, {"rope-strands", "lay", trade::Shows::broken}, words).named);
    CHECK(spot_of(rope, {"rope-strands", "rope-strands", trade::Shows::rust}, words).named);
}
