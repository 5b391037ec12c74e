#pragma once

#include <functional>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/bytes.hpp"
#include "document/measures.hpp"
#include "document/to_write_on.hpp"
#include "drawing/shape.hpp"
#include "survey/survey.hpp"

/// A paper as blocks: what it says, in which order, not where it stands on the sheet.
namespace rigdeed::document {

using survey::Verdict;

/// The shape that tells a verdict, with its number inside if it has one.
struct VerdictMark {
    Verdict verdict = Verdict::sound;
    int number = 0;
};

enum class Level { title, section, minor };

/// A heading; `anchor` makes it a target of links and of the contents.
struct Heading {
    Level level = Level::section;
    std::string text;
    std::string remark;  ///< small, behind the heading
    std::string anchor;
    std::string number;  ///< of the chapter, for title headings
};

enum class Tone { intro, body, quiet, bold, small, note };

struct Paragraph {
    std::string text;
    Tone tone = Tone::body;
};

/// Label and value pairs, side by side in equal columns.
struct Facts {
    struct Fact {
        std::string label;
        std::vector<std::string> lines;  ///< the first is bold
    };
    std::vector<Fact> facts;
    std::size_t columns = 4;
    bool ruled = true;     ///< a hair rule beneath
    bool by_need = false;  ///< columns as wide as what stands in them asks for, in one row
};

enum class Align { left, right };

struct Column {
    std::string head;
    double share = 1;  ///< of the width
    Align align = Align::left;
    bool names_row = false;  ///< its cells are the heads of their rows
};

struct Cell {
    std::string bold;  ///< a first line in bold; may be empty
    std::vector<std::string> lines;
    std::optional<VerdictMark> mark;
    std::string page_of;  ///< anchor whose page number stands here
    bool line_to_write_on = false;
};

struct Row {
    std::vector<Cell> cells;
    std::string link;                                  ///< anchor that the row leads to
    std::string anchor = {};                           ///< makes it a target of links
    std::vector<std::vector<std::string>> notes = {};  ///< small, under the cells, two side by side: lines of each
    std::optional<double> height = std::nullopt;  ///< metres above the waterline: its place on the mast in the margin
};

struct RowGroup {
    std::string heading;
    std::string remark;
    std::vector<Row> rows;
};

struct Table {
    std::vector<Column> columns;
    std::vector<RowGroup> groups;
    bool small = false;  ///< in smaller letters and closer rows
};

/// A picture for print and the words above it.
struct Picture {
    std::shared_ptr<const Bytes> jpeg;
    int width = 0;
    int height = 0;
    std::string role;     ///< bold: "far", "close"
    std::string caption;  ///< behind it
    std::string second;   ///< a second line; may be empty
    std::string alternative;
    std::optional<survey::Mark> ring = std::nullopt;  ///< drawn round what it was taken for
};

/// Photos side by side, all in frames of the same size.
struct PictureRow {
    std::vector<Picture> photos;
    std::size_t columns = 2;
};

/// A fitting found sound, or one look of it: its name, one line about it, and its pair.
struct PairCard {
    std::string title;
    std::string line;
    std::vector<Picture> photos;
    std::optional<VerdictMark> mark;
};

struct PairGrid {
    std::vector<PairCard> cards;
    std::string anchor = {};  ///< of its rows: with "-0", "-1" … behind it; empty: none

