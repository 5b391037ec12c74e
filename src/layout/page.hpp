#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/bytes.hpp"
#include "base/geometry.hpp"
#include "drawing/shape.hpp"

/// The waist of the program: before it everything is text and numbers, after it nothing decides.
namespace rigdeed::layout {

/// What an item belongs to: index into Pages::structure; an artifact (rule, header, footer) belongs to nothing.
using ElementIndex = int;
inline constexpr ElementIndex artifact = -1;

/// An element of the document's structure (ISO 32000-1, 14.7 and 14.8), in reading order.
struct Element {
    std::string type;                ///< standard type: "H1", "P", "Table", "TD", "Figure" …
    ElementIndex parent = artifact;  ///< none: the document itself
    std::string alternative;         ///< of a figure, in words
    bool heads_row = false;          ///< a TH of its row, not of its column
};

enum class Face { light, regular, italic, bold, black };

/// One line of text; `baseline` is where its first glyph stands.
struct PlacedText {
    Point baseline;
    std::string text;  ///< UTF-8, NFC, no control characters; what its end leaves open of marked words ends with it
    Face face = Face::regular;
    Points size{9.25};
    Colour colour;
    Points width;     ///< as measured with TextMetrics, without a blank that a reader hears at its end
    double tilt = 0;  ///< degrees anticlockwise about the baseline's start
    double alpha = 1;
    ElementIndex element = artifact;
    bool goes_on = false;  ///< the line ends within a word
};

/// A shape in page coordinates.
struct PlacedShape {
    drawing::Shape shape;
    ElementIndex element = artifact;
};

struct Circle {
    Point centre;
    Points radius;
};

/// A picture scaled to fill `box`, seen through the box or through `clip`.
struct PlacedImage {
    std::size_t image = 0;  ///< index into Pages::images
    Box box;
    std::optional<Circle> clip;
    std::string alternative;
    ElementIndex element = artifact;
};

/// A rectangle that leads to a place in the same document.
struct PlacedLink {
    Box box;
    std::size_t page = 0;  ///< index into Pages::pages
    Points y;
    std::string words;                ///< where it leads, for those who cannot see it
    ElementIndex element = artifact;  ///< what it stands in
};

using PlacedItem = std::variant<PlacedText, PlacedShape, PlacedImage, PlacedLink>;

struct Page {
    std::vector<PlacedItem> items;  ///< in painting order, which is reading order
    std::string label;              ///< as readers show it in their page list
};

struct Bookmark {
    std::string title;
    int level = 0;  ///< 0 for chapters, 1 beneath them …
    std::size_t page = 0;
    Points y;
};

/// A picture ready for print: baseline or progressive JPEG, 8 bit, grey or sRGB, upright, no metadata.
struct Image {
    std::shared_ptr<const Bytes> jpeg;
    int width = 0;   ///< pixels
    int height = 0;  ///< pixels
};

struct Pages {
    Size size;
    std::vector<Page> pages;
    std::size_t cover_pages = 1;  ///< before the first page that the document asked for
    std::vector<Bookmark> bookmarks;
    std::vector<Image> images;
    std::vector<Element> structure;
    std::string own_words;  ///< language of what stands between marks (base/own_words.hpp), a BCP 47 tag
};

}  // namespace rigdeed::layout
