#include <algorithm>
#include <map>

#include "base/json.hpp"
#include "base/text.hpp"
#include "completeness/completeness.hpp"
#include "crypto/digest.hpp"
#include "drawing/schematic.hpp"
#include "drawing/svg.hpp"
#include "drawing/verdict_shape.hpp"
#include "marking/marking.hpp"
#include "marks/marks.hpp"
#include "page/page.hpp"
#include "trade/judge.hpp"

namespace rigdeed::marking {
namespace {

using survey::Way;

constexpr std::string_view prefix = "mark.";

class Composer {
 public:
    explicit Composer(const Material& material) : m_(material), words_(material.trade.wording) {}

    std::string data() {
        json_.begin_object();
        survey();
        json_.key("words").begin_object();
        for (const auto& [key, words] : words_.all())
            if (key.starts_with(prefix)) json_.field(key.substr(prefix.size()), words);
        for (const survey::Verdict verdict : survey::worst_first) {
            const std::string name = survey::name_of(verdict);
            json_.field("verdict." + name, words_("verdict." + name));
        }
        json_.end();
        photos();
        fittings();
        kinds();
        schematics();
        json_.end();
        return json_.text();
    }

    std::string drawings() const {
        std::string all;
        for (const survey::Verdict verdict : survey::worst_first)
            all += drawing::svg_symbol(drawing::verdict_alone(verdict), drawing::Ink::as_drawn,
                                       "verdict-" + survey::name_of(verdict));
        for (const auto& [name, schematic] : used_)
            all += drawing::svg_symbol(schematic.drawing, drawing::Ink::of_page, "schematic-" + name);
        return all;
    }

 private:
    void survey() {
        json_.key("survey").begin_object();
        json_.field("file", m_.file).field("number", m_.survey.number).field("yacht", m_.survey.yacht.name);
        json_.field("sha256", crypto::sha256(m_.text).hex());
        json_.field("climbed", survey::name_of(m_.survey.attendance.climbed));
        json_.end();
    }

    void cell(const marks::Cell& cell) {
        json_.begin_object();
        for (const auto& [name, value] : cell.attributes) json_.field(name, value);
        if (!cell.words.empty()) json_.field("words", cell.words);
        json_.end();
    }

    void photos() {
        std::map<std::string, const pairing::Told*> told;
        for (const pairing::Told& one : m_.paired.photos) told.emplace(one.photo, &one);
        json_.key("photos").begin_array();
        for (const Picture& picture : m_.pictures) {
            const evidence::Photo& photo = *picture.photo;
            json_.begin_object().field("name", picture.name).field("address", picture.address);
            json_.field("width", photo.width).field("height", photo.height);
            if (photo.print.jpeg) json_.field("small", page::data_url(*photo.print.jpeg));
            if (!photo.usable()) json_.field("trouble", completeness::reason_words(photo, words_));
            if (const auto scale = photo.scale(); scale && !photo.drawn_scale)
                json_.key("scale").number(scale->value, 5);
            if (const auto one = told.find(picture.name); one != told.end()) proposal(*one->second);
            json_.end();
        }
        json_.end();
        const xml::Element* element = m_.root.child("photos");
        for (const auto& [key, about] : {std::pair("scales", marks::About::scale), {"others", marks::About::other}}) {
            const marks::Shape& shape = marks::shape_of(about);
            json_.key(key).begin_object();
            if (element != nullptr)
                for (const xml::Element& child : element->children)
                    if (const auto name = child.get(shape.name); child.name == shape.in_survey && name) {
                        json_.key(*name);
                        cell(marks::cell_of(child, shape));
                    }
            json_.end();
        }
    }

    void proposal(const pairing::Told& told) {
        if (told.at) json_.field("at", TimeOfDay{static_cast<int>(*told.at)}.hh_mm_ss());
        if (!told.of_place.empty()) json_.field("code", true);
        if (told.named || told.view == pairing::View::other || told.fittings.empty()) return;
        json_.key("proposed").begin_object().key("fittings").begin_array();
        for (const std::string& fitting : told.fittings) json_.value(fitting);
        json_.end().field("pass", survey::name_of(told.pass));
        json_.field("view", told.view == pairing::View::far ? "far" : "close").field("sure", told.sure).end();
    }

