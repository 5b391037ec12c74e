#include "layout/setter.hpp"

#include <algorithm>
#include <iterator>
#include <set>

#include "base/own_words.hpp"
#include "base/text.hpp"
#include "drawing/paths.hpp"
#include "drawing/verdict_shape.hpp"

namespace rigdeed::layout {
namespace {

drawing::Shape moved(drawing::Shape shape, Point by) {
    drawing::move_by(shape.path, by);
    return shape;
}

/// Units, and what else is nothing without the number before it.
bool follows_number(std::string word) {
    while (!word.empty() && std::string_view(".,;:)").find(word.back()) != std::string_view::npos) word.pop_back();
    static const std::set<std::string, std::less<>> units{
        "mm",   "cm",    "m",   "km",    "in",     "ft",     "mi",    "nmi",    "kN",    "N",   "daN",
        "kgf",  "lbf",   "kip", "kg",    "t",      "lb",     "%",     "°",      "°C",    "°F",  "V",
        "mV",   "W",     "A",   "Ah",    "h",      "s",      "ms",    "µm",     "MP",    "MPa", "GPa",
        "px",   "dpi",   "×",   "N/mm²", "kN·m",   "mm²",    "mm/px", "kN/mm²", "J",     "K",   "years",
        "year", "Jahre", "ans", "años",  "months", "Monate", "mois",  "meses",  "wires", "Uhr"};
    return units.contains(word);
}

/// In the four languages of the reports, as they print dates.
bool is_month(std::string word) {
    while (!word.empty() && std::string_view(".,;:)").find(word.back()) != std::string_view::npos) word.pop_back();
    static const std::set<std::string, std::less<>> months{
        "January", "February",  "March",    "April",    "May",        "June",    "July",      "August",   "September",
        "October", "November",  "December", "Januar",   "Februar",    "März",    "Mai",       "Juni",     "Juli",
        "Oktober", "Dezember",  "janvier",  "février",  "mars",       "avril",   "mai",       "juin",     "juillet",
        "août",    "septembre", "octobre",  "novembre", "décembre",   "enero",   "febrero",   "marzo",    "abril",
        "mayo",    "junio",     "julio",    "agosto",   "septiembre", "octubre", "noviembre", "diciembre"};
    return months.contains(word);
}

/// "octubre" of "3 de octubre de"
std::string bare_month(std::string_view text) {
    const std::vector<std::string> words = split(std::string(text), ' ');
    return words.size() > 1 ? words[words.size() - 2] : std::string();
}

bool stay_together(std::string word, std::string next) {
    word = without_own_words_marks(word), next = without_own_words_marks(next);
    if (word.empty() || next.empty()) return false;
    const auto digit = [](char c) { return c >= '0' && c <= '9'; };
    static const std::set<std::string, std::less<>> before{"×",     "±",     "≤",   "≥",    "<",   ">",    "=",
                                                           "p.",    "S.",    "Nr.", "no.",  "n°",  "item", "Punkt",
                                                           "point", "punto", "⌀",   "pág.", "ISO", "ASTM"};
    static const std::set<std::string, std::less<>> closing{":", ";", "!", "?",
                                                            "»"};  // French sets a blank before them
    if (closing.contains(next) || word == "«" || word.ends_with(" «")) return true;
    const std::string_view bare = std::string_view(word).substr(word.front() == '(' ? 1 : 0);
    if (before.contains(bare)) return digit(next.front());
    const bool day = digit(bare.front()) && bare.size() <= 3;  // "3 October", "3. Oktober", "3 de octubre"
    if (day && (is_month(next) || next == "de")) return true;
    if (digit(bare.front()) && bare.ends_with(" de") && is_month(next)) return true;
    const std::string last = word.substr(word.rfind(' ') + 1);
    const bool year = next.size() >= 4 && std::all_of(next.begin(), next.begin() + 4, digit);
    if (is_month(last) && (year || next == "de")) return true;
    if (bare.ends_with(" de") && year && is_month(bare_month(bare))) return true;
    return digit(word.back()) && follows_number(next);
}

/// The longest beginning of `word` that fits, at least one character.
std::size_t fitting_length(const std::u32string& word, const auto& fits) {
    std::size_t count = 1;
    while (count < word.size() && fits(encode_utf8(word.substr(0, count + 1)))) ++count;
    return count;
}

}  // namespace

std::vector<std::string> Setter::wrap(const std::string& text, const Style& style, Points width) const {
    const auto fits = [&](const std::string& line) { return measure(line, style) <= width; };
    std::vector<std::string> words;
    for (std::string& word : split(squeezed(text), ' ')) {
        const bool glued = !words.empty() && stay_together(words.back(), word);
        if (glued && fits(words.back() + " " + word)) words.back() += " " + word;
        else words.push_back(std::move(word));
    }
    std::vector<std::string> lines;
    std::string current;
    for (const std::string& word : words) {
        const std::string longer = current.empty() ? word : current + " " + word;
        if (fits(longer)) {
            current = longer;
            continue;
        }
        if (!current.empty()) lines.push_back(std::move(current));
        current = word;
        while (!fits(current)) {  // a word longer than the line
            const std::u32string letters = decode_utf8(current).value_or(std::u32string());
            std::size_t count = fitting_length(letters, fits);
            if (count >= letters.size()) break;
            if (count > 1 && count + 1 == letters.size()) --count;  // no sign or letter alone
            lines.push_back(encode_utf8(letters.substr(0, count)));
            current = encode_utf8(letters.substr(count));
        }
    }
    if (!current.empty()) lines.push_back(std::move(current));
    bool open = false;  // words in another language go on in the next line
    for (std::string& line : lines) {
        const bool begins_open = open;
        open = own_words_open(line, open);
        if (begins_open) line = encode_utf8(std::u32string(1, own_words_begin)) + line;
    }
    return lines;
}

std::string Setter::cut(const std::string& text, const Style& style, Points width) const {
    if (measure(text, style) <= width) return text;
    std::string beginning = text;
    while (!beginning.empty() && measure(beginning + " …", style) > width) {
        const auto space = beginning.find_last_of(' ');
        beginning = space == std::string::npos ? std::string() : beginning.substr(0, space);
    }
    return beginning.empty() ? "…" : beginning + " …";
}

Points Setter::line(Slab& slab, Point baseline, const std::string& text, const Style& style) const {
    const Points width = measure(text, style);
    if (text.empty()) return width;
    const Tagged scope = paragraph();
    PlacedText placed{baseline, text, style.face, style.size, style.colour, width};
    placed.element = element();
    slab.items.push_back(std::move(placed));
    return width;
}

void Setter::line_right(Slab& slab, Point at, const std::string& text, const Style& style) const {
    line(slab, {at.x - measure(text, style), at.y}, text, style);
}

void Setter::line_centred(Slab& slab, Point at, const std::string& text, const Style& style) const {
    line(slab, {at.x - measure(text, style) * 0.5, at.y}, text, style);
}

Points Setter::text(Slab& slab, Point top, const std::string& text, const Style& style, Points width) const {
    Points y = top.y;
    const Tagged scope = paragraph();
    const std::string whole = without_own_words_marks(squeezed(text));
    std::size_t told = 0;
    for (const std::string& one : wrap(text, style, width)) {
        line(slab, {top.x, y + baseline_in(style)}, one, style);
        told += without_own_words_marks(one).size();
        if (told < whole.size() && whole[told] == ' ') ++told;
        else if (told < whole.size()) std::get<PlacedText>(slab.items.back()).goes_on = true;
        y += style.leading;
    }
    return y - top.y;
}

void Setter::rule(Slab& slab, Point from, Points length, Points thickness, Colour colour) const {
    slab.items.push_back(PlacedShape{
        {drawing::line(from, {from.x + length, from.y}), drawing::Stroke{thickness, colour, {}, false}, {}, 1}});
}

void Setter::filled_box(Slab& slab, const Box& box, Colour colour) const {
    slab.items.push_back(PlacedShape{{drawing::rectangle(box), {}, colour, 1}});
}

void Setter::framed_box(Slab& slab, const Box& box, Points thickness, Colour colour, std::vector<Points> dash) const {
    slab.items.push_back(
        PlacedShape{{drawing::rectangle(box), drawing::Stroke{thickness, colour, std::move(dash), false}, {}, 1}});
}

void Setter::drawing(Slab& slab, Point at, const drawing::Drawing& drawing) const {
    const Tagged scope = tagged("Figure", drawing.alternative);
    place(slab, at, drawing, element());
    for (const drawing::Lead& lead : drawing.leads)
        slab.items.push_back(DraftLink{{{at.x + lead.centre.x - lead.radius, at.y + lead.centre.y - lead.radius},
                                        {lead.radius * 2, lead.radius * 2}},
                                       lead.to,
                                       element()});
}

void Setter::place(Slab& slab, Point at, const drawing::Drawing& drawing, ElementIndex element) const {
    for (const auto& item : drawing.items) {
        if (const auto* shape = std::get_if<drawing::Shape>(&item)) {
            slab.items.push_back(PlacedShape{moved(*shape, at), element});
            continue;
        }
        const auto& label = std::get<drawing::Label>(item);
        const Style style{label.bold ? Face::bold : Face::regular, label.size, label.size, label.colour};
        const Points width = measure(label.text, style);
        if (label.text.empty()) continue;
        Point place = label.at + at;
        if (label.anchor == drawing::Anchor::middle) place.x -= width * 0.5;
        if (label.anchor == drawing::Anchor::right) place.x -= width;
        PlacedText text{place, label.text, style.face, style.size, style.colour, width};
        text.element = element;
        slab.items.push_back(std::move(text));
    }
}

void Setter::mark(Slab& slab, Point centre, Points u, const document::VerdictMark& mark) const {
    drawing::Drawing shape;
    drawing::add_verdict_shape(shape, mark.verdict, centre, u, mark.number);
    place(slab, {}, shape, artifact);  // its word stands beside it
}

void Setter::told_mark(Slab& slab, Point centre, Points u, const document::VerdictMark& mark) const {
    drawing::Drawing shape, number;
    drawing::add_verdict_shape(shape, mark.verdict, centre, u, mark.number);
    const auto is_label = [](const auto& item) { return std::holds_alternative<drawing::Label>(item); };
    std::copy_if(shape.items.begin(), shape.items.end(), std::back_inserter(number.items), is_label);
    std::erase_if(shape.items, is_label);
    place(slab, {}, shape, artifact);
    const Tagged scope = paragraph();
    place(slab, {}, number, element());
}

void Setter::photo(Slab& slab, const Box& box, const document::Picture& photo) const {
    if (!photo.jpeg) {
        framed_box(slab, box, 0.5_pt, drawing::black_35, {3_pt, 2_pt});
        slab.items.push_back(
            PlacedShape{{drawing::hatch(box, 6_pt), drawing::Stroke{0.35_pt, drawing::black_35, {}, false}, {}, 1}});
        return;
    }
    const double scale = std::min(box.size.width.value / photo.width, box.size.height.value / photo.height);
    const Size size{Points{photo.width * scale}, Points{photo.height * scale}};
    const Box place{
        {box.left() + (box.size.width - size.width) * 0.5, box.top() + (box.size.height - size.height) * 0.5}, size};
    const Tagged scope = tagged("Figure", photo.alternative);
    slab.items.push_back(PlacedImage{image_of(photo), place, {}, photo.alternative, element()});
    framed_box(slab, place, 0.5_pt, drawing::black);
    if (!photo.ring) return;
    const Point centre{place.left() + place.size.width * photo.ring->x, place.top() + place.size.width * photo.ring->y};
    const Points radius = std::max(place.size.width * photo.ring->radius, 4_pt);
    const bool small = place.size.width < 80_pt;
    for (const auto& [thickness, colour] :
         {std::pair(small ? 2.2_pt : 3.2_pt, drawing::white), std::pair(small ? 0.9_pt : 1.3_pt, drawing::black)})
        slab.items.push_back(
            PlacedShape{{drawing::circle(centre, radius), drawing::Stroke{thickness, colour, {}, false}, {}, 1}});
}

void Setter::photo_in_circle(Slab& slab, const Box& box, const document::Picture& photo) const {
    const Tagged scope = tagged("Figure", photo.alternative);
    slab.items.push_back(
        PlacedImage{image_of(photo), box, Circle{box.centre(), box.size.width * 0.5}, photo.alternative, element()});
}

void Setter::picture(Slab& slab, const Box& box, const document::Picture& photo) const {
    const Tagged scope = tagged("Figure", photo.alternative);
    slab.items.push_back(PlacedImage{image_of(photo), box, {}, photo.alternative, element()});
}

std::size_t Setter::image_of(const document::Picture& photo) const {
    std::size_t index = 0;
    while (index < images_.size() && images_[index].jpeg != photo.jpeg) ++index;
    if (index == images_.size()) images_.push_back({photo.jpeg, photo.width, photo.height});
    return index;
}

}  // namespace rigdeed::layout
