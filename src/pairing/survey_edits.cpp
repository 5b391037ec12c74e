#include <algorithm>
#include <map>

#include "base/text.hpp"
#include "pairing/survey_pairing.hpp"

namespace rigdeed::pairing {
namespace {

using survey::Edit;
using survey::Where;

constexpr std::string_view opening = " pair: ";

struct Wanted {
    std::string far, close;
    std::optional<std::int64_t> at;
};

const char* name_of(Way pass) { return pass == Way::up ? "up" : "down"; }

const xml::Element* seen_in(const xml::Element& fitting, Way pass) {
    for (const xml::Element& child : fitting.children)
        if (child.name == "seen" && child.get("pass") == name_of(pass)) return &child;
    return nullptr;
}

// Looks stand before all else in a fitting, up before down.
Edit new_look(const xml::Element& fitting, Way pass, xml::Element added) {
    if (fitting.children.empty()) return survey::AddElement{Where::last_in, fitting.span.at, std::move(added)};
    const xml::Element& first = fitting.children.front();
    if (pass == Way::down && first.name == "seen")
        return survey::AddElement{Where::after, first.span.at, std::move(added)};
    return survey::AddElement{Where::before, first.span.at, std::move(added)};
}

class Writer {
 public:
    Writer(const Paired& paired, std::string_view text, const xml::Element& root)
        : paired_(paired), text_(text), root_(root) {}

    std::vector<Edit> run(const std::string& shows) {
        looks();
        doubts();
        rows(shows);
        return std::move(edits_);
    }

 private:
    void looks() {
        std::map<std::pair<std::string, Way>, Wanted> wanted;
        for (const Told& told : paired_.photos) {
            if (!told.sure || told.named || told.view == View::other) continue;
            for (const std::string& fitting : told.fittings) {
                Wanted& one = wanted[{fitting, told.pass}];
                (told.view == View::far ? one.far : one.close) = told.photo;
                if (told.view == View::close || !one.at) one.at = told.at;
            }
        }
        for (const auto& [where, what] : wanted)
            if (const xml::Element* fitting = survey::element_with_id(root_, where.first))
                write(*fitting, where.second, what);
    }

    static std::string time_of(const Wanted& wanted) { return TimeOfDay{static_cast<int>(*wanted.at)}.hh_mm(); }

    void write(const xml::Element& fitting, Way pass, const Wanted& wanted) {
        if (fitting.child("not-seen") != nullptr) return;  // somebody says so
        if (const xml::Element* seen = seen_in(fitting, pass)) {
            for (const auto& [name, photo] : {std::pair("far", &wanted.far), std::pair("close", &wanted.close)})
                if (!photo->empty() && !seen->get(name))
                    edits_.emplace_back(survey::SetAttribute{seen->span.at, name, *photo});
            if (wanted.at && seen->get("at").value_or("?") == "?")
                edits_.emplace_back(survey::SetAttribute{seen->span.at, "at", time_of(wanted)});
            return;
        }
        if (wanted.close.empty() || !wanted.at) return;
        xml::Element added;
        added.name = "seen";
        const auto set = [&](const char* name, const std::string& value) {
            xml::Attribute attribute;
            attribute.name = name;
            attribute.value = value;
            if (!value.empty()) added.attributes.push_back(std::move(attribute));
        };
        set("pass", name_of(pass));
        set("at", time_of(wanted));
        set("far", wanted.far);
        set("close", wanted.close);
        edits_.push_back(new_look(fitting, pass, std::move(added)));
    }

    // A comment for each photo in doubt, where it would stand; those of an earlier run that no longer hold go.
    void doubts() {
        std::map<std::string, std::vector<std::string>> wanted;
        for (const Told& told : paired_.photos) {
            if (told.sure || told.view == View::other || told.fittings.empty()) continue;
            wanted[told.fittings.front()].push_back(std::string(opening) + without_dashes(told.photo) + " may be the " +
                                                    (told.view == View::far ? "far" : "close") + " photo, pass " +
                                                    name_of(told.pass) + ": " + without_dashes(told.why) + " ");
        }
        for (const xml::Comment& comment : xml::comments(text_)) {
            const std::string words_there(text_.substr(comment.at + 4, comment.end - comment.at - 7));
            if (!words_there.starts_with(opening)) continue;
            bool stays = false;
            for (auto& [id, words] : wanted) {
                const xml::Element* fitting = survey::element_with_id(root_, id);
                if (fitting == nullptr || comment.at < fitting->span.at || comment.at >= fitting->span.end) continue;
                const auto same = std::find(words.begin(), words.end(), words_there);
                if (same == words.end()) continue;
                words.erase(same);
                stays = true;
                break;
            }
            if (!stays) edits_.emplace_back(survey::TakeComment{comment.at});
        }
        for (const auto& [id, words] : wanted)
            if (const xml::Element* fitting = survey::element_with_id(root_, id))
                for (const std::string& one : words)
                    edits_.emplace_back(survey::AddComment{Where::last_in, fitting->span.at, one});
    }

    static std::string without_dashes(std::string text) {
        for (auto at = text.find("--"); at != std::string::npos; at = text.find("--")) text.replace(at, 2, "- ");
        return text;
    }

    void rows(const std::string& shows) {
        const xml::Element* photos = root_.child("photos");
        if (photos == nullptr) return;
        for (const Told& told : paired_.photos) {
            if (told.named || told.of_place.empty()) continue;
            xml::Element added;
            added.name = "other";
            for (const auto& [name, value] : {std::pair("name", &told.photo), std::pair("shows", &shows)}) {
                xml::Attribute attribute;
                attribute.name = name;
                attribute.value = *value;
                added.attributes.push_back(std::move(attribute));
            }
            edits_.emplace_back(survey::AddElement{Where::last_in, photos->span.at, std::move(added)});
        }
    }

    const Paired& paired_;
    std::string_view text_;
    const xml::Element& root_;
    std::vector<Edit> edits_;
};

}  // namespace

std::vector<Edit> edits_for(const Paired& paired, std::string_view text, const xml::Element& root,
                            const std::string& shows) {
    return Writer(paired, text, root).run(shows);
}

}  // namespace rigdeed::pairing