    void fittings() {
        const auto names = trade::names_of_fittings(m_.survey, m_.trade);
        json_.key("fittings").begin_array();
        for (std::size_t i = 0; i < m_.survey.fittings.size(); ++i) {
            const survey::Fitting& fitting = m_.survey.fittings[i];
            json_.begin_object().field("id", fitting.id).field("name", names[i].whole).field("kind", fitting.kind);
            json_.field("before", trade::said_before(fitting, m_.trade));
            json_.field("station", fitting.station).field("height", words_.numbers(fitting.height.text));
            survey::Fitting bare = fitting;  // what must be seen as long as nothing is said against it
            bare.not_seen.reset();
            bare.not_seen_in.clear();
            json_.key("must").begin_array();
            for (const Way pass : {Way::up, Way::down})
                if (completeness::must_be_seen(bare, pass, m_.survey)) json_.value(survey::name_of(pass));
            json_.end();
            bars(fitting);
            known(fitting);
            said(fitting);
            json_.end();
        }
        json_.end();
    }

    /// Signs that stop a climber at this fitting's station.
    void bars(const survey::Fitting& fitting) {
        json_.key("bars").begin_array();
        if (const trade::Kind* kind = m_.trade.kind(fitting.kind))
            for (const auto* rules : {&kind->signs, &m_.trade.any_signs})
                for (const trade::SignRule& rule : *rules)
                    if (trade::bars_at(rule, fitting)) json_.value(rule.code);
        json_.end();
    }

    void known_length(const std::string& of, const std::string& text) {
        const auto value = read_measure(text, Measure::length).value;
        if (!value || value->value <= 0) return;
        json_.begin_object().field("of", of).field("length", text).key("mm").number(value->value, 4).end();
    }

    /// What of this fitting and its stay has a size that the survey knows: to set a photo's scale by.
    void known(const survey::Fitting& fitting) {
        json_.key("known").begin_array();
        const survey::Stay* stay = m_.survey.stay(fitting.stay);
        if (stay != nullptr) {
            const trade::Make* make = m_.trade.make(stay->make);
            known_length(make != nullptr ? make->name : stay->make, stay->diameter.text);
            for (const survey::StayEnd& end : stay->ends)
                if (end.pin) known_length(words_("mark.known.pin"), end.pin->text);
        }
        for (const survey::Fitting& other : m_.survey.fittings) {
            if (&other != &fitting &&
                (stay == nullptr || other.stay != fitting.stay || other.station != fitting.station))
                continue;
            for (const survey::Measured& measured : other.measured)
                if (const auto* name = m_.trade.tables.measure(measured.what);
                    measured.from.empty() && name != nullptr && name->measure == Measure::length)
                    known_length(name->name, measured.value);
        }
        json_.end();
    }

    /// What the file says of it, as it is written there.
    void said(const survey::Fitting& fitting) {
        const xml::Element* fittings = m_.root.child("fittings");
        const auto found = std::find_if(fittings->children.begin(), fittings->children.end(),
                                        [&](const xml::Element& one) { return one.get("id") == fitting.id; });
        if (found == fittings->children.end()) return;
        json_.key("looks").begin_object();
        for (const xml::Element& child : found->children) {
            if (child.name != "seen") continue;
            json_.key(child.get("pass").value_or("up")).begin_object().key("look");
            cell(marks::cell_of(child, marks::shape_of(marks::About::look)));
            json_.key("signs").begin_array();
            for (const xml::Element& sign : child.children)
                if (sign.name == "sign") cell(marks::cell_of(sign, marks::shape_of(marks::About::sign)));
            json_.end().end();
        }
        json_.end().key("unseen").begin_object();
        for (const xml::Element& child : found->children)
            if (child.name == "not-seen")
                json_.field(child.get("pass").value_or("both"), squeezed(child.get("reason").value_or("")));
        json_.end().key("measured").begin_object();
        std::vector<std::string> taken;
        for (const xml::Element& child : found->children) {
            const std::string what = child.get("what").value_or("");
            if (child.name != "measured" || std::find(taken.begin(), taken.end(), what) != taken.end()) continue;
            taken.push_back(what);
            json_.key(what);
            cell(marks::cell_of(child, marks::shape_of(marks::About::measured)));
        }
        json_.end();
    }

