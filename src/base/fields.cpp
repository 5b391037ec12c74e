#include "base/fields.hpp"

#include <algorithm>

#include "base/date.hpp"
#include "base/text.hpp"

namespace rigdeed {

Fields::Fields(const xml::Element& element, std::string label, const std::string& file, Problems& problems)
    : element_(element), label_(std::move(label)), file_(file), problems_(problems) {}

const xml::Attribute* Fields::take(std::string_view name, bool required) {
    asked_.emplace_back(name);
    const xml::Attribute* found = element_.find(name);
    if (found == nullptr && required)
        say(element_.line, std::string(name) + " is missing",
            "add " + std::string(name) + "=\"…\" to <" + element_.name + ">");
    return found;
}

void Fields::say(int line, std::string what, std::string hint) {
    problems_.push_back({{file_, line}, label_ + ": " + std::move(what), std::move(hint)});
}

void Fields::wrong(const xml::Attribute& attribute, const std::string& what, std::string hint) {
    say(attribute.line, attribute.name + " " + in_quotes(attribute.value) + " " + what, std::move(hint));
}

std::string Fields::example_text(std::string_view example) { return in_quotes(example); }

void Fields::unknown_word(const xml::Attribute& attribute, const std::vector<std::string>& known) {
    wrong(attribute, "is not one of its values", "write one of: " + join(known, ", "));
}

std::string Fields::checked_text(const xml::Attribute* attribute, std::size_t longest) {
    if (attribute == nullptr) return {};
    std::string value = squeezed(attribute->value);
    if (value.empty()) wrong(*attribute, "is empty", "write it, or leave the attribute out if it is not required");
    if (value.size() > longest) wrong(*attribute, "is longer than " + std::to_string(longest) + " bytes", "shorten it");
    return value;
}

std::string Fields::text(std::string_view name, std::size_t longest) { return checked_text(take(name, true), longest); }
std::string Fields::optional_text(std::string_view name, std::size_t longest) {
    return checked_text(take(name, false), longest);
}

std::string Fields::checked_token(const xml::Attribute* attribute) {
    static constexpr std::string_view allowed = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._-";
    if (attribute == nullptr) return {};
    const std::string& value = attribute->value;
    if (value.empty() || value.size() > 64 || value.find_first_not_of(allowed) != std::string::npos) {
        wrong(*attribute, "is not a name", "use 1 to 64 of the letters a-z, digits, '.', '_' and '-', no blanks");
        return {};
    }
    return value;
}

std::string Fields::token(std::string_view name) { return checked_token(take(name, true)); }
std::string Fields::optional_token(std::string_view name) { return checked_token(take(name, false)); }

std::string Fields::choice_text(std::string_view name, const std::vector<std::string>& known) {
    const auto* attribute = take(name, false);
    if (attribute == nullptr) return {};
    if (std::find(known.begin(), known.end(), attribute->value) != known.end()) return attribute->value;
    unknown_word(*attribute, known);
    return {};
}

std::optional<int> Fields::whole(std::string_view name, int least, int most) {
    const auto* attribute = take(name, false);
    if (attribute == nullptr) return std::nullopt;
    const auto value = read_digits(attribute->value);
    if (value && *value >= least && *value <= most) return value;
    wrong(*attribute, "is not a whole number from " + std::to_string(least) + " to " + std::to_string(most),
          "write digits only");
    return std::nullopt;
}

std::optional<Written> Fields::measure(std::string_view name, Measure measure, Range range, bool required) {
    const auto* attribute = take(name, required);
    if (attribute == nullptr) return std::nullopt;
    const auto [value, error] = read_measure(attribute->value, measure);
    if (!value) {
        say(attribute->line, attribute->name + " " + error.what, error.hint);
        return std::nullopt;
    }
    if (value->value < range.least || value->value > range.most) {
        wrong(*attribute, "is out of range", "is the unit right? write a sensible value");
        return std::nullopt;
    }
    return value;
}

void Fields::finish(const std::vector<std::string>& children, bool text_allowed) {
    for (const xml::Attribute& attribute : element_.attributes) {
        if (std::find(asked_.begin(), asked_.end(), attribute.name) != asked_.end()) continue;
        const std::string hint = asked_.empty() ? "<" + element_.name + "> has no attributes"
                                                : "did you mean " + listed(nearest(attribute.name, asked_, 1)) + "?";
        say(attribute.line, "unknown attribute " + in_quotes(attribute.name), hint);
    }
    for (const xml::Element& child : element_.children) {
        if (std::find(children.begin(), children.end(), child.name) != children.end()) continue;
        const std::string hint =
            children.empty() ? "<" + element_.name + "> holds no elements" : "it may hold: " + join(children, ", ");
        say(child.line, "unknown element <" + child.name + ">", hint);
    }
    if (!text_allowed && !trim(element_.text).empty())
        say(element_.line, "text " + in_quotes(trim(element_.text)) + " does not belong here", "delete it");
}

}  // namespace rigdeed
