#include "pdf/content.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "base/error.hpp"
#include "base/own_words.hpp"
#include "base/text.hpp"

namespace rigdeed::pdf {
namespace {

constexpr int opaque = 1000;

int thousandths(double alpha) { return static_cast<int>(std::lround(std::clamp(alpha, 0.0, 1.0) * opaque)); }

std::string colour(Colour c, std::string_view operator_name) {
    return number(c.red / 255.0, 4) + " " + number(c.green / 255.0, 4) + " " + number(c.blue / 255.0, 4) + " " +
           std::string(operator_name) + "\n";
}

// Turns page items into operators; one object a page.
class Painter {
 public:
    Painter(const layout::Pages& pages, Typesetting& typesetting) : pages_(pages), typesetting_(typesetting) {}

    void operator()(const layout::PlacedText& text);
    void operator()(const layout::PlacedShape& placed);
    void operator()(const layout::PlacedImage& placed);
    void operator()(const layout::PlacedLink&) {}

    /// Begins the marked-content sequence of this element, unless it is open already.
    void begin(layout::ElementIndex element);
    void end();

    Content content;

 private:
    [[nodiscard]] std::string at(Point p) const { return number(p.x.value) + " " + flipped(p.y); }
    [[nodiscard]] std::string flipped(Points y) const { return number((pages_.size.height - y).value); }
    void write(std::string_view text) { content.operators += text; }
    void open(double alpha);
    void path(const drawing::Path& path);
    void stroke_style(const drawing::Stroke& stroke);
    void circle(const layout::Circle& circle);
    void show(const layout::PlacedText& text);

