#include "drawing/elevation.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "drawing/mark_places.hpp"
#include "drawing/palette.hpp"
#include "drawing/paths.hpp"
#include "drawing/verdict_shape.hpp"

namespace rigdeed::drawing {
namespace {

constexpr double points_per_metre = 72 / 0.0254;
constexpr Points mark_size = elevation_mark;
constexpr int largest_scale = 40, smallest_scale = 2000, scale_step = 5;
constexpr Points foot_of_one{20};      ///< below the waterline: water and words
constexpr Points foot_of_several{29};  ///< and the sides beneath the masts' names
constexpr Points head_room{8};
constexpr double above_masts = 0.3;  ///< metres
constexpr Points right_margin{20};

Points left_margin(bool with_scale) { return with_scale ? 34_pt : 12_pt; }
Points between_views(std::size_t views) { return views > 1 ? 26_pt : 30_pt; }

class Drafter {
 public:
    Drafter(const RigGeometry& rig, const ElevationOptions& options, const ElevationWords& words)
        : rig_(rig), options_(options), words_(words) {
        result_.drawing.size = options.size;
        result_.drawing.alternative = words.alternative;
        fit();
    }

    Elevation draw(const std::vector<ElevationMark>& marks) {
        if (options_.air) air();
        if (options_.aloft_unseen)
            stroke(
                hatch(Box{{0_pt, 0_pt}, {options_.size.width, result_.waterline - metre_ * (rig_.deck * 1.9)}}, 6_pt),
                0.35, black_35);
        if (options_.scale) height_scale();
        if (options_.side_view) side();
        if (options_.from_astern) astern();
        waterline();
        place_marks(marks);
        return std::move(result_);
    }

 private:
    // -- scale and where the views stand

    double side_length() const { return rig_.length + rig_.bowsprit; }

    /// Each mast has its view from astern; of a single fitting the one it belongs to.
    std::vector<const MastLine*> masts_astern() const {
        std::vector<const MastLine*> masts;
        if (!options_.from_astern) return masts;
        for (const MastLine& mast : rig_.masts)
            if (options_.only_mast_of == nullptr || rig_.masts.size() == 1 ||
                mast.id == mast_of(*options_.only_mast_of))
                masts.push_back(&mast);
        if (masts.empty()) masts.push_back(&rig_.masts.front());
        return masts;
    }

    std::string mast_of(const survey::Fitting& fitting) const {
        if (const StayLine* line = fitting.stay.empty() ? nullptr : rig_.line_of(fitting.stay))
            return rig_.mast(line->stay->mast).id;
        return rig_.mast(fitting.mast).id;
    }

    void fit() {
        const auto masts = masts_astern();
        const double views = static_cast<double>(masts.size());
        const double gaps = views - (options_.side_view ? 0 : 1);
        const double wide = options_.side_view ? side_length() : 0;
        foot_ = masts.size() > 1 ? foot_of_several : foot_of_one;
        const Points margin = left_margin(options_.scale);
        const Points between = between_views(masts.size());
        const Points room_x = options_.size.width - margin - right_margin - between * gaps;
        const Points room_y = options_.size.height - foot_ - head_room;
        for (int one = largest_scale; one <= smallest_scale; one += scale_step) {
            result_.scale_one_to = one;
            metre_ = Points{points_per_metre / one};
            if (metre_ * (wide + rig_.beam * views) <= room_x && metre_ * (rig_.top() + above_masts) <= room_y) break;
        }
        result_.waterline = options_.size.height - foot_;
        const Points share = (room_x - metre_ * (wide + rig_.beam * views)) * (1.0 / (1.5 + gaps));
        stem_ = margin + share * 0.5 + metre_ * rig_.bowsprit;
        Points x = options_.side_view ? stem_ + metre_ * rig_.length + share + between : margin + share * 0.5;
        for (const MastLine* mast : masts) {
            keel_lines_.push_back({mast, x + metre_ * (rig_.beam * 0.5)});
            x += metre_ * rig_.beam + share + between;
        }
        if (!options_.side_view && masts.size() == 1) keel_lines_.front().x = options_.size.width * 0.5;
        else if (masts.size() == 1)  // the words beneath need their room, too
            keel_lines_.front().x = std::min(keel_lines_.front().x, options_.size.width - words_reach() - 20_pt);
    }

