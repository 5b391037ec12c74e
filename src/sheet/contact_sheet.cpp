#include "sheet/contact_sheet.hpp"

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "trade/judge.hpp"

namespace rigdeed::sheet {
namespace {

using namespace document;
using pairing::Told;
using pairing::View;
using pairing::Why;
using survey::Way;

constexpr std::size_t loose_a_row = 5;

class Composer {
 public:
    explicit Composer(const ContactSheet& of) : of_(of), words_(of.trade.wording) {}

    Document compose() {
        Document sheet;
        const survey::Survey& survey = of_.survey;
        const std::string yacht = survey.yacht.name != "?" ? survey.yacht.name : std::string();
        sheet.head.yacht = yacht;
        sheet.foot.paper = words_("footer.survey", {{"number", survey.number}});
        sheet.foot.data = words_("contact.foot");
        sheet.foot.page_of_pages = words_("footer.page", {{"page", "{page}"}, {"pages", "{pages}"}});
        add(sheet, Heading{Level::title, words_("contact.title"), "", "contact", ""});
        add(sheet, Paragraph{join(subtitle(yacht), ", "), Tone::bold});
        add(sheet, Paragraph{counts(), Tone::body});
        add(sheet, Paragraph{words_("contact.intro"), Tone::quiet});
        cards(sheet);
        loose(sheet, "contact.loose", [](const Told& one) { return one.of_place.empty(); });
        loose(sheet, "contact.codes", [](const Told& one) { return !one.of_place.empty(); });
        unreadable(sheet);
        return sheet;
    }

 private:
    template <class T>
    static void add(Document& sheet, T block) {
        sheet.blocks.push_back(Block{std::move(block)});
    }

    std::vector<std::string> subtitle(const std::string& yacht) const {
        std::vector<std::string> parts;
        if (!yacht.empty()) parts.push_back(yacht);
        parts.push_back(words_("footer.survey", {{"number", of_.survey.number}}));
        parts.push_back(words_.date(of_.survey.attendance.on));
        return parts;
    }

    std::string counts() const {
        const auto& all = of_.paired.photos;
        const auto count = [&](auto fits) { return std::to_string(std::count_if(all.begin(), all.end(), fits)); };
        return words_("contact.counts",
                      {{"all", std::to_string(all.size())},
                       {"named", count([](const Told& one) { return one.named; })},
                       {"codes", count([](const Told& one) { return !one.named && !one.of_place.empty(); })},
                       {"sure", count([](const Told& one) { return is_sure(one); })},
                       {"doubtful", count([](const Told& one) { return !one.sure; })}});
    }

    static bool is_sure(const Told& one) { return one.sure && !one.named && one.of_place.empty(); }

    std::string how_sure(const Told& one) const {
        if (one.named) return words_("contact.named");
        constexpr std::array keys{"", "code", "order", "nothing", "several", "uncertain", "or-else"};
        const std::string why = words_(std::string("contact.why.") + keys[static_cast<std::size_t>(one.reason)],
                                       {{"fitting", one.next_best}});
        return words_(one.sure ? "contact.sure" : "contact.doubtful", {{"why", why}});
    }

    Picture picture(const Told& one, const std::string& role, const std::string& of) const {
        Picture block;
        block.role = role;
        const evidence::Photo* photo = of_.pictures.find(one.photo);
        const std::string name = of_.printable(photo != nullptr && !photo->file.empty() ? photo->file : one.photo);
        block.caption = name;
        block.second = how_sure(one);
        if (one.at) block.second = TimeOfDay{static_cast<int>(*one.at)}.hh_mm() + ", " + block.second;
        block.alternative = words_("photo.alternative", {{"name", name}, {"role", role}, {"fitting", of}});
        if (photo == nullptr || !photo->print.jpeg) return block;
        block.jpeg = photo->print.jpeg;
        block.width = photo->print.width;
        block.height = photo->print.height;
        return block;
    }

    /// Far ones first; each in the order they were taken.
    std::optional<PairCard> card(const survey::Fitting& fitting, const std::string& name, Way pass) const {
        PairCard card;
        card.title = capitalised(name);
        card.line = fitting.id + ", " + words_(pass == Way::up ? "sheet.place.up" : "sheet.place.down");
        for (const View view : {View::far, View::close})
            for (const Told& one : of_.paired.photos)
                if (one.view == view && one.pass == pass &&
                    std::find(one.fittings.begin(), one.fittings.end(), fitting.id) != one.fittings.end())
                    card.photos.push_back(picture(one, words_(view == View::far ? "photo.far" : "photo.close"), name));
        if (card.photos.empty()) return std::nullopt;
        return card;
    }

    void cards(Document& sheet) const {
        const auto names = trade::names_of_fittings(of_.survey, of_.trade);
        for (const Way pass : {Way::up, Way::down}) {
            PairGrid grid;
            for (std::size_t i = 0; i < of_.survey.fittings.size(); ++i)
                if (auto one = card(of_.survey.fittings[i], names[i].whole, pass))
                    grid.cards.push_back(std::move(*one));
            if (grid.cards.empty()) continue;
            const char* title = pass == Way::up ? "contact.up" : "contact.down";
            add(sheet, Heading{Level::section, words_(title), "", pass == Way::up ? "up" : "down", ""});
            add(sheet, std::move(grid));
        }
    }

    template <class Fits>
    void loose(Document& sheet, const std::string& key, const Fits& fits) const {
        PictureRow row;
        row.columns = loose_a_row;
        for (const Told& one : of_.paired.photos)
            if ((one.view == View::other || one.fittings.empty()) && fits(one))
                row.photos.push_back(picture(one, {}, words_(key)));
        if (row.photos.empty()) return;
        add(sheet, Heading{Level::section, words_(key), "", key, ""});
        add(sheet, std::move(row));
    }

    void unreadable(Document& sheet) const {
        if (of_.paired.unreadable.empty()) return;
        std::vector<std::string> names;
        for (const std::string& file : of_.paired.unreadable) names.push_back(of_.printable(file));
        add(sheet, Heading{Level::section, words_("contact.unreadable"), "", "unreadable", ""});
        add(sheet, Paragraph{join(names, ", "), Tone::body});
    }

    const ContactSheet& of_;
    const trade::Wording& words_;
};

}  // namespace

Document compose_contact_sheet(const ContactSheet& of) { return Composer(of).compose(); }

}  // namespace rigdeed::sheet