    void kinds() {
        std::map<std::string, const trade::Kind*> used;
        for (const survey::Fitting& fitting : m_.survey.fittings)
            if (const trade::Kind* kind = m_.trade.kind(fitting.kind)) used.emplace(kind->id, kind);
        json_.key("kinds").begin_object();
        for (const auto& [id, kind] : used) {
            json_.key(id).begin_object().field("name", kind->name).field("look", kind->look);
            json_.field("schematic", kind->schematic).key("signs").begin_array();
            for (const auto* rules : {&kind->signs, &m_.trade.any_signs})
                for (const trade::SignRule& rule : *rules) {
                    json_.begin_object().field("code", rule.code).field("name", rule.name).field("at", rule.at);
                    json_.field("verdict", survey::name_of(rule.verdict)).field("means", rule.means).end();
                }
            json_.end().key("measures").begin_array();
            for (const trade::MeasureName& row : m_.trade.tables.measures) {
                const bool fits =
                    row.kinds.empty() || std::find(row.kinds.begin(), row.kinds.end(), id) != row.kinds.end();
                if (!fits || (row.measure != Measure::length && row.measure != Measure::angle)) continue;
                json_.begin_object().field("id", row.id).field("name", row.name);
                json_.field("angle", row.measure == Measure::angle).key("least").number(row.least, 3);
                json_.key("most").number(row.most, 3).end();
            }
            json_.end().end();
            if (auto schematic = drawing::schematic(kind->schematic, [&](std::string_view key) { return words_(key); }))
                used_.emplace(kind->schematic, std::move(*schematic));
        }
        json_.end();
    }

    void schematics() {
        json_.key("schematics").begin_object();
        for (const auto& [name, schematic] : used_) {
            json_.key(name).begin_object().field("alternative", schematic.drawing.alternative);
            json_.key("width").number(schematic.drawing.size.width.value, 1);
            json_.key("height").number(schematic.drawing.size.height.value, 1).key("spots").begin_array();
            for (const std::string& key : schematic.label_keys)
                if (const auto spot = schematic.spots.find(key); spot != schematic.spots.end()) {
                    std::string label = words_("schematic.label." + key);
                    std::replace(label.begin(), label.end(), '/', ' ');  // where the drawing breaks its line
                    json_.begin_object().field("key", key).field("label", label);
                    json_.key("x").number(spot->second.x.value, 1).key("y").number(spot->second.y.value, 1).end();
                }
            json_.end().end();
        }
        json_.end();
    }

    const Material& m_;
    const trade::Wording& words_;
    JsonWriter json_;
    std::map<std::string, drawing::Schematic> used_;
};

}  // namespace

std::string compose(const Material& material) {
    Composer composer(material);
    page::Page page;
    const trade::Wording& words = material.trade.wording;
    page.title = words("mark.title", {{"number", material.survey.number}});
    page.language = words.language();
    page.styles = {"look.css", "marking.css"};
    page.scripts = {"elements.js", "words.js", "geometry.js", "state.js", "missing.js", "keep.js", "save.js",
                    "viewer.js",   "tools.js", "roll.js",     "panel.js", "list.js",    "keys.js", "marking.js"};
    page.body = "marking.html";
    page.data = composer.data();
    page.drawings = composer.drawings();
    page.pictures_of_folder = true;
    return page::html(page);
}

}  // namespace rigdeed::marking
