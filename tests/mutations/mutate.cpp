#include "mutations/mutate.hpp"

#include <algorithm>
#include <cstdlib>

#include "base/date.hpp"
#include "base/quantity.hpp"
#include "base/text.hpp"

namespace rigdeed::mutations {
namespace {

void write(std::string& out, const xml::Element& element) {
    out += "<" + element.name;
    for (const xml::Attribute& one : element.attributes) out += " " + one.name + "=\"" + xml::escaped(one.value) + "\"";
    out += ">";
    out += xml::escaped(squeezed(element.text));
    for (const xml::Element& child : element.children) {
        out += "\n";
        write(out, child);
    }
    out += "</" + element.name + ">";
}

bool is_date(const std::string& value) { return read_date(value).has_value() || read_part_date(value).has_value(); }

/// "8.5 mm" as "85 mm"
std::string ten_times(const std::string& value) {
    const auto end = value.find_first_not_of("-0123456789.");
    const double number = std::strtod(value.c_str(), nullptr) * 10;
    std::string digits = fixed(number, 6);
    digits.erase(digits.find_last_not_of('0') + 1);
    if (digits.ends_with('.')) digits.pop_back();
    return digits + (end == std::string::npos ? "" : value.substr(end));
}

/// By so many years; of the same precision.
std::string shifted(const std::string& value, int years) {
    const int year = std::atoi(value.substr(0, 4).c_str()) + years;
    return std::to_string(year) + value.substr(4);
}

}  // namespace

std::string written(const xml::Element& root) {
    std::string out;
    write(out, root);
    return out;
}

std::string Mutation::text() const {
    return std::string(how_names[static_cast<int>(how)]) + ": <" + parent + "> <" + element + "> " + attribute + " " +
           in_quotes(before) + " " + in_quotes(after);
}

Mutator::Mutator(const xml::Element& root) : root_(root) { walk(root, {}); }

void Mutator::walk(const xml::Element& element, const Path& path) {
    if (!path.empty()) elements_.push_back({path, {}});
    if (!squeezed(element.text).empty()) texts_.push_back({path, {}});
    for (const xml::Attribute& one : element.attributes) {
        const Place place{path, one.name};
        attributes_.push_back(place);
        const bool digit = !one.value.empty() && (std::isdigit(static_cast<unsigned char>(one.value[0])) != 0);
        const bool named = one.name == "id" || one.name == "number" || one.name == "stay" || one.name == "make" ||
                           one.name == "alloy" || one.name == "metal" || one.name == "hin" || one.name == "name";
        if (is_date(one.value) && one.name != "built") dates_.push_back(place);
        else if (digit && !named) numbers_.push_back(place);
        if (one.name == "far" || one.name == "close") photos_.push_back(place);
        if (one.name == "id") ids_.push_back(place);
    }
    for (std::size_t i = 0; i < element.children.size(); ++i) {
        Path inner = path;
        inner.push_back(i);
        walk(element.children[i], inner);
    }
}

xml::Element& Mutator::at(xml::Element& root, const Path& path, std::size_t up) {
    xml::Element* element = &root;
    for (std::size_t i = 0; i + up < path.size(); ++i) element = &element->children[path[i]];
    return *element;
}

Mutation Mutator::next(std::mt19937& random) const {
    const auto pick = [&](const std::vector<Place>& places) -> const Place& {
        return places[std::uniform_int_distribution<std::size_t>(0, places.size() - 1)(random)];
    };
    Mutation mutation;
    mutation.root = root_;
    mutation.how = static_cast<How>(std::uniform_int_distribution<int>(0, 6)(random));
    const auto describe = [&](const Place& place) {
        mutation.element = at(mutation.root, place.path).name;
        mutation.parent = place.path.empty() ? "" : at(mutation.root, place.path, 1).name;
        mutation.attribute = place.attribute;
        if (!place.attribute.empty()) mutation.before = *at(mutation.root, place.path).get(place.attribute);
    };
    const auto value_at = [&](const Place& place) -> std::string& {
        auto& attributes = at(mutation.root, place.path).attributes;
        return std::find_if(attributes.begin(), attributes.end(),
                            [&](const xml::Attribute& one) { return one.name == place.attribute; })
            ->value;
    };
    const auto exchange = [&](const std::vector<Place>& places) {
        const Place &one = pick(places), &other = pick(places);
        describe(one);
        mutation.after = value_at(other);
        std::swap(value_at(one), value_at(other));
    };
    switch (mutation.how) {
        case How::take_element: {
            const Place& place = pick(elements_);
            describe(place);
            xml::Element& parent = at(mutation.root, place.path, 1);
            mutation.before = parent.children[place.path.back()].get("code").value_or("");
            parent.children.erase(parent.children.begin() + static_cast<std::ptrdiff_t>(place.path.back()));
            break;
        }
        case How::take_attribute: {
            const Place& place = pick(attributes_);
            describe(place);
            auto& attributes = at(mutation.root, place.path).attributes;
            std::erase_if(attributes, [&](const xml::Attribute& one) { return one.name == place.attribute; });
            break;
        }
        case How::question_mark: {
            const bool text = !texts_.empty() && std::uniform_int_distribution<int>(0, 19)(random) == 0;
            const Place& place = pick(text ? texts_ : attributes_);
            describe(place);
            mutation.after = "?";
            (text ? at(mutation.root, place.path).text : value_at(place)) = "?";
            break;
        }
        case How::ten_times: {
            const Place& place = pick(numbers_);
            describe(place);
            mutation.after = value_at(place) = ten_times(value_at(place));
            break;
        }
        case How::exchange_photos: exchange(photos_); break;
        case How::exchange_ids: exchange(ids_); break;
        case How::shift_date: {
            const Place& place = pick(dates_);
            describe(place);
            constexpr int years[] = {-30, -1, 1, 10};
            mutation.after = value_at(place) =
                shifted(value_at(place), years[std::uniform_int_distribution<int>(0, 3)(random)]);
            break;
        }
    }
    return mutation;
}

}  // namespace rigdeed::mutations
