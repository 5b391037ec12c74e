#pragma once

#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "document/block.hpp"
#include "layout/look.hpp"
#include "layout/page.hpp"

/// What stands between blocks and pages: slabs, pieces that never break, placed from top to bottom.
namespace rigdeed::layout {

/// A link whose target page is not known yet.
struct DraftLink {
    Box box;
    std::string anchor;
    ElementIndex element = artifact;
};

/// The number of the page on which an anchor stands, right-aligned at `at`; with a `pattern` its words, left-aligned.
struct DraftPageNumber {
    Point at;
    std::string anchor;
    Style style;
    std::string pattern = {};  ///< ", p. {page}"
    ElementIndex element = artifact;
};

/// A text in which {page} and {pages} are filled in when all pages are known.
struct DraftText {
    Point at;
    std::string pattern;
    Style style;
    bool right_aligned = false;
    ElementIndex element = artifact;
};

using DraftItem = std::variant<PlacedText, PlacedShape, PlacedImage, DraftLink, DraftPageNumber, DraftText>;

/// What the contents and the bookmarks say of a heading.
struct Entry {
    std::string number;
    std::string title;
    int level = 0;
};

struct Slab {
    Points before;  ///< white above it, unless it is the first on its page
    Points height;
    std::vector<DraftItem> items;  ///< from the text's left edge and the slab's top
    bool keep_with_next = false;
    bool page_break_before = false;
    Points unless_left{0};  ///< no break where more than this is left of the page; 0: in any case
    std::string anchor;
    std::optional<Entry> entry;
    std::shared_ptr<const Slab> head;           ///< repeated above it where it begins a page
    bool beside_mast = false;                   ///< its page carries the mast in the margin
    std::optional<document::VerdictMark> mark;  ///< a finding, on that mast
    double mark_height = 0;                     ///< metres above the waterline
};

using Slabs = std::vector<Slab>;

}  // namespace rigdeed::layout
