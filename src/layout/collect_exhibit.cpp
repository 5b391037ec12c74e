#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "document/measures.hpp"
#include "drawing/paths.hpp"
#include "layout/captions.hpp"
#include "layout/collect.hpp"

namespace rigdeed::layout {
namespace {

constexpr Points schematic_column = document::measures::schematic_width;
constexpr Points gap = document::measures::photo_gap;
constexpr Points where_width = document::measures::place_width;
constexpr Points small_photo = document::measures::other_photo;

drawing::Stroke pen(Points width, Colour colour) { return {width, colour, {}, true}; }

/// Sets one exhibit into one slab: it never breaks, so that no photo leaves its caption.
class ExhibitSetter {
 public:
    ExhibitSetter(const document::Exhibit& block, const Setter& setter) : block_(block), setter_(setter) {}

    Slab set() {
        slab_.before = 5_pt;
        Points left = 0_pt;
        if (block_.in_one_row) {
            side_by_side();
            return std::move(slab_);
        }
        if (block_.schematic) {
            setter_.drawing(slab_, {0_pt, 8_pt}, *block_.schematic);
            lowest(8_pt + block_.schematic->size.height);
            left = schematic_column + gap;
        }
        if (block_.schematic) beside_schematic(left);
        else in_one_row();
        return std::move(slab_);
    }

 private:
    void lowest(Points y) { slab_.height = std::max(slab_.height, y + 4_pt); }

    Points caption(Point top, const document::Picture& photo, Points width) {
        return set_caption(slab_, setter_, top, photo, width);
    }

    /// Photos in a row, frames of the same height; where the last one came to stand.
    Box photo_row(Point top, const std::vector<document::Picture>& photos, Points width) {
        Points captions;
        for (const document::Picture& photo : photos)
            captions = std::max(captions, caption_height(setter_, photo, width));
        Box frame;
        for (std::size_t i = 0; i < photos.size(); ++i) {
            const Points x = top.x + (width + gap) * static_cast<double>(i);
            caption({x, top.y}, photos[i], width);
            frame = {{x, top.y + captions + 2_pt}, {width, width * 0.75}};
            setter_.photo(slab_, frame, photos[i]);
            if (&photos != &block_.photos) continue;
            for (const document::Exhibit::Pointer& one : block_.pointers)
                if (one.photo == i) pointer(one, picture_in(frame, photos[i]));
        }
        lowest(frame.bottom());
        return frame;
    }

    void beside_schematic(Points left) {
        const Points width = (setter_.width() - left - gap) * 0.5;
        Points y = 0_pt;
        if (!block_.photos.empty()) {
            const Box close = photo_row({left, 0_pt}, block_.photos, width);
            y = close.bottom() + 10_pt;
            if (block_.detail) detail(close, y);
            else rings(close);
        }
        const Points words = y + block_.where.size.height + 2_pt;
        setter_.drawing(slab_, {left, y}, block_.where);
        lowest(words + caption({left, words}, block_.where_words, where_width));
        if (block_.others.empty()) return;
        if (block_.detail) under_schematic();
        else photo_row({left + where_width + gap * 2, y}, block_.others, small_photo);
    }

    /// The other pass's pair and last time's picture, one above the other or two side by side.
    void under_schematic() {
        Points y = 8_pt + block_.schematic->size.height + 6_pt;
        if (block_.others_in_row) {
            for (std::size_t i = 0; i < block_.others.size(); i += 2) {
                const auto at = block_.others.begin() + static_cast<std::ptrdiff_t>(i);
                const std::vector<document::Picture> two(at, at + (i + 1 < block_.others.size() ? 2 : 1));
                y = photo_row({0_pt, y}, two, (schematic_column - gap) * 0.5).bottom() + 5_pt;
            }
            return;
        }
        for (const document::Picture& photo : block_.others) {
            y += caption({0_pt, y}, photo, schematic_column) + 2_pt;
            setter_.photo(slab_, {{0_pt, y}, {small_photo, small_photo * 0.75}}, photo);
            y += small_photo * 0.75 + 5_pt;
        }
        lowest(y);
    }

