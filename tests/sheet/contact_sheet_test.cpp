#include "sheet/contact_sheet.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>

#include "layout/placed.hpp"
#include "pdf/font_metrics.hpp"
#include "survey/sample.hpp"

using namespace rigdeed;
using pairing::Told;
using pairing::View;
using pairing::Why;
using survey::Way;

namespace {

const trade::Trade& the_trade(const std::string& language) {
    static std::map<std::string, trade::Trade> loaded;
    const auto known = loaded.find(language);
    if (known != loaded.end()) return known->second;
    return loaded.emplace(language, trade::load_trade({}, language)).first->second;
}

survey::Survey rig(int stays) {
    std::string all_stays, fittings;
    for (int i = 0; i < stays; ++i) {
        const std::string id = "stay-" + std::to_string(i);
        all_stays += sample::stay(id);
        fittings += sample::fitting(id + "-plate", "chainplate", id, "deck") +
                    sample::fitting(id + "-line", "strand", id, "mast");
    }
    return sample::with(all_stays, fittings);
}

struct Sheet {
    survey::Survey survey;
    pairing::Paired paired;
    evidence::Evidence pictures;
};

void add(Sheet& sheet, Told told, const std::string& file, int width = 224, int height = 168) {
    evidence::Photo photo;
    photo.name = told.photo;
    photo.file = file;
    if (width > 0) {
        photo.print.jpeg = std::make_shared<const Bytes>(Bytes{0});
        photo.print.width = width;
        photo.print.height = height;
    }
    sheet.pictures.add(std::move(photo));
    sheet.paired.photos.push_back(std::move(told));
}

Told told(const std::string& photo, std::vector<std::string> fittings, Way pass, View view, Why reason, bool sure) {
    Told one;
    one.photo = photo;
    one.fittings = std::move(fittings);
    one.pass = pass;
    one.view = view;
    one.reason = reason;
    one.sure = sure;
    one.at = 9 * 3600;
    return one;
}

/// One far photo a stay, of both its fittings; a close one a fitting; photos of nothing, of a code; one unreadable.
Sheet full(int stays) {
    Sheet sheet{rig(stays), {}, {}};
    int number = 0;
    const auto name = [&] { return "P" + std::to_string(1000 + number++); };
    for (const Way pass : {Way::up, Way::down})
        for (int i = 0; i < stays; ++i) {
            const std::string id = "stay-" + std::to_string(i);
            const std::string far = name();
            add(sheet, told(far, {id + "-plate", id + "-line"}, pass, View::far, Why::order, true), far + ".jpg");
            for (const char* part : {"-plate", "-line"}) {
                Told one = told(name(), {id + part}, pass, View::close, Why::or_else, false);
                one.next_best = id + (part == std::string("-plate") ? "-line" : "-plate");
                const bool upright = number % 3 == 0;
                const std::string file =
                    one.photo + (number % 2 != 0 ? ".HEIC" : " a long name from a telephone 2026.jpg");
                add(sheet, std::move(one), file, upright ? 168 : 224, upright ? 224 : 168);
            }
        }
    Told code = told("C1", {}, Way::up, View::other, Why::code, true);
    code.of_place = "AB123";
    add(sheet, std::move(code), "C1.jpg");
    add(sheet, told("X1", {}, Way::up, View::other, Why::nothing_in_turn, false), "X1.jpg", 0);
    Told named = told("N1", {}, Way::up, View::other, Why::survey, true);
    named.named = true;
    add(sheet, std::move(named), "N1.jpg");
    sheet.paired.unreadable = {"broken.jpg"};
    return sheet;
}

sample::OnPaper printed(const Sheet& sheet, PaperSize size, const std::string& language = "en") {
    const layout::Paper paper = layout::sheet_of(size);
    const auto composed = sheet::compose_contact_sheet({sheet.survey, the_trade(language), sheet.paired, sheet.pictures,
                                                        [](const std::string& name) { return name; }});
    return {layout::paginate(composed, *pdf::font_metrics(), paper), paper};
}

std::string words_of(const sample::OnPaper& sheet) {
    std::string all;
    for (const layout::Page& page : sheet.pages.pages)
        for (const auto& item : page.items)
            if (const auto* text = std::get_if<layout::PlacedText>(&item)) all += text->text + " ";
    for (auto at = all.find("  "); at != std::string::npos; at = all.find("  ", at)) all.erase(at, 1);
    return all;
}

std::size_t count(const std::string& text, const std::string& piece) {
    std::size_t found = 0;
    for (auto at = text.find(piece); at != std::string::npos; at = text.find(piece, at + 1)) ++found;
    return found;
}

std::vector<Box> pictures_of(const layout::Page& page) {
    std::vector<Box> boxes;
    for (const auto& item : page.items)
        if (const auto* image = std::get_if<layout::PlacedImage>(&item)) boxes.push_back(image->box);
    return boxes;
}

}  // namespace

