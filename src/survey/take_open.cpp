#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "survey/read_parts.hpp"

namespace rigdeed::survey {
namespace {

/// In these a question may end in its mark; only a "?" alone is one of the form's.
constexpr std::array<std::string_view, 19> in_words{
    "name",  "firm",  "qualification", "contact",   "independence", "place", "because", "weather", "shows", "reason",
    "where", "xmlns", "indemnity",     "standards", "statement",    "by",    "left",    "done",    "with"};

bool only_marks(std::string_view text) {
    return !text.empty() && text.find_first_not_of("? ") == std::string_view::npos;
}

class Taker {
 public:
    std::vector<Open> run(xml::Element& root) {
        for (xml::Attribute& attribute : root.attributes) take(root.name, attribute);
        for (xml::Element& child : root.children) walk({}, child);
        return std::move(open_);
    }

 private:
    void walk(const std::string& parent, xml::Element& element) {
        const std::string place = place_of(parent, element.name, element.get("id").value_or(""));
        for (xml::Attribute& attribute : element.attributes) take(place, attribute);
        if (only_marks(squeezed(element.text))) open_.push_back({element.line, place, {}, {}});
        const bool list = element.name == "rig" || element.name == "fittings";
        for (xml::Element& child : element.children) walk(list ? std::string() : place, child);
    }

    void take(const std::string& place, xml::Attribute& attribute) {
        const std::string text = squeezed(attribute.value);
        if (only_marks(text)) return open_.push_back({attribute.line, place, attribute.name, {}});
        if (std::find(in_words.begin(), in_words.end(), attribute.name) != in_words.end() || !text.ends_with('?'))
            return;
        attribute.value = text.substr(0, text.find_last_not_of("? ") + 1);
        open_.push_back({attribute.line, place, attribute.name, attribute.value});
    }

    std::vector<Open> open_;
};

}  // namespace

std::string place_of(std::string_view parent, std::string_view name, std::string_view id) {
    if (!id.empty()) return std::string(id);
    return (parent.empty() ? std::string() : std::string(parent) + "/") + std::string(name);
}

std::vector<Open> take_open(xml::Element& root) { return Taker().run(root); }

}  // namespace rigdeed::survey