    /// Drawing, photos and circle in one row, the other pass's pair small beneath.
    void side_by_side() {
        Points left = 0_pt;
        if (block_.schematic) {
            setter_.drawing(slab_, {0_pt, 2_pt}, *block_.schematic);
            lowest(2_pt + block_.schematic->size.height);
            left = schematic_column + gap;
        }
        constexpr Points row_photo{100};
        Points y = 0_pt;
        if (!block_.photos.empty()) {
            const Box close = photo_row({left, 0_pt}, block_.photos, row_photo);
            y = close.bottom() + 6_pt;
            if (block_.detail) detail(close, 4_pt);
            else rings(close);
        }
        for (std::size_t i = 0; i < block_.others.size(); i += 2) {  // a third would stand under the circle
            Points below = y;
            for (std::size_t k = i; k < std::min(i + 2, block_.others.size()); ++k) {
                constexpr Points thumb{44};
                const Points x = left + (row_photo + gap) * static_cast<double>(k - i);
                setter_.photo(slab_, {{x, y + 2_pt}, {thumb, thumb * 0.75}}, block_.others[k]);
                const Points words = caption({x + thumb + 4_pt, y}, block_.others[k], row_photo - thumb - 4_pt);
                below = std::max(below, y + std::max(words, thumb * 0.75 + 2_pt));
            }
            lowest(below);
            y = below + 4_pt;
        }
    }

    /// Nothing to draw of the fitting: its photos and its place in one row.
    void in_one_row() {
        const Points left = where_width + gap * 2;
        setter_.drawing(slab_, {0_pt, 0_pt}, block_.where);
        const Points words = block_.where.size.height + 2_pt;
        lowest(words + caption({0_pt, words}, block_.where_words, where_width));
        const Points width = std::min((setter_.width() - left - gap) * 0.5, 122_pt);
        if (!block_.photos.empty()) photo_row({left, 0_pt}, block_.photos, width);
    }

    /// The frame in which the picture stands, within its 4:3 place.
    static Box picture_in(const Box& frame, const document::Picture& photo) {
        if (photo.width <= 0 || photo.height <= 0) return frame;
        const double scale = std::min(frame.size.width.value / photo.width, frame.size.height.value / photo.height);
        const Size size{Points{photo.width * scale}, Points{photo.height * scale}};
        return {{frame.left() + (frame.size.width - size.width) * 0.5,
                 frame.top() + (frame.size.height - size.height) * 0.5},
                size};
    }

    Point place_of(const document::Exhibit::Ring& ring, const Box& frame) const {
        const Box picture = picture_in(frame, block_.photos.back());
        return {picture.left() + picture.size.width * ring.x, picture.top() + picture.size.width * ring.y};
    }

    Points radius_of(const document::Exhibit::Ring& ring, const Box& frame) const {
        return std::max(picture_in(frame, block_.photos.back()).size.width * ring.radius, 4_pt);
    }

    void shape(drawing::Path path, std::optional<drawing::Stroke> stroke, std::optional<Colour> fill = {}) {
        slab_.items.push_back(PlacedShape{{std::move(path), std::move(stroke), fill, 1}});
    }

    /// From end to end of what was measured, with its value in a tag beside the middle.
    void pointer(const document::Exhibit::Pointer& one, const Box& picture) {
        const auto at = [&](double x, double y) {
            return Point{picture.left() + picture.size.width * x, picture.top() + picture.size.width * y};
        };
        const Point from = at(one.x, one.y), to = at(one.to_x, one.to_y);
        const double dx = (to.x - from.x).value, dy = (to.y - from.y).value, length = std::hypot(dx, dy);
        if (length <= 0) return;
        drawing::Path path = drawing::line(from, to);
        for (const auto& [end, way] : {std::pair(from, 1.0), {to, -1.0}}) {
            const double ux = dx / length * way, uy = dy / length * way, head = std::min(4.0, length * 0.4);
            const auto barb = [&](double out) {
                return Point{end.x + Points{ux * head - uy * out}, end.y + Points{uy * head + ux * out}};
            };
            path.insert(path.end(), {drawing::MoveTo{barb(1.6)}, drawing::LineTo{end}, drawing::LineTo{barb(-1.6)}});
        }
        shape(path, pen(3_pt, drawing::white));
        shape(path, pen(1.1_pt, drawing::black));
        if (one.words.empty()) return;
        const Size tag{setter_.measure(one.words, look::caption_bold) + 8_pt, 12_pt};
        const double off = 8 + std::abs(dy / length) * tag.width.value * 0.5;
        const double side = dy >= 0 ? 1 : -1;  // below or to the right of a line that runs that way
        const auto clamped = [](double value, Points least, Points most) {
            return Points{std::clamp(value, least.value, std::max(least.value, most.value))};
        };
        const double x = (from.x + to.x).value * 0.5 + dy / length * off * side - tag.width.value * 0.5;
        const double y = (from.y + to.y).value * 0.5 + std::abs(dx / length) * off - tag.height.value * 0.5;
        const Box box{{clamped(x, picture.left() + 1_pt, picture.right() - tag.width - 1_pt),
                       clamped(y, picture.top() + 1_pt, picture.bottom() - tag.height - 1_pt)},
                      tag};
        shape(drawing::rectangle(box), pen(0.5_pt, drawing::black), drawing::white);
        setter_.line(slab_, {box.left() + 4_pt, box.top() + 8.6_pt}, one.words, look::caption_bold);
    }

