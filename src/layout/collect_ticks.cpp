#include <algorithm>
#include <memory>

#include "drawing/paths.hpp"
#include "layout/collect.hpp"

namespace rigdeed::layout {
namespace {

using document::TickRow;
using document::TickTable;

constexpr Points gap_between{8};
constexpr Points number_width{32};
constexpr Points pass_box{26};
constexpr Points photo_box{48};
constexpr Points note_width{66};
constexpr Points least_row{42};
constexpr Points band_height{22};
constexpr Points code_margin{11};  // four modules of a code of 57 points
constexpr Points sign_box{8.5};
constexpr std::size_t most_lines_of_signs = 2;
constexpr Points room_for_names{33};  ///< where these take more, signs have one line

/// Where the columns of a tick table begin, from the right edge inwards: the words take what is left.
struct Columns {
    explicit Columns(Points width)
        : note(width - note_width),
          close(note - gap_between - photo_box),
          far(close - gap_between * 0.75 - photo_box),
          down(far - gap_between * 1.25 - pass_box),
          up(down - gap_between - pass_box),
          words(number_width),
          words_width(up - gap_between * 1.25 - number_width) {}

    Points note, close, far, down, up, words, words_width;
};

class TickCollector {
 public:
    TickCollector(const TickTable& table, const Setter& setter, Slabs& slabs)
        : table_(table), setter_(setter), slabs_(slabs), at_(setter.width()) {}

    void run() {
        for (const TickTable::Station& station : table_.stations) {
            const Tagged element = setter_.tagged("Table");
            const auto head = std::make_shared<const Slab>(band(station));
            slabs_.push_back(*head);
            for (const TickRow& one : station.rows) {
                if (one.place) {
                    slabs_.push_back(codes(*one.place));
                    slabs_.back().head = head;
                }
                slabs_.push_back(row(one));
                slabs_.back().head = head;
            }
        }
    }

 private:
    Slab band(const TickTable::Station& station) const {
        Slab slab;
        slab.before = 5_pt;
        slab.height = band_height;
        slab.keep_with_next = true;
        slab.entry = Entry{{}, station.name, 1};
        setter_.filled_box(slab, {{0_pt, 0_pt}, {setter_.width(), band_height}}, drawing::black_10);
        const Tagged scope = setter_.tagged("TR");
        const Points baseline = 15_pt;
        empty_cell("TH");
        {
            const Tagged cell = setter_.tagged("TH");
            const Points name = setter_.line(slab, {6_pt, baseline}, station.name, look::band);
            const Points asked = setter_.measure(station.question, look::tick_line);
            const Points room = at_.up - gap_between * 1.25 - name - 20_pt;
            const Points line = std::min(room - asked - 4_pt, 90_pt);
            const Points left = at_.up - gap_between * 1.25 - line;
            if (line > 24_pt) {
                setter_.line(slab, {left - 4_pt - asked, baseline}, station.question, look::tick_line);
                setter_.rule(slab, {left, 18_pt}, line, 0.6_pt);
            }
        }
        head(slab, at_.up + pass_box * 0.5, pass_box + gap_between * 0.5, table_.heads.up, look::tick_code_bold);
        head(slab, at_.down + pass_box * 0.5, pass_box + gap_between * 0.5, table_.heads.down, look::tick_code_bold);
        head(slab, at_.far + photo_box * 0.5, photo_box, table_.heads.far, look::tick_code);
        head(slab, at_.close + photo_box * 0.5, photo_box, table_.heads.close, look::tick_code);
        head(slab, at_.note + note_width * 0.5, note_width, table_.heads.note, look::tick_code);
        return slab;
    }

    /// One code at each end: a photo of one of them says which pass it is.
    Slab codes(const document::PlaceCodes& place) const {
        Slab slab;
        slab.keep_with_next = true;
        slab.height = place.up.size.height + code_margin * 2.0;
        const Tagged scope = setter_.tagged("TR");
        const Points right = setter_.width() - place.down.size.width - code_margin;
        const Points words_left = code_margin * 2.0 + place.up.size.width;
        const Points words_width = right - code_margin - words_left;
        Points y = slab.height * 0.5 - 24_pt;
        // As many cells as every row of the table has.
        {
            const Tagged cell = setter_.tagged("TD");
            setter_.drawing(slab, {code_margin, code_margin}, place.up);
        }
        {
            const Tagged cell = setter_.tagged("TH");
            y += setter_.text(slab, {words_left, y}, place.title, look::tick_title, words_width);
            y += setter_.text(slab, {words_left, y}, place.hint, look::tick_line, words_width);
            setter_.line(slab, {words_left, slab.height - code_margin}, place.up_word, look::tick_code_bold);
            setter_.line_right(slab, {words_left + words_width, slab.height - code_margin}, place.down_word,
                               look::tick_code_bold);
        }
        for (int empty = 0; empty < 4; ++empty) empty_cell("TD");
        {
            const Tagged cell = setter_.tagged("TD");
            setter_.drawing(slab, {right, code_margin}, place.down);
        }
        setter_.rule(slab, {0_pt, slab.height}, setter_.width(), look::hair, drawing::black_62);
        return slab;
    }