    /// How far from the middle "port" and "starboard" stand.
    Points words_reach() const {
        return std::max(metre_ * (rig_.beam * 0.5) + 6_pt, keel_lines_.size() > 1 ? 30_pt : 46_pt);
    }

    Point from_side(const Place& place) const {
        return {stem_ + metre_ * place.x, result_.waterline - metre_ * place.z};
    }
    Point from_behind(const Place& place, Points keel) const {
        return {keel + metre_ * place.y, result_.waterline - metre_ * place.z};
    }

    // -- strokes

    void stroke(Path path, double width, Colour colour = black, double alpha = 1) {
        result_.drawing.items.push_back(Shape{std::move(path), Stroke{Points{width}, colour, {}, true}, {}, alpha});
    }
    void fill(Path path, Colour colour) { result_.drawing.items.push_back(Shape{std::move(path), {}, colour, 1}); }
    void label(Point at, const std::string& text, Points size, Colour colour, Anchor anchor, bool bold = false) {
        const Points width = size * (0.56 * static_cast<double>(count_letters(text)));  // a little generous
        const Points left = at.x - (anchor == Anchor::left ? 0_pt : anchor == Anchor::right ? width : width * 0.5);
        if (!text.empty()) word_boxes_.push_back({{left, at.y - size * 0.75}, {width, size}});
        result_.drawing.items.push_back(Label{at, text, size, bold, colour, anchor});
    }
    void seen(Point from, Point to) { lines_.push_back({from, to}); }

    /// Air from the tint to white in bands, and a strip of water.
    void air() {
        constexpr int bands = 12;
        const Points band = result_.waterline / bands;
        for (int i = 0; i < bands; ++i) {
            const double t = static_cast<double>(i) / (bands - 1);
            const auto mix = [&](int a) { return static_cast<unsigned char>(a + std::lround((255 - a) * t)); };
            fill(rectangle({{0_pt, band * i}, {options_.size.width, band + (i + 1 < bands ? 0.3_pt : 0_pt)}}),
                 {mix(0xE3), mix(0xF1), mix(0xFB)});
        }
        fill(rectangle({{0_pt, result_.waterline}, {options_.size.width, 5_pt}}), {0xCF, 0xE8, 0xF8});
        fill(rectangle({{0_pt, result_.waterline + 5_pt}, {options_.size.width, 4_pt}}), {0xEA, 0xF5, 0xFC});
    }

    void waterline() {
        stroke(line({0_pt, result_.waterline}, {options_.size.width, result_.waterline}), 0.9);
        const Points y = result_.waterline + 17_pt;
        if (options_.side_view)
            label({stem_ + metre_ * (rig_.length * 0.5), y}, words_.side_view, 7.25_pt, black_62, Anchor::middle);
        const Points reach = words_reach();
        const Points sides = keel_lines_.size() > 1 ? y + 9_pt : y;  // outer words under the masts' names
        for (const auto& [mast, x] : keel_lines_) {
            const bool several = keel_lines_.size() > 1;
            const auto known = words_.masts.find(mast->id);
            if (mast == keel_lines_.front().mast)
                label({x - reach, sides}, words_.port, 7.25_pt, black, Anchor::middle, true);
            label({x, y}, several && known != words_.masts.end() ? known->second : words_.from_astern, 7.25_pt,
                  black_62, Anchor::middle);
            if (mast == keel_lines_.back().mast)
                label({x + reach, sides}, words_.starboard, 7.25_pt, black, Anchor::middle, true);
        }
    }

