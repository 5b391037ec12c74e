#pragma once

#include <string>
#include <vector>

#include "document/block.hpp"
#include "layout/draft.hpp"
#include "layout/structure.hpp"
#include "layout/text_metrics.hpp"

namespace rigdeed::layout {

/// Sets text and shapes into slabs.
class Setter {
 public:
    Setter(const TextMetrics& metrics, std::vector<Image>& images, StructureBuilder& structure, Points width)
        : metrics_(metrics), images_(images), structure_(structure), width_(width) {}

    /// One that sets the same way into other pictures and another structure: to see how high something is.
    [[nodiscard]] Setter rehearsal(std::vector<Image>& images, StructureBuilder& structure) const {
        return Setter(metrics_, images, structure, width_);
    }

    /// What is set while the result lives belongs to an element of this type.
    [[nodiscard]] Tagged tagged(std::string type, std::string alternative = {}) const {
        return Tagged(structure_, std::move(type), std::move(alternative));
    }
    [[nodiscard]] Tagged paragraph() const { return Tagged::paragraph(structure_); }
    [[nodiscard]] StructureBuilder& structure() const { return structure_; }
    [[nodiscard]] ElementIndex element() const { return structure_.current(); }

    [[nodiscard]] Points width() const { return width_; }
    [[nodiscard]] Points measure(const std::string& text, const Style& style) const {
        return metrics_.width(text, style.face, style.size);
    }
    /// Lines no wider than `width`; a word that is too long by itself is broken.
    /// What belongs together stays in one line: a number and its unit, a sign before a number.
    [[nodiscard]] std::vector<std::string> wrap(const std::string& text, const Style& style, Points width) const;

    /// The text itself, or as many of its words as fit and "…".
    [[nodiscard]] std::string cut(const std::string& text, const Style& style, Points width) const;
    /// One line on its baseline. Returns its width.
    Points line(Slab& slab, Point baseline, const std::string& text, const Style& style) const;
    void line_right(Slab& slab, Point baseline_right, const std::string& text, const Style& style) const;
    void line_centred(Slab& slab, Point baseline_centre, const std::string& text, const Style& style) const;
    /// Wrapped lines; `top` is the top of the first line's leading. Returns the height taken.
    Points text(Slab& slab, Point top, const std::string& text, const Style& style, Points width) const;

    void rule(Slab& slab, Point from, Points length, Points thickness, Colour colour = drawing::black) const;
    void filled_box(Slab& slab, const Box& box, Colour colour) const;
    void framed_box(Slab& slab, const Box& box, Points thickness, Colour colour, std::vector<Points> dash = {}) const;
    /// A drawing with its top left corner at `at`.
    void drawing(Slab& slab, Point at, const drawing::Drawing& drawing) const;
    void mark(Slab& slab, Point centre, Points u, const document::VerdictMark& mark) const;
    /// The same where nothing else tells the number: it is read aloud, too.
    void told_mark(Slab& slab, Point centre, Points u, const document::VerdictMark& mark) const;
    /// The photo scaled into the box, centred, with a key line; the words alone where there is no picture.
    void photo(Slab& slab, const Box& box, const document::Picture& photo) const;
    /// A picture that fills the box, without a key line.
    void picture(Slab& slab, const Box& box, const document::Picture& photo) const;
    /// A square photo seen through a circle.
    void photo_in_circle(Slab& slab, const Box& box, const document::Picture& photo) const;

 private:
    void place(Slab& slab, Point at, const drawing::Drawing& drawing, ElementIndex element) const;
    std::size_t image_of(const document::Picture& photo) const;

    const TextMetrics& metrics_;
    std::vector<Image>& images_;
    StructureBuilder& structure_;
    Points width_;
};

/// Where the baseline stands in a line of this style, from the top of its leading.
[[nodiscard]] inline Points baseline_in(const Style& style) { return style.leading * 0.5 + style.size * 0.35; }

}  // namespace rigdeed::layout