    void empty_cell(const char* type) const { const Tagged cell = setter_.tagged(type); }

    void head(Slab& slab, Points centre, Points width, const std::string& words, Style style) const {
        const Tagged cell = setter_.tagged("TH");
        while (style.size > 6_pt && setter_.measure(words, style) > width) style.size -= 0.25_pt;
        setter_.line_centred(slab, {centre, 15_pt}, words, style);
    }

    Slab row(const TickRow& one) const {
        Slab slab;
        const Tagged scope = setter_.tagged("TR");
        number(slab, one.number);
        slab.height = std::max(words(slab, one) + 2.5_pt, least_row);
        for (const auto& [x, width, known] :
             {std::tuple(at_.up, pass_box, &one.up), std::tuple(at_.down, pass_box, &one.down),
              std::tuple(at_.far, photo_box, &one.far), std::tuple(at_.close, photo_box, &one.close)})
            box(slab, {{x, (slab.height - pass_box) * 0.5}, {width, pass_box}}, *known);
        empty_cell("TD");
        for (const double down : {0.46, 0.86}) setter_.rule(slab, {at_.note, slab.height * down}, note_width, 0.5_pt);
        setter_.rule(slab, {0_pt, slab.height}, setter_.width(), look::hair, drawing::black_62);
        return slab;
    }

    void number(Slab& slab, int number) const {
        const Tagged cell = setter_.tagged("TD");
        Style style = look::tick_number;
        const std::string text = std::to_string(number);
        while (style.size > 9_pt && setter_.measure(text, style) > number_width - 4_pt) style.size -= 0.5_pt;
        setter_.line(slab, {0_pt, 16_pt}, text, style);
    }

    /// Name, stay and height in one line if it holds them all, else the stay beneath, and the signs; how far down they
    /// reach.
    Points words(Slab& slab, const TickRow& one) const {
        const Tagged cell = setter_.tagged("TD");
        const std::string all = one.whose.empty() ? one.height : one.whose + ", " + one.height;
        const Points title = setter_.measure(one.title, look::tick_title) + 6_pt;
        const auto fits = [&](const std::string& more) {
            return title + setter_.measure(more, look::tick_line) <= at_.words_width;
        };
        const std::string behind = fits(all) ? all : fits(one.height) ? one.height : std::string();
        const std::string beneath = behind == all ? std::string() : behind.empty() ? all : one.whose;
        Points y = 2_pt;
        const Points baseline = y + baseline_in(look::tick_title);
        y += setter_.text(slab, {at_.words, y}, one.title, look::tick_title, at_.words_width);
        setter_.line(slab, {at_.words + title, baseline}, behind, look::tick_line);
        y += setter_.text(slab, {at_.words, y}, beneath, look::tick_line, at_.words_width);
        if (!one.before.empty()) y += setter_.text(slab, {at_.words, y}, one.before, look::tick_line, at_.words_width);
        return signs(slab, y + 0.5_pt, one.signs, y > room_for_names ? 1 : most_lines_of_signs);
    }

    Points signs(Slab& slab, Points y, const std::vector<TickRow::Sign>& all, std::size_t lines) const {
        Points x = at_.words;
        std::size_t line = 1;
        for (const TickRow::Sign& one : all) {
            const Style& style = one.bars ? look::tick_code_bold : look::tick_code;
            const Points width = sign_box + 3_pt + setter_.measure(one.code, style);
            if (x > at_.words && x + width > at_.words + at_.words_width) {
                if (++line > lines) break;
                x = at_.words;
                y += style.leading;
            }
            setter_.framed_box(slab, {{x, y + 1.2_pt}, {sign_box, sign_box}}, one.bars ? 1.6_pt : 0.6_pt,
                               drawing::black);
            setter_.line(slab, {x + sign_box + 3_pt, y + baseline_in(style)}, one.code, style);
            x += width + 9_pt;
        }
        return all.empty() ? y : y + look::tick_code.leading;
    }

    /// A box to fill in, or in its place what is known.
    void box(Slab& slab, const Box& place, const std::string& known) const {
        const Tagged cell = setter_.tagged("TD");
        if (known.empty()) return setter_.framed_box(slab, place, look::rule, drawing::black);
        Style style = look::tick_line;
        while (style.size > 5_pt && setter_.measure(known, style) > place.size.width) style.size -= 0.25_pt;
        setter_.line_centred(slab, {place.centre().x, place.centre().y + 3_pt}, known, style);
    }

    const TickTable& table_;
    const Setter& setter_;
    Slabs& slabs_;
    Columns at_;
};

}  // namespace

void collect_one(const TickTable& block, const Setter& setter, Slabs& slabs) {
    TickCollector(block, setter, slabs).run();
}

}  // namespace rigdeed::layout
