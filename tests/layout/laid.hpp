#pragma once

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <filesystem>
#include <map>
#include <memory>
#include <string>

#include "base/text.hpp"
#include "drawing/rig_geometry.hpp"
#include "layout/placed.hpp"
#include "pdf/font_metrics.hpp"
#include "pipeline.hpp"
#include "report/compose.hpp"

/// Surveys laid out, and what must hold of their pages.
namespace rigdeed::sample {

inline const trade::Trade& the_trade(const std::string& language) {
    static std::map<std::string, trade::Trade> loaded;
    const auto known = loaded.find(language);
    return known != loaded.end() ? known->second
                                 : loaded.emplace(language, trade::load_trade({}, language)).first->second;
}

struct Laid {
    std::unique_ptr<Inspected> inspected;
    document::Document document;
    OnPaper on;
};

inline Laid lay_out(const std::filesystem::path& file, const layout::Paper& paper, const std::string& language) {
    Laid laid{inspect(file, the_trade(language), {.jobs = 2, .for_print = true, .units = {}, .progress = {}}).inspected,
              {},
              {{}, paper}};
    const Inspected& inspected = *laid.inspected;
    const auto rig = drawing::rig_geometry(inspected.survey, the_trade(language));
    laid.document = report::compose_report({inspected.survey,
                                            the_trade(language),
                                            inspected.evidence,
                                            inspected.completeness,
                                            inspected.assessment,
                                            inspected.calculations,
                                            rig,
                                            inspected.units,
                                            {},
                                            {2026, 10, 5},
                                            report::SignerFacts{"A. Surveyor", "", std::string(64, 'a'), "2030-01-01"},
                                            {}});
    laid.on.pages = layout::paginate(laid.document, *pdf::font_metrics(), paper);
    return laid;
}

inline double luminance(Colour colour) {
    const auto part = [](double value) {
        value /= 255;
        return value <= 0.03928 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * part(colour.red) + 0.7152 * part(colour.green) + 0.0722 * part(colour.blue);
}

inline bool begins_with_unit(const std::string& text) {
    for (const char* unit : {"mm", "m", "kN", "kg", "%", "°", "kgf", "lbf", "N/mm²"})
        if (text == unit || text.starts_with(std::string(unit) + " ") || text.starts_with(std::string(unit) + ",") ||
            text.starts_with(std::string(unit) + ";"))
            return true;
    return false;
}

/// As in "3 October", "3. Oktober", "1er mars", "3 de octubre": the beginnings are those of glibc's abbreviated names.
inline bool begins_with_month(const std::string& text) {
    for (const char* month : {"Jan", "Feb", "Mar", "Mär", "Apr",  "May",  "Mai", "Jun",   "Jul", "Aug",   "Sep", "Oct",
                              "Okt", "Nov", "Dec", "Dez", "jan",  "févr", "mar", "avril", "mai", "jui",   "aoû", "sep",
                              "oct", "nov", "déc", "ene", "febr", "abri", "may", "ago",   "dic", "de oct"})
        if (text.starts_with(month)) return true;
    return false;
}

inline bool ends_with_day(const std::string& text) {
    std::string word = text.substr(text.rfind(' ') + 1);
    if (word.ends_with('.')) word.pop_back();
    return !word.empty() && word.size() <= 2 && word.find_first_not_of("0123456789") == std::string::npos;
}

/// How many texts were looked at.
inline std::size_t check(const OnPaper& on) {
    std::size_t texts = 0;
    std::map<layout::ElementIndex, const layout::PlacedText*> last;
    for (std::size_t i = 0; i < on.pages.pages.size(); ++i) {
        Points lowest = on.paper.top;
        Points smallest_circle{1000};
        for (const auto& item : on.pages.pages[i].items) {
            if (const auto* image = std::get_if<layout::PlacedImage>(&item)) {
                lowest = std::max(lowest, image->box.bottom());
                if (image->clip) smallest_circle = std::min(smallest_circle, image->clip->radius);
            }
            const auto* text = std::get_if<layout::PlacedText>(&item);
            if (text == nullptr || text->tilt != 0) continue;
            ++texts;
            if (text->baseline.y < on.paper.bottom) lowest = std::max(lowest, text->baseline.y);
            const bool in_a_mark = text->text.find_first_not_of("0123456789 ") == std::string::npos;
            CHECK_MESSAGE((in_a_mark || text->size >= 6.5_pt), "page ", i + 1, ": ", text->text);
            // on white, and on the tint behind the rig, both seen through a preview's stamp
            const double ink = luminance(text->colour);
            const bool reversed = ink > 0.9;
            constexpr Colour tint{0xE3 * 92 / 100, 0xF1 * 92 / 100, 0xFB * 92 / 100};
            if (!reversed) CHECK_MESSAGE((luminance(tint) + 0.05) / (ink + 0.05) >= 4.5, text->text);
            if (text->element == layout::artifact) continue;
            const layout::PlacedText*& before = last[text->element];
            if (before != nullptr && before->baseline.y < text->baseline.y) {
                std::string end = before->text;
                while (end.ends_with(' ')) end.pop_back();
                const bool digit = !end.empty() && end.back() >= '0' && end.back() <= '9';
                CHECK_MESSAGE(!(ends_with_day(end) && begins_with_month(text->text)), "page ", i + 1, ": ", end, " | ",
                              text->text);
                CHECK_MESSAGE(!(digit && begins_with_unit(text->text)), "page ", i + 1, ": ", end, " | ", text->text);
                const bool closes =
                    text->text.size() > 1 && std::string(":;!?").find(text->text[0]) != std::string::npos;
                CHECK_MESSAGE(!closes, "page ", i + 1, " begins a line with \"", text->text, "\"");
            }
            before = text;
        }
        const Points left_free = on.paper.bottom - lowest;
        if (smallest_circle < 90_pt && i + 1 < on.pages.pages.size())
            CHECK_MESSAGE(left_free < (on.paper.bottom - on.paper.top) * (1.0 / 3), "page ", i + 1, ": empty by ",
                          left_free.value, " under a circle of ", smallest_circle.value);
    }
    return texts;
}

}  // namespace rigdeed::sample
