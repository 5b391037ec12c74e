#include "drawing/svg.hpp"

#include "base/xml.hpp"
#include "drawing/palette.hpp"

namespace rigdeed::drawing {
namespace {

std::string number(double value) {
    std::string text = fixed(value, 2);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string at(Point p) { return number(p.x.value) + " " + number(p.y.value); }

std::string data_of(const Path& path) {
    struct Visitor {
        std::string text;
        void operator()(const MoveTo& s) { text += "M" + at(s.to); }
        void operator()(const LineTo& s) { text += "L" + at(s.to); }
        void operator()(const CurveTo& s) { text += "C" + at(s.control1) + " " + at(s.control2) + " " + at(s.to); }
        void operator()(const Close&) { text += "Z"; }
    };
    Visitor visitor;
    for (const Segment& segment : path) std::visit(visitor, segment);
    return std::move(visitor.text);
}

bool is_grey(Colour c) { return c.red == c.green && c.green == c.blue; }

class Painter {
 public:
    explicit Painter(Ink ink) : ink_(ink) {}

    void operator()(const Shape& shape) {
        if (shape.path.empty() || (!shape.fill && !shape.stroke)) return;
        text += "<path d=\"" + data_of(shape.path) + "\"";
        if (shape.fill) colour("fill", *shape.fill);
        else text += " fill=\"none\"";
        if (shape.stroke) stroke(*shape.stroke);
        if (shape.alpha < 1) text += " opacity=\"" + number(shape.alpha) + "\"";
        text += "/>";
    }

    void operator()(const Label& label) {
        text += "<text x=\"" + number(label.at.x.value) + "\" y=\"" + number(label.at.y.value) + "\" font-size=\"" +
                number(label.size.value) + "\"";
        if (label.bold) text += " font-weight=\"bold\"";
        if (label.anchor != Anchor::left)
            text += label.anchor == Anchor::middle ? " text-anchor=\"middle\"" : " text-anchor=\"end\"";
        colour("fill", label.colour);
        text += ">" + xml::escaped(label.text) + "</text>";
    }

    std::string text;

 private:
    void colour(const std::string& what, Colour c) {
        static constexpr char digits[] = "0123456789abcdef";
        std::string value = "#";
        for (const unsigned char part : {c.red, c.green, c.blue}) {
            value += digits[part >> 4];
            value += digits[part & 15];
        }
        if (ink_ == Ink::of_page && c == white) value = "Canvas";
        else if (ink_ == Ink::of_page && is_grey(c)) value = "currentColor";
        text += " " + what + "=\"" + value + "\"";
        if (value == "currentColor" && c != black)
            text += " " + what + "-opacity=\"" + number(1 - c.red / 255.0) + "\"";
    }

    void stroke(const Stroke& stroke) {
        colour("stroke", stroke.colour);
        text += " stroke-width=\"" + number(stroke.width.value) + "\"";
        if (stroke.round) text += " stroke-linecap=\"round\" stroke-linejoin=\"round\"";
        if (stroke.dash.empty()) return;
        text += " stroke-dasharray=\"";
        for (std::size_t i = 0; i < stroke.dash.size(); ++i) text += (i > 0 ? " " : "") + number(stroke.dash[i].value);
        text += "\"";
    }

    Ink ink_;
};

std::string items(const Drawing& drawing, Ink ink) {
    Painter painter(ink);
    for (const auto& item : drawing.items) std::visit(painter, item);
    return std::move(painter.text);
}

std::string box(const Drawing& drawing) {
    return " viewBox=\"0 0 " + number(drawing.size.width.value) + " " + number(drawing.size.height.value) + "\"";
}

}  // namespace

std::string svg(const Drawing& drawing, Ink ink) {
    const std::string role = drawing.alternative.empty()
                                 ? " aria-hidden=\"true\""
                                 : " role=\"img\" aria-label=\"" + xml::escaped(drawing.alternative) + "\"";
    return "<svg xmlns=\"http://www.w3.org/2000/svg\"" + box(drawing) + role + ">" + items(drawing, ink) + "</svg>";
}

std::string svg_symbol(const Drawing& drawing, Ink ink, const std::string& id) {
    return "<symbol id=\"" + xml::escaped(id) + "\"" + box(drawing) + ">" + items(drawing, ink) + "</symbol>";
}

}  // namespace rigdeed::drawing