    void height_scale() {
        for (int z = 0; z <= static_cast<int>(rig_.top() + 0.5); ++z) {
            const Points y = result_.waterline - metre_ * z;
            stroke(line({0_pt, y}, {z % 5 == 0 ? 7_pt : 4_pt, y}), 0.5, black_62);
            if (z > 0 && z % 5 == 0)
                label({9_pt, y + 2.4_pt}, std::to_string(z) + " " + words_.metre, 6.75_pt, black_62, Anchor::left);
        }
    }

    // -- the two views

    void side() {
        const double l = rig_.length, d = rig_.deck;
        const auto at = [&](double x, double z) { return from_side({x, 0, z}); };
        Path hull{MoveTo{at(0, d * 1.18)},
                  CurveTo{at(0.02 * l, d * 0.7), at(0.05 * l, d * 0.2), at(0.09 * l, 0)},
                  LineTo{at(0.9 * l, 0)},
                  CurveTo{at(0.95 * l, d * 0.1), at(0.98 * l, d * 0.4), at(l, d * 0.95)},
                  CurveTo{at(0.7 * l, d * 0.86), at(0.35 * l, d * 0.92), at(0, d * 1.18)},
                  Close{}};
        fill(hull, white);
        stroke(hull, 0.9);
        seen(at(0, d * 1.18), at(0.09 * l, 0));
        seen(at(0, d * 1.18), at(0.35 * l, d * 0.95));
        seen(at(0.35 * l, d * 0.95), at(l, d * 0.95));
        seen(at(0.95 * l, 0), at(l, d * 0.95));
        if (rig_.bowsprit > 0) stroke(line(at(-rig_.bowsprit, d * 1.22), at(0.04 * l, d * 1.15)), 1.7);
        for (const MastLine& mast : rig_.masts)
            draw_mast(from_side({mast.x, 0, mast.foot}), from_side({mast.x, 0, mast.top}));
        for (const BoomLine& boom : rig_.booms) {
            const MastLine& mast = rig_.mast(boom.mast);
            const Point neck = from_side({mast.x, 0, boom.z});
            const Point end = from_side({mast.x + rig_.length * 0.3, 0, boom.z + 0.1});
            stroke(line({neck.x + half_mast(), neck.y}, end), 1.1, black_62);
            seen(neck, end);
        }
        for (const Gear& one : rig_.gear) draw_gear(one, from_side({rig_.mast(one.mast).x, 0, one.z}), false);
        for (const StayLine& stay : rig_.stays)
            if (stay.stay->side == survey::Side::centre ||
                std::abs(stay.points.front().x - stay.points.back().x) > rig_.length * 0.03)
                draw_stay(
                    stay, [&](const Place& p) { return from_side(p); }, stay.stay->side == survey::Side::starboard);
    }

    void astern() {
        for (const auto& [mast, x] : keel_lines_) astern(*mast, x);
    }

    void astern(const MastLine& mast, Points keel) {
        const double half = rig_.beam * 0.5, d = rig_.deck;
        const auto at = [&](double y, double z) { return from_behind({0, y, z}, keel); };
        Path hull{MoveTo{at(-half, d)},
                  CurveTo{at(-half * 0.98, d * 0.4), at(-half * 0.86, d * 0.05), at(-half * 0.7, 0)},
                  LineTo{at(half * 0.7, 0)}, CurveTo{at(half * 0.86, d * 0.05), at(half * 0.98, d * 0.4), at(half, d)},
                  Close{}};
        fill(hull, white);
        stroke(hull, 0.9);
        for (const double side : {-1.0, 1.0}) seen(at(side * half, d), at(side * half * 0.7, 0));
        seen(at(-half, d), at(half, d));
        draw_mast(at(0, mast.foot), at(0, mast.top));
        for (const Gear& one : rig_.gear)
            if (rig_.masts.size() == 1 || one.mast == mast.id) draw_gear(one, at(0, one.z), true);
        for (const SpreaderLine& spreader : rig_.spreaders) {
            if (spreader.mast != mast.id && rig_.masts.size() > 1) continue;
            const Point root = at(0, spreader.z - spreader.half * 0.08);
            for (const double side : {-1.0, 1.0}) {
                const Point tip = at(side * spreader.half, spreader.z);
                stroke(line(root, tip), 1.1);
                seen(root, tip);
            }
        }
        for (const StayLine& stay : rig_.stays)
            if (stay.stay->side != survey::Side::centre &&
                (rig_.masts.size() == 1 || rig_.mast(stay.stay->mast).id == mast.id))
                draw_stay(
                    stay, [&](const Place& p) { return from_behind(p, keel); }, false);
    }