    static constexpr std::size_t a_row = 3;
    [[nodiscard]] static std::string anchor_of(const std::string& anchor, std::size_t card) {
        return anchor + "-" + std::to_string(card / a_row);
    }
};

/// The head of a finding.
struct FindingHead {
    VerdictMark mark;
    std::string title;
    std::string verdict;
    std::string sentence;
    std::string tag;  ///< white on black at the right; may be empty
    std::string anchor;
    std::string work;  ///< "work item 3", which leads to it; may be empty
    std::string work_anchor;
    double height = 0;   ///< metres above the waterline: its place on the mast in the margin
    bool small = false;  ///< one of several that are told together
    std::string place;   ///< under the sentence: kind, stay, where it is; under a small one, when it was seen
};

/// What was photographed of a finding, and where it is: schematic, far and close photo, the marked part enlarged,
/// the place on the rig.
struct Exhibit {
    std::optional<drawing::Drawing> schematic;
    std::vector<Picture> photos;  ///< far, close
    struct Ring {
        double x = 0;  ///< all as fractions of the close photo's width
        double y = 0;
        double radius = 0;
    };
    struct Pointer {
        std::size_t photo = 0;  ///< of `photos`
        double x = 0, y = 0;    ///< from here, as fractions of that photo's width
        double to_x = 0, to_y = 0;
        std::string words;  ///< "12.5 mm"
    };
    std::vector<Pointer> pointers;  ///< what was measured on the photos, from end to end
    std::vector<Ring> rings;        ///< on the close photo, which is then the last of `photos`; the first is enlarged
    std::optional<Picture> detail;  ///< square; seen through a circle
    double bar = 0;                 ///< length of the scale bar as a fraction of the detail's width; 0: none
    std::string bar_words;          ///< "5 mm"
    drawing::Drawing where;
    Picture where_words;                      ///< its caption
    Points radius = measures::detail_radius;  ///< of the circle
    bool others_in_row = false;               ///< side by side, which takes less height
    bool in_one_row = false;                  ///< drawing, photos and circle side by side: half a page is enough
    std::vector<Picture> others;              ///< the other pass's pair, small
};

/// From here on pages carry a mast in their margin, or no longer.
struct MastMargin {
    bool on = false;
};

inline constexpr std::size_t all_marks = 1000;

/// The drawing of the whole rig, as high as the page leaves room for, and beside it a list, a line each.
struct Overview {
    std::function<drawing::Drawing(Size, std::size_t marks)> draw;  ///< with so many marks, those that are listed
    Points width;                                                   ///< of the drawing, at least
    Points widest;                                                  ///< no wider than this, where the list leaves room
    Points narrowest;  ///< no narrower than this, where whole names ask for more room than the width leaves
    struct Line {
        std::optional<VerdictMark> mark;
        std::string title;
        std::string words;  ///< beneath it, as far as there is room for those of all
        std::string anchor;
    };
    std::vector<Line> lines;
    std::vector<Line> closing;  ///< under them in any case: how many more there are, and where
    std::string more;           ///< "and {n} more, from page {page}": for those there is no room for
    std::string more_to_renew;  ///< the same where {renew} of them are to be renewed
    std::string more_anchor;    ///< where the whole list stands
    Points height{236};         ///< the layout's
};

/// A frame with a black bar at its left: cautions.
struct Caution {
    std::string title;
    std::vector<std::string> paragraphs;
    std::optional<drawing::Drawing> beside;  ///< at its right
    bool small = false;                      ///< in smaller letters, where a page is short of room
};

/// Two texts side by side, each with a heading.
struct TwoTexts {
    std::string left_title;
    std::string left;
    std::string right_title;
    std::string right;
    bool small = false;  ///< in smaller letters
};

struct Illustration {
    drawing::Drawing drawing;
    std::string caption;
};

/// The head of page 1.
struct CoverHead {
    std::string firm;
    std::vector<std::string> address;  ///< in place of the surveyor's line
    std::optional<Picture> logo;
    std::optional<Colour> accent;
    std::string surveyor;
    std::string document;
    std::string issued;  ///< {pages} is filled in by the layout
    std::string yacht;
    std::vector<std::string> yacht_lines;
};

/// The answer on the cover: the verdict's shape grown to page size, and the statement.
struct AnswerPlate {
    std::optional<Verdict> verdict;  ///< none: no answer, or stopped at the deck
    bool stopped = false;
    std::string badge;
    std::string statement;
    std::string detail;
    std::string strip;       ///< the words on the hatched strip where the inspection stopped
    std::string climb;       ///< a second statement of the same weight: "Do not climb"; may be empty
    std::string incomplete;  ///< over a dashed frame round the plate: "INCOMPLETE SURVEY"; may be empty
};

struct Counts {
    struct Count {
        Verdict verdict = Verdict::sound;
        std::size_t number = 0;
        std::string word;
        std::string meaning;
    };
    std::vector<Count> counts;
};

/// The list of headings with their pages, filled in by the layout.
struct Contents {};

/// A big step number with a title and text.
struct Step {
    std::string number;
    std::string title;
    std::string text;
    std::vector<std::string> output;  ///< lines as on a terminal, on grey
};

/// Hex digits in rows of four groups, to be read aloud.
struct Fingerprint {
    std::string title;
    std::string remark;
    std::string hex;
    std::optional<drawing::Drawing> code = std::nullopt;  ///< square, at the right of one with a remark
    std::string code_caption = {};
};

/// Who sealed it, on a plate with the rose of the data in its circle.
struct SealPlate {
    drawing::Drawing rose;
    std::string name;
    std::vector<std::pair<std::string, std::string>> lines;  ///< label and value
};

struct PageBreak {
    Points unless_left{0};  ///< none where more than this is left of the page; 0: in any case
};
struct Space {
    Points height;
};

struct Block;
/// Kept on one page if it fits on one.
struct Together {
    std::vector<Block> blocks;
};

/// Pieces that are each kept on one page, and can each be set in several ways, the roomiest first: set as roomy as
/// the pages they take allow.
struct Stack {
    struct Piece {
        std::vector<std::vector<Block>> ways;
        std::size_t shared = std::numeric_limits<std::size_t>::max();  ///< never closer for the sake of a neighbour
    };
    std::vector<Piece> pieces;
    Points between{10};
};

struct Block {
    std::variant<Heading, Paragraph, Facts, Table, PictureRow, PairGrid, FindingHead, Caution, TwoTexts, Illustration,
                 Exhibit, MastMargin, Overview, CoverHead, AnswerPlate, Counts, Contents, Step, Fingerprint, SealPlate,
                 PageBreak, Space, LinesToWriteOn, BoxKey, TickTable, PlaceCards, Gate, Together, Stack>
        value;
};

/// The mast in the margin of pages about the rig; heights in metres above the waterline.
struct MarginMast {
    double top = 0;
    double deck = 0;
    std::vector<double> spreaders;
    std::string metre;
    std::string deck_word;
    std::string waterline_word;
};

/// Above the text of every page: the chapter at the left, which the layout knows, and this.
struct Head {
    std::string yacht;                ///< at the right
    std::vector<std::string> stamps;  ///< in the middle: "INCOMPLETE SURVEY", "PREVIEW"
};

/// Below the text of every page.
struct Foot {
    std::string paper;          ///< bold: "Survey 2026-031"
    std::string data;           ///< "data 7c1e 09ab …"; may be empty
    std::string page_of_pages;  ///< "page {page} of {pages}"
};

struct Document {
    Head head;
    Foot foot;
    std::string watermark;  ///< across every page; may be empty
    std::string
        own_words;  ///< language of words between marks (base/own_words.hpp), a BCP 47 tag; empty: there are none
    MarginMast mast;
    std::vector<Block> cover;  ///< page 1, without a head but for its stamps; may be empty
    std::vector<Block> blocks;
};

}  // namespace rigdeed::document