    const layout::Pages& pages_;
    Typesetting& typesetting_;
    std::optional<layout::ElementIndex> open_;  // the element whose sequence is open
};

void Painter::end() {
    if (open_) write("EMC\n");
    open_.reset();
}

void Painter::begin(layout::ElementIndex element) {
    if (open_ == element) return;
    end();
    open_ = element;
    if (element == layout::artifact) return write("/Artifact BMC\n");
    const std::string& type = pages_.structure.at(static_cast<std::size_t>(element)).type;
    write("/" + type + " <</MCID " + std::to_string(content.marked.size()) + ">> BDC\n");
    content.marked.push_back(element);
}

layout::ElementIndex element_of(const layout::PlacedItem& item) {
    return std::visit([](const auto& one) { return one.element; }, item);
}

bool paints(const layout::PlacedItem& item) {
    if (const auto* text = std::get_if<layout::PlacedText>(&item)) return !text->text.empty();
    if (const auto* placed = std::get_if<layout::PlacedShape>(&item))
        return !placed->shape.path.empty() && (placed->shape.fill || placed->shape.stroke);
    return std::holds_alternative<layout::PlacedImage>(item);
}

void Painter::open(double alpha) {
    write("q\n");
    const int level = thousandths(alpha);
    if (level == opaque) return;
    content.alphas.insert(level);
    write("/A" + std::to_string(level) + " gs\n");
}

void Painter::operator()(const layout::PlacedText& text) {
    if (text.text.empty()) return;
    const double angle = text.tilt * std::numbers::pi / 180.0;
    const std::string c = number(std::cos(angle), 5), s = number(std::sin(angle), 5);
    open(text.alpha);
    write("BT\n" + colour(text.colour, "rg"));
    write(c + " " + s + " " + number(-std::sin(angle), 5) + " " + c + " " + at(text.baseline) + " Tm\n");
    show(text);
    write("ET\nQ\n");
}

void Painter::show(const layout::PlacedText& text) {
    const auto characters = decode_utf8(text.text);
    if (!characters) throw Error("a text to print is not UTF-8: " + in_quotes(text.text), {}, {}, ExitCode::bug);
    std::size_t current = Fonts::count;
    bool own_words = false;
    for (const char32_t character : *characters) {
        if (is_own_words_mark(character)) {
            if (pages_.own_words.empty() || own_words == (character == own_words_begin)) continue;
            own_words = !own_words;
            write(current == Fonts::count ? "" : "> Tj\n");
            write(own_words ? "/Span <</Lang (" + pages_.own_words + ")>> BDC\n" : std::string("EMC\n"));
            current = Fonts::count;
            continue;
        }
        const auto font = typesetting_.fonts.font_for(character, text.face);
        if (!font)
            throw Error("no font of ours has a character of " + in_quotes(text.text), {},
                        "write it in other characters");
        if (*font != current) {
            write((current == Fonts::count ? "/F" : "> Tj\n/F") + std::to_string(*font) + " " +
                  number(text.size.value) + " Tf\n<");
            content.fonts.insert(*font);
            current = *font;
        }
        const std::uint16_t code = typesetting_.subsets[current].code(character);
        const unsigned char bytes[] = {static_cast<unsigned char>(code >> 8), static_cast<unsigned char>(code & 0xFF)};
        write(to_hex(bytes, 2));
    }
    if (current != Fonts::count) write("> Tj\n");
    if (own_words) write("EMC\n");
}

void Painter::path(const drawing::Path& path) {
    struct Visitor {
        Painter& to;
        void operator()(const drawing::MoveTo& s) { to.write(to.at(s.to) + " m\n"); }
        void operator()(const drawing::LineTo& s) { to.write(to.at(s.to) + " l\n"); }
        void operator()(const drawing::CurveTo& s) {
            to.write(to.at(s.control1) + " " + to.at(s.control2) + " " + to.at(s.to) + " c\n");
        }
        void operator()(const drawing::Close&) { to.write("h\n"); }
    };
    for (const drawing::Segment& segment : path) std::visit(Visitor{*this}, segment);
}

void Painter::stroke_style(const drawing::Stroke& stroke) {
    write(colour(stroke.colour, "RG") + number(stroke.width.value) + " w\n");
    if (stroke.round) write("1 J 1 j\n");
    if (stroke.dash.empty()) return;
    write("[");
    for (const Points length : stroke.dash) write(number(length.value) + " ");
    write("] 0 d\n");
}

void Painter::operator()(const layout::PlacedShape& placed) {
    const drawing::Shape& shape = placed.shape;
    if (shape.path.empty() || (!shape.fill && !shape.stroke)) return;
    if (!std::holds_alternative<drawing::MoveTo>(shape.path.front()))
        throw Error("a path that does not start with a move", {}, {}, ExitCode::bug);
    open(shape.alpha);
    if (shape.fill) write(colour(*shape.fill, "rg"));
    if (shape.stroke) stroke_style(*shape.stroke);
    path(shape.path);
    write(shape.fill && shape.stroke ? "B\nQ\n" : shape.fill ? "f\nQ\n" : "S\nQ\n");
}

void Painter::circle(const layout::Circle& circle) {
    constexpr double arc = 0.5522847498;  // a quarter circle as a Bezier curve: 4/3 (sqrt 2 - 1)
    const Point c = circle.centre;
    const Points r = circle.radius, k = r * arc;
    path({drawing::MoveTo{{c.x + r, c.y}}, drawing::CurveTo{{c.x + r, c.y + k}, {c.x + k, c.y + r}, {c.x, c.y + r}},
          drawing::CurveTo{{c.x - k, c.y + r}, {c.x - r, c.y + k}, {c.x - r, c.y}},
          drawing::CurveTo{{c.x - r, c.y - k}, {c.x - k, c.y - r}, {c.x, c.y - r}},
          drawing::CurveTo{{c.x + k, c.y - r}, {c.x + r, c.y - k}, {c.x + r, c.y}}, drawing::Close{}});
    write("W n\n");
}

// The box filled without distortion: what juts out of it is cut off evenly on both sides.
Box covering(const Box& box, const layout::Image& image) {
    const double factor = std::max(box.size.width.value / image.width, box.size.height.value / image.height);
    const Size size{{image.width * factor}, {image.height * factor}};
    return {box.centre() - Point{size.width * 0.5, size.height * 0.5}, size};
}

void Painter::operator()(const layout::PlacedImage& placed) {
    const layout::Image& image = pages_.images.at(placed.image);
    if (image.width <= 0 || image.height <= 0) throw Error("a picture without size", {}, {}, ExitCode::bug);
    const Box whole = covering(placed.box, image);
    const Box& box = placed.box;
    content.images.insert(placed.image);
    write("q\n");
    if (placed.clip) circle(*placed.clip);
    write(number(box.left().value) + " " + flipped(box.bottom()) + " " + number(box.size.width.value) + " " +
          number(box.size.height.value) + " re W n\n");
    write(number(whole.size.width.value, 4) + " 0 0 " + number(whole.size.height.value, 4) + " " +
          number(whole.left().value) + " " + flipped(whole.bottom()) + " cm\n/I" + std::to_string(placed.image) +
          " Do\nQ\n");
}

}  // namespace

Typesetting::Typesetting() {
    for (std::size_t i = 0; i < Fonts::count; ++i) subsets.emplace_back(fonts.font(i));
}

Content page_content(const layout::Page& page, const layout::Pages& pages, Typesetting& typesetting) {
    Painter painter(pages, typesetting);
    for (const layout::PlacedItem& item : page.items) {
        if (paints(item)) painter.begin(element_of(item));
        std::visit(painter, item);
    }
    painter.end();
    if (painter.content.operators.empty()) painter.content.operators = "q Q\n";  // an empty stream upsets readers
    return std::move(painter.content);
}

std::string number(double value, int decimals) {
    std::string text = fixed(value, decimals);
    if (text.find('.') == std::string::npos) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

Bytes utf16(std::string_view utf8) {
    const auto characters = decode_utf8(utf8);
    if (!characters) throw Error("a text for the PDF is not UTF-8: " + in_quotes(utf8), {}, {}, ExitCode::bug);
    Bytes units{0xFE, 0xFF};
    const auto put = [&](char32_t unit) {
        units.push_back(static_cast<unsigned char>(unit >> 8));
        units.push_back(static_cast<unsigned char>(unit & 0xFF));
    };
    for (const char32_t c : *characters) {
        if (c >= 0x10000) put(0xD800 + ((c - 0x10000) >> 10)), put(0xDC00 + ((c - 0x10000) & 0x3FF));
        else put(c);
    }
    return units;
}

}  // namespace rigdeed::pdf