    Points half_mast() const { return std::max(metre_ * 0.08, 1.1_pt); }

    void draw_mast(Point foot, Point top) {
        const Points half = half_mast();
        fill(rectangle({{foot.x - half, top.y}, {half * 2, foot.y - top.y}}), white);
        stroke(line({foot.x - half, foot.y}, {foot.x - half, top.y}), 0.6);
        stroke(line({foot.x + half, foot.y}, {foot.x + half, top.y}), 0.6);
        fill(rectangle({{foot.x - half * 1.8, top.y - 1.6_pt}, {half * 3.6, 3.2_pt}}), black);
        seen(foot, top);
    }

    /// Signs for what stands there, not to scale: a lamp's lens, a wind sensor's arm and vane, an aerial's whip.
    void draw_gear(const Gear& gear, Point at, bool astern) {
        const double out = astern ? gear.side : 0;
        switch (gear.is) {
            case GearIs::lamp: {
                const Point lens{at.x + (half_mast() + 1.4_pt) * (astern ? out : -1.0), at.y - 1.4_pt};
                fill(circle(lens, 1.4_pt), white);
                stroke(circle(lens, 1.4_pt), 0.5);
                return;
            }
            case GearIs::wind: {
                const Point tip{at.x + 5_pt * (astern ? out : -1.0), at.y - 5_pt};
                stroke({MoveTo{at}, LineTo{tip}, MoveTo{{tip.x - 2_pt, tip.y - 1.4_pt}}, LineTo{{tip.x + 2_pt, tip.y}},
                        LineTo{{tip.x - 2_pt, tip.y + 1.4_pt}}},
                       0.5);
                return;
            }
            case GearIs::aerial: {
                const Points x = at.x + (half_mast() + 0.8_pt) * (astern ? out : 1.0);
                stroke(line({x, at.y}, {x, at.y - 8_pt}), 0.5);
                return;
            }
        }
    }

    /// Of a pair, the side view shows the starboard one behind the port one: drawn once.
    template <class View>
    void draw_stay(const StayLine& stay, const View& view, bool behind) {
        Path path;
        std::optional<Point> last;
        for (const Place& place : stay.points) {
            const Point at = view(place);
            if (path.empty()) path.push_back(MoveTo{at});
            else path.push_back(LineTo{at});
            if (last) seen(*last, at);
            last = at;
        }
        const bool renewed = options_.renewed.contains(stay.stay->id);
        if (renewed && !behind) stroke(path, 4.4, vermilion, 0.32);
        if (behind) return;
        if (stay.furled_sail) {
            stroke(path, 1.7);
            stroke(path, 1.0, white);
        }
        stroke(path, renewed ? 0.95 : 0.6);
    }

    // -- marks

    Point spot_of(const ElevationMark& mark, bool& astern) const {
        const Place place = rig_.place_of(*mark.fitting);
        astern = options_.from_astern && (!options_.side_view || seen_from_astern(rig_, *mark.fitting));
        if (!astern) return from_side(place);
        const std::string mast = mast_of(*mark.fitting);
        Points keel = keel_lines_.front().x;
        for (const auto& [line, x] : keel_lines_)
            if (line->id == mast) keel = x;
        return from_behind(place, keel);
    }

