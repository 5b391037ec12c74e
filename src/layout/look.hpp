#pragma once

#include "base/geometry.hpp"
#include "base/paper.hpp"
#include "document/measures.hpp"
#include "drawing/palette.hpp"
#include "layout/page.hpp"

/// The measures of the pages: grid, type scale. All in points, y down from the top edge.
namespace rigdeed::layout {

struct Style {
    Face face = Face::regular;
    Points size{9.25};
    Points leading{13};
    Colour colour = drawing::black;
};

namespace look {

inline constexpr Style body{Face::regular, 9.25_pt, 13_pt, drawing::black};
inline constexpr Style body_bold{Face::bold, 9.25_pt, 13_pt, drawing::black};
inline constexpr Style intro{Face::regular, 10.25_pt, 15_pt, drawing::black};
inline constexpr Style quiet{Face::regular, 7.75_pt, 10.4_pt, drawing::black_70};
inline constexpr Style note{Face::regular, 7_pt, 8.9_pt, drawing::black_70};
inline constexpr Style yacht{Face::light, 34_pt, 40_pt, drawing::black};
inline constexpr Style title{Face::light, 25_pt, 30_pt, drawing::black};
inline constexpr Style finding_title{Face::light, 19_pt, 22_pt, drawing::black};
inline constexpr Style answer{Face::black, 23_pt, 26_pt, drawing::black};
inline constexpr Style badge{Face::black, 15_pt, 17_pt, drawing::black};
inline constexpr Style verdict_word{Face::black, 11_pt, 14_pt, drawing::black};
inline constexpr Style subtitle{Face::regular, 11_pt, 14_pt, drawing::black};
inline constexpr Style letterhead{Face::bold, 11.5_pt, 14_pt, drawing::black};
inline constexpr Style count{Face::bold, 21_pt, 24_pt, drawing::black};
inline constexpr Style section{Face::bold, 10.5_pt, 14_pt, drawing::black};
inline constexpr Style remark{Face::regular, 8.25_pt, 10.8_pt, drawing::black_70};
inline constexpr Style row_title{Face::bold, 8.75_pt, 10.8_pt, drawing::black};
inline constexpr Style row_text{Face::regular, 8.25_pt, 10.8_pt, drawing::black};
inline constexpr Style label{Face::regular, 7.25_pt, 10_pt, drawing::black_62};
inline constexpr Style caption{Face::regular, 7.5_pt, 9.5_pt, drawing::black};
inline constexpr Style caption_bold{Face::bold, 7.5_pt, 9.5_pt, drawing::black};
inline constexpr Style foot{Face::regular, 7_pt, 9_pt, drawing::black_62};
inline constexpr Style fingerprint{Face::bold, 12_pt, 16_pt, drawing::black};

// To be read at arm's length.
inline constexpr Style tick_number{Face::bold, 14_pt, 17_pt, drawing::black};
inline constexpr Style tick_title{Face::bold, 10.5_pt, 11.8_pt, drawing::black};
inline constexpr Style tick_line{Face::regular, 9.25_pt, 10.6_pt, drawing::black};
inline constexpr Style tick_code{Face::regular, 9_pt, 10.8_pt, drawing::black};
inline constexpr Style tick_code_bold{Face::bold, 9_pt, 10.8_pt, drawing::black};
inline constexpr Style band{Face::bold, 11_pt, 14_pt, drawing::black};
inline constexpr Style gate{Face::bold, 14_pt, 18_pt, drawing::white};

inline constexpr Points rule{0.9};
inline constexpr Points hair{0.35};
inline constexpr Points gutter{10};

}  // namespace look

/// Where things stand on a sheet of paper.
struct Paper {
    Size size;
    Points left;    ///< of the text
    Points width;   ///< of the text
    Points header;  ///< baseline
    Points top;     ///< of the text
    Points bottom;  ///< of the text
    Points foot_rule;
    Points foot;         ///< baseline
    Points mast_axis;    ///< of the mast in the margin
    Points mast_column;  ///< width of the text beside it

    [[nodiscard]] Points right() const { return left + width; }
};

inline constexpr Paper a4{.size = row_of(PaperSize::a4).size,
                          .left = 51_pt,
                          .width = document::measures::text_width,
                          .header = 36_pt,
                          .top = 60_pt,
                          .bottom = 785_pt,
                          .foot_rule = 796_pt,
                          .foot = 808_pt,
                          .mast_axis = 560_pt,
                          .mast_column = document::measures::beside_mast};

/// As A4: the same left edge and widths, columns 50 shorter.
inline constexpr Paper letter{.size = row_of(PaperSize::letter).size,
                              .left = a4.left,
                              .width = a4.width,
                              .header = a4.header,
                              .top = a4.top,
                              .bottom = 735_pt,
                              .foot_rule = 746_pt,
                              .foot = 758_pt,
                              .mast_axis = 576_pt,
                              .mast_column = a4.mast_column};

constexpr const Paper& sheet_of(PaperSize paper) { return paper == PaperSize::letter ? letter : a4; }

}  // namespace rigdeed::layout