    void ring(Point centre, Points radius) {
        shape(drawing::circle(centre, radius), pen(3.2_pt, drawing::white));
        shape(drawing::circle(centre, radius), pen(1.3_pt, drawing::black));
    }

    void rings(const Box& close) {
        for (const document::Exhibit::Ring& one : block_.rings) ring(place_of(one, close), radius_of(one, close));
    }

    void detail(const Box& close, Points top) {
        const Point centre{setter_.width() - block_.radius - 1_pt, top + block_.radius};
        tangents(place_of(block_.rings.front(), close), radius_of(block_.rings.front(), close), centre);
        rings(close);
        const Box square{{centre.x - block_.radius, centre.y - block_.radius}, {block_.radius * 2, block_.radius * 2}};
        setter_.photo_in_circle(slab_, square, *block_.detail);
        shape(drawing::circle(centre, block_.radius), pen(1.3_pt, drawing::black));
        if (block_.bar > 0) scale_bar(centre);
        const Points words = square.bottom() + 4_pt;
        const Points x = square.left();
        lowest(words + caption({x, words}, *block_.detail, block_.radius * 2));
    }

    /// Outer tangents from the ring to the circle, 0.6 wide.
    void tangents(Point a, Points ra, Point b) {
        const double dx = (b.x - a.x).value, dy = (b.y - a.y).value;
        const double apart = std::hypot(dx, dy);
        const double lean = std::acos(std::clamp((ra - block_.radius).value / apart, -1.0, 1.0));
        const double along = std::atan2(dy, dx);
        for (const double side : {-1.0, 1.0}) {
            const double angle = along + side * lean;
            const Point from{a.x + ra * std::cos(angle), a.y + ra * std::sin(angle)};
            const Point to{b.x + block_.radius * std::cos(angle), b.y + block_.radius * std::sin(angle)};
            shape(drawing::line(from, to), pen(1.8_pt, drawing::white));
            shape(drawing::line(from, to), pen(0.6_pt, drawing::black));
        }
    }

    void scale_bar(Point centre) {
        const Points length = block_.radius * 2 * block_.bar;
        const Points tag = setter_.measure(block_.bar_words, look::caption_bold) + 8_pt;
        const Points y = centre.y + block_.radius * 0.78;
        const Points x = centre.x - (length + tag + 3_pt) * 0.5;
        shape(drawing::rectangle({{x, y}, {length * 0.5, 4_pt}}), pen(0.5_pt, drawing::black), drawing::white);
        shape(drawing::rectangle({{x + length * 0.5, y}, {length * 0.5, 4_pt}}), pen(0.5_pt, drawing::black),
              drawing::black);
        const Box words{{x + length + 3_pt, y - 4_pt}, {tag, 12_pt}};
        shape(drawing::rectangle(words), pen(0.5_pt, drawing::black), drawing::white);
        setter_.line(slab_, {words.left() + 4_pt, words.top() + 8.6_pt}, block_.bar_words, look::caption_bold);
    }

    const document::Exhibit& block_;
    const Setter& setter_;
    Slab slab_;
};

}  // namespace

void collect_one(const document::Exhibit& block, const Setter& setter, Slabs& slabs) {
    slabs.push_back(ExhibitSetter(block, setter).set());
}

}  // namespace rigdeed::layout
