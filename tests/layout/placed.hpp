#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "layout/paginate.hpp"

/// What is wrong with pages, seen by where their items came to stand.
namespace rigdeed::sample {

struct OnPaper {
    layout::Pages pages;
    layout::Paper paper;
};

/// From a little above the x-height to the baseline: where two of these meet, letters lie on letters.
inline Box core_of(const layout::PlacedText& text) {
    return {{text.baseline.x, text.baseline.y - text.size * 0.46}, {text.width, text.size * 0.46}};
}

inline bool meet(const Box& a, const Box& b) {
    constexpr Points slack{0.3};
    return a.left() + slack < b.right() && b.left() + slack < a.right() && a.top() + slack < b.bottom() &&
           b.top() + slack < a.bottom();
}

/// Two texts of a page that lie on each other, but for watermarks and numbers in shapes that hide what is below.
inline std::vector<std::string> overlaps(const OnPaper& report) {
    std::vector<std::string> found;
    for (std::size_t page = 0; page < report.pages.pages.size(); ++page) {
        std::vector<const layout::PlacedText*> texts;
        for (const auto& item : report.pages.pages[page].items)
            if (const auto* text = std::get_if<layout::PlacedText>(&item))
                if (text->tilt == 0 && text->alpha == 1) texts.push_back(text);
        for (std::size_t i = 0; i < texts.size(); ++i)
            for (std::size_t k = i + 1; k < texts.size(); ++k)
                if (meet(core_of(*texts[i]), core_of(*texts[k])))
                    found.push_back("page " + std::to_string(page + 1) + ": \"" + texts[i]->text + "\" and \"" +
                                    texts[k]->text + "\"");
    }
    return found;
}

inline Box bounds_of(const drawing::Path& path) {
    Box box{{1e9_pt, 1e9_pt}, {}};
    Points right{-1e9}, bottom{-1e9};
    const auto take = [&](Point p) {
        box.at.x = std::min(box.at.x, p.x), box.at.y = std::min(box.at.y, p.y);
        right = std::max(right, p.x), bottom = std::max(bottom, p.y);
    };
    for (const drawing::Segment& segment : path) {
        if (const auto* move = std::get_if<drawing::MoveTo>(&segment)) take(move->to);
        if (const auto* line = std::get_if<drawing::LineTo>(&segment)) take(line->to);
        if (const auto* curve = std::get_if<drawing::CurveTo>(&segment)) take(curve->to);
    }
    box.size = Size{right - box.at.x, bottom - box.at.y};
    return box;
}

/// Words under a filled shape or a photo that was set after them: marks over labels, figures crossed out.
inline std::vector<std::string> covered(const OnPaper& report) {
    std::vector<std::string> found;
    for (std::size_t page = 0; page < report.pages.pages.size(); ++page) {
        std::vector<const layout::PlacedText*> texts;
        for (const auto& item : report.pages.pages[page].items) {
            std::optional<Box> cover;
            if (const auto* text = std::get_if<layout::PlacedText>(&item); text != nullptr && text->tilt == 0)
                texts.push_back(text);
            if (const auto* image = std::get_if<layout::PlacedImage>(&item)) cover = image->box;
            if (const auto* shape = std::get_if<layout::PlacedShape>(&item))
                if (shape->shape.fill && shape->shape.alpha == 1) cover = bounds_of(shape->shape.path);
            if (!cover) continue;
            constexpr Points slack{1.2};  // corners of a box that a round shape does not fill
            const Box inner{{cover->at.x + slack, cover->at.y + slack},
                            {cover->size.width - slack * 2, cover->size.height - slack * 2}};
            if (inner.size.width <= 0_pt || inner.size.height <= 0_pt) continue;
            for (const layout::PlacedText* text : texts)
                if (meet(core_of(*text), inner))
                    found.push_back("page " + std::to_string(page + 1) + ": \"" + text->text + "\" is covered");
        }
    }
    return found;
}

inline std::vector<std::string> outside(const OnPaper& report) {
    std::vector<std::string> found;
    const Points left = report.paper.left - 2_pt, foot = report.paper.foot + 3_pt;
    const Points right = report.paper.size.width - 8_pt;
    for (std::size_t page = 0; page < report.pages.pages.size(); ++page)
        for (const auto& item : report.pages.pages[page].items) {
            if (const auto* text = std::get_if<layout::PlacedText>(&item))
                if (text->tilt == 0 &&
                    (text->baseline.x < left || text->baseline.x + text->width > right || text->baseline.y > foot))
                    found.push_back("page " + std::to_string(page + 1) + ": \"" + text->text + "\"");
            if (const auto* image = std::get_if<layout::PlacedImage>(&item))
                if (image->box.left() < left || image->box.right() > report.paper.right() + 1_pt ||
                    image->box.bottom() > report.paper.bottom + 1_pt)
                    found.push_back("page " + std::to_string(page + 1) + ": a photo");
        }
    return found;
}

}  // namespace rigdeed::sample