TEST_CASE("contact sheet: nothing lies on anything else, on either paper, in every language") {
    const Sheet sheet = full(9);
    for (const PaperSize size : {PaperSize::a4, PaperSize::letter})
        for (const std::string language : {"en", "de", "es", "fr"}) {
            const sample::OnPaper paper = printed(sheet, size, language);
            CAPTURE(language);
            CHECK(paper.pages.pages.size() > 1);
            for (const std::string& one : sample::overlaps(paper)) CHECK_MESSAGE(false, one);
            for (const std::string& one : sample::outside(paper)) CHECK_MESSAGE(false, one);
            for (const layout::Page& page : paper.pages.pages) {
                const auto boxes = pictures_of(page);
                for (std::size_t i = 0; i < boxes.size(); ++i) {
                    for (std::size_t k = i + 1; k < boxes.size(); ++k) CHECK(!sample::meet(boxes[i], boxes[k]));
                    for (const auto& item : page.items)
                        if (const auto* text = std::get_if<layout::PlacedText>(&item))
                            CHECK_MESSAGE(!sample::meet(boxes[i], sample::core_of(*text)), text->text);
                }
            }
        }
}

TEST_CASE("contact sheet: each photo stands once at each fitting that it shows, by its file's name") {
    const Sheet sheet = full(4);
    const sample::OnPaper paper = printed(sheet, PaperSize::a4);
    const std::string words = words_of(paper);
    std::size_t uses = 0, pictures = 0;
    for (const Told& one : sheet.paired.photos) {
        const evidence::Photo* photo = sheet.pictures.find(one.photo);
        const std::size_t wanted = std::max<std::size_t>(1, one.fittings.size());
        CHECK_MESSAGE(count(words, one.photo) == wanted, one.photo);
        CHECK(count(words, photo->file.substr(photo->file.rfind('.'))) >= wanted);
        if (photo->print.jpeg) uses += wanted;
    }
    for (const layout::Page& page : paper.pages.pages) pictures += pictures_of(page).size();
    CHECK(pictures == uses);
    CHECK(count(words, "broken.jpg") == 1);
    for (const char* said : {"or else stay-0-line", "order and time", "named in the survey", "the code in it",
                             "it fits nothing in turn", "Photos: 27."})
        CHECK_MESSAGE(count(words, said) >= 1, said);
}

TEST_CASE("contact sheet: passes, roles and who is sure follow what was proposed") {
    const Sheet sheet = full(3);
    const std::string words = words_of(printed(sheet, PaperSize::a4));
    CHECK(count(words, "far ") >= 12);
    CHECK(count(words, "close ") == 12);
    CHECK(count(words, "sure: order and time") == 12);  // one far photo of two fittings, on two passes
    CHECK(count(words, "in doubt: ") == 14);            // twelve close ones, one of nothing, and their number
    CHECK(words.find("Going up") < words.find("Coming down"));
    CHECK(words.find("Coming down") < words.find("Of nothing in turn"));
    CHECK(words.find("Of nothing in turn") < words.find("Codes of places"));
}

TEST_CASE("contact sheet: a folder without photos makes a page that says so") {
    const Sheet none{rig(1), {}, {}};
    const sample::OnPaper paper = printed(none, PaperSize::a4);
    CHECK(paper.pages.pages.size() == 1);
    CHECK(count(words_of(paper), "Photos: 0.") == 1);
    CHECK(pictures_of(paper.pages.pages.front()).empty());
}
