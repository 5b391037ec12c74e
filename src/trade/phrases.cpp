#include "trade/phrases.hpp"

#include <algorithm>
#include <array>
#include <functional>

#include "base/error.hpp"
#include "base/text.hpp"

namespace rigdeed::trade {
namespace {

/// Where words stand that a reader sees: an attribute of an element, or (no attribute) the text in it.
struct Prose {
    std::string_view element;
    std::string_view attribute;
};
constexpr std::array prose{
    Prose{"kind", "name"},       Prose{"part", "name"},
    Prose{"sign", "source"},     Prose{"plain", ""},
    Prose{"look", ""},           Prose{"hidden", ""},
    Prose{"name", ""},           Prose{"plainly", ""},
    Prose{"means", ""},          Prose{"do", ""},
    Prose{"then", ""},           Prose{"work", ""},
    Prose{"caution", ""},        Prose{"make", "name"},
    Prose{"demand", "name"},     Prose{"role", "name"},
    Prose{"instead", "name"},    Prose{"plan", "name"},
    Prose{"plan", "says"},       Prose{"parameter", "says"},
    Prose{"rule", "source"},     Prose{"bound", "source"},
    Prose{"milder", "source"},   Prose{"because", ""},
    Prose{"material", "name"},   Prose{"contradiction", "because"},
    Prose{"measure", "name"},    Prose{"interval", "source"},
    Prose{"band", "source"},     Prose{"band", "also"},
    Prose{"metal", "source"},    Prose{"construction", "source"},
    Prose{"grade", "source"},    Prose{"printed", "source"},
    Prose{"modulus", "source"},  Prose{"split-pin", "source"},
    Prose{"share", "source"},    Prose{"formula", "source"},
    Prose{"constant", "source"},
};

constexpr std::string_view keyword = "none";  // of <hidden>: not a text

/// Calls `with` for every text of the tree that is prose.
void for_each_text(xml::Element& element, const std::function<void(std::string&, int)>& with) {
    for (const Prose& one : prose) {
        if (one.element != element.name) continue;
        if (one.attribute.empty() && !trim(element.text).empty() && trim(element.text) != keyword)
            with(element.text, element.line);
        for (xml::Attribute& attribute : element.attributes)
            if (attribute.name == one.attribute && !attribute.value.empty()) with(attribute.value, attribute.line);
    }
    for (xml::Element& child : element.children) for_each_text(child, with);
}

}  // namespace

std::vector<std::string> fill_ins(std::string_view text) {
    std::vector<std::string> names;
    for (std::size_t open = text.find('{'); open != std::string_view::npos; open = text.find('{', open + 1))
        names.emplace_back(text.substr(open, text.find('}', open) - open));
    std::sort(names.begin(), names.end());
    return names;
}

std::vector<std::string> texts_of(const xml::Element& root) {
    std::vector<std::string> texts;
    xml::Element copy = root;
    for_each_text(copy, [&](std::string& text, int) { texts.push_back(squeezed(text)); });
    return texts;
}

void Phrases::read(const xml::Element& root, const std::string& file, Problems& problems) {
    for (const xml::Element& row : root.children) {
        const xml::Element* from = row.child("en");
        const xml::Element* to = row.child("to");
        const std::string english = from != nullptr ? squeezed(from->text) : std::string();
        const std::string words = to != nullptr ? squeezed(to->text) : std::string();
        const auto say = [&](const std::string& what, const std::string& hint) {
            problems.push_back({{file, row.line}, what, hint});
        };
        if (row.name != "p" || english.empty() || words.empty())
            say("a phrase is not whole", "write <p><en>…</en><to>…</to></p>");
        else if (fill_ins(english) != fill_ins(words))
            say("the translation of " + in_quotes(english) + " has other fill-ins", "keep each {…} as it is");
        else if (!phrases_.emplace(english, words).second)
            say(in_quotes(english) + " stands there twice", "delete one");
    }
}

void Phrases::translate(xml::Element& root, const std::string& must_know_all) const {
    if (phrases_.empty()) return;
    for_each_text(root, [&](std::string& text, int line) { replace(text, line, must_know_all); });
}

void Phrases::replace(std::string& text, int line, const std::string& must_know_all) const {
    const auto found = phrases_.find(squeezed(text));
    if (found != phrases_.end()) text = found->second;
    else if (!must_know_all.empty())
        throw Error("no translation of " + in_quotes(squeezed(text)), Position{must_know_all, line}.text(), {},
                    ExitCode::bug);
}

}  // namespace rigdeed::trade