    /// Each view reaches half way to the next.
    std::vector<std::pair<Points, Points>> views_of_spots(const std::vector<ElevationMark>& marks) const {
        const double half = rig_.beam * 0.5;
        const Points everywhere = options_.size.width;
        std::vector<Points> edges{0_pt};
        Points end = options_.side_view ? stem_ + metre_ * rig_.length : 0_pt;
        for (std::size_t i = 0; i < keel_lines_.size(); ++i) {
            if (i > 0 || options_.side_view) edges.push_back((end + keel_lines_[i].x - metre_ * half) * 0.5);
            end = keel_lines_[i].x + metre_ * half;
        }
        edges.push_back(everywhere);
        std::vector<std::pair<Points, Points>> views;
        for (std::size_t i = 0; i < marks.size(); ++i) {
            std::size_t view = 0;
            if (result_.spots[i].from_astern)
                while (view + 2 < edges.size() && result_.spots[i].at.x > edges[view + 1]) ++view;
            views.emplace_back(edges[view], edges[view + 1]);
        }
        return views;
    }

    void place_marks(const std::vector<ElevationMark>& marks) {
        for (const ElevationMark& mark : marks) {
            ElevationSpot spot;
            spot.at = spot_of(mark, spot.from_astern);
            if (spot.from_astern) {
                const double y = rig_.place_of(*mark.fitting).y;
                spot.out = y < -0.02 ? -1 : y > 0.02 ? 1 : 0;
            }
            result_.spots.push_back(spot);
        }
        const Points left = options_.scale ? 8_pt + mark_size * 1.3 : mark_size * 1.5;  // clear of the ticks
        const Box frame{{left, mark_size * 1.5},
                        {options_.size.width - mark_size * 1.5 - left, result_.waterline - mark_size * 1.5}};
        const std::vector<Point> shapes =
            places_of_marks(result_.spots, {frame, lines_, word_boxes_, mark_size, views_of_spots(marks)});
        result_.shapes = shapes;
        for (std::size_t i = 0; i < marks.size(); ++i)
            for (const Segment2& one : partings({result_.spots[i].at, shapes[i]}, lines_))
                stroke(line(one.from, one.to), 2.2, white);
        for (std::size_t i = 0; i < marks.size(); ++i) stroke(line(result_.spots[i].at, shapes[i]), 0.55);
        for (std::size_t i = 0; i < marks.size(); ++i) fill(circle(result_.spots[i].at, 1.5_pt), black);
        for (std::size_t i = 0; i < marks.size(); ++i) {
            fill(circle(shapes[i], mark_size * 1.3), white);
            add_verdict_shape(result_.drawing, marks[i].verdict, shapes[i], mark_size, marks[i].number);
        }
    }

    const RigGeometry& rig_;
    const ElevationOptions& options_;
    const ElevationWords& words_;
    Elevation result_;
    Points metre_;
    Points stem_;
    Points foot_{foot_of_one};
    struct KeelLine {
        const MastLine* mast = nullptr;
        Points x;
    };
    std::vector<KeelLine> keel_lines_;  ///< of the views from astern
    std::vector<Segment2> lines_;
    std::vector<Box> word_boxes_;
};

}  // namespace

Size room_of(const RigGeometry& rig, int scale_one_to) {
    const Points metre{points_per_metre / scale_one_to};
    const std::size_t masts = rig.masts.size();
    return {left_margin(true) + right_margin + between_views(masts) * static_cast<double>(masts) +
                metre * (rig.length + rig.bowsprit + rig.beam * static_cast<double>(masts)),
            (masts > 1 ? foot_of_several : foot_of_one) + head_room + metre * (rig.top() + above_masts)};
}

bool seen_from_astern(const RigGeometry& rig, const survey::Fitting& fitting) {
    return std::abs(rig.place_of(fitting).y) > 0.02 || (fitting.side && *fitting.side != survey::Side::centre);
}

Elevation elevation(const RigGeometry& rig, const std::vector<ElevationMark>& marks, const ElevationOptions& options,
                    const ElevationWords& words) {
    return Drafter(rig, options, words).draw(marks);
}

}  // namespace rigdeed::drawing
