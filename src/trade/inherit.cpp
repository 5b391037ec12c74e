#include "trade/inherit.hpp"

#include <algorithm>
#include <array>

#include "base/resources.hpp"
#include "base/text.hpp"

namespace rigdeed::trade {
namespace {

using xml::Element;

struct Row {
    std::string_view root;
    std::string_view element;
    std::string_view files;
    std::vector<std::vector<std::string>> attributes;  ///< those of one group go together
};
const std::array rows{
    Row{"kinds", "kind", "kinds/", {{"is"}, {"stands"}}},
    Row{"roles", "role", "plans/roles.xml", {{"runs"}, {"foot", "along", "out"}, {"over-tips"}, {"pairs"}, {"sail"}}},
    Row{"materials", "material", "tables/materials.xml", {{"now"}, {"calculated"}}}};

std::vector<Element> ours_of(const Row& row) {
    std::vector<Element> ours;
    for (const Resource& file : resources()) {
        if (!std::string_view(file.name).starts_with(row.files)) continue;
        auto [root, problems] = xml::read(file.bytes, std::string(file.name));
        if (!root) continue;
        for (Element& child : root->children)
            if (child.name == row.element) ours.push_back(std::move(child));
    }
    return ours;
}

const Element* find(const std::vector<Element>& elements, std::string_view attribute, std::string_view value) {
    const auto found = std::find_if(elements.begin(), elements.end(),
                                    [&](const Element& one) { return one.get(attribute) == std::string(value); });
    return found != elements.end() ? &*found : nullptr;
}

/// Unless it has one of them, all of them.
void take_over(Element& own, const Element& from, const std::vector<std::string>& attributes) {
    for (const std::string& name : attributes)
        if (own.find(name) != nullptr) return;
    for (const std::string& name : attributes)
        if (const xml::Attribute* attribute = from.find(name)) {
            own.attributes.push_back(*attribute);
            own.attributes.back().line = own.line;
        }
}

bool are_the_same(const Element& a, const Element& b) {
    const auto words = split(a.get("is").value_or(""), ' '), others = split(b.get("is").value_or(""), ' ');
    return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
        return !word.empty() && std::find(others.begin(), others.end(), word) != others.end();
    });
}

void take_over_signs(Element& kind, const Element* same, const std::vector<Element>& ours) {
    for (Element& sign : kind.children) {
        if (sign.name != "sign") continue;
        const std::string code = sign.get("code").value_or("");
        for (const Element& other : ours) {
            if (same != nullptr ? &other != same : !are_the_same(kind, other)) continue;
            if (const Element* known = find(other.children, "code", code)) take_over(sign, *known, {"is", "shows"});
        }
    }
}

}  // namespace

void inherit(Element& root) {
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const Row& one) { return one.root == root.name; });
    if (row == rows.end()) return;
    const std::vector<Element> ours = ours_of(*row);
    for (Element& own : root.children) {
        if (own.name != row->element) continue;
        const Element* same = find(ours, "id", own.get("id").value_or(""));
        if (same != nullptr)
            for (const auto& attributes : row->attributes) take_over(own, *same, attributes);
        take_over_signs(own, same, ours);
    }
}

}  // namespace rigdeed::trade
