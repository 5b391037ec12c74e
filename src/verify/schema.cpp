#include "verify/schema.hpp"

#include <algorithm>
#include <array>

#include "verify/schema_table.hpp"

namespace rigdeed::verify {
namespace {

bool key_fits(std::string_view pattern, std::string_view key) {
    if (key.empty() || key[0] != pattern[0]) return false;
    if (pattern.back() != '#') return pattern == key;
    return key.size() > 1 && key.find_first_not_of("0123456789", 1) == std::string_view::npos;
}

// The rows of each role; a report has thousands of objects.
class Rows {
 public:
    Rows() {
        for (const Row& row : schema) {
            One& role = of_[static_cast<std::size_t>(row.owner)];
            role.rows.push_back(&row);
            role.has_stream = role.has_stream || row.key == "Length";
        }
    }
    [[nodiscard]] const Row* find(Role owner, std::string_view key) const {
        for (const Row* row : of_[static_cast<std::size_t>(owner)].rows)
            if (key_fits(row->key, key)) return row;
        return nullptr;
    }
    [[nodiscard]] bool has_stream(Role owner) const { return of_[static_cast<std::size_t>(owner)].has_stream; }

 private:
    struct One {
        std::vector<const Row*> rows;
        bool has_stream = false;
    };
    std::array<One, static_cast<std::size_t>(Role::length) + 1> of_;  // that role is the last
};

bool one_of(std::string_view list, std::string_view word) {
    if (list.empty()) return true;
    while (!list.empty()) {
        const std::string_view one = list.substr(0, list.find(' '));
        if (one == word) return true;
        list.remove_prefix(std::min(one.size() + 1, list.size()));
    }
    return false;
}

bool is_number(const Object& o) { return o.as<std::int64_t>() != nullptr || o.as<double>() != nullptr; }

template <class Test>
bool all_items(const Object& object, Test test) {
    const auto* array = object.as<Array>();
    return array != nullptr && std::all_of(array->items.begin(), array->items.end(), test);
}

// Follows references from the trailer, one object after the other; nothing is read twice.
class Walk {
 public:
    explicit Walk(const Document& document) : document_(document) {
        roles_.of.resize(document.objects.size(), Role::none);
    }

    Roles run() {
        visit_dict(Role::trailer, document_.trailer);
        while (!waiting_.empty() && roles_.fault.empty()) {
            const std::size_t number = waiting_.back();
            waiting_.pop_back();
            visit(number);
        }
        for (std::size_t i = 1; i < roles_.of.size() && roles_.fault.empty(); ++i)
            if (roles_.of[i] == Role::none) fault("object " + std::to_string(i) + " belongs to nothing");
        return std::move(roles_);
    }

 private:
    [[nodiscard]] std::string where() const { return at_ == 0 ? "the trailer" : "object " + std::to_string(at_); }

    void fault(const std::string& what) {
        if (roles_.fault.empty()) roles_.fault = what;
    }

    bool refer(const Object& object, Role role) {
        const auto* reference = object.as<Reference>();
        if (reference == nullptr || reference->number == 0 || reference->number >= roles_.of.size()) return false;
        Role& known = roles_.of[reference->number];
        if (role == Role::annotation) role = annotation_role(reference->number);
        if (known == Role::none) {
            known = role;
            waiting_.push_back(reference->number);
        }
        return known == role && role != Role::none;
    }

    Role annotation_role(std::size_t number) const {
        const Dict* dict = document_.dict(number);
        // not reached: the kinds of values were checked before
        const auto* kind = dict == nullptr ? nullptr : get<Name>(*dict, "Subtype");
        if (kind == nullptr) return Role::none;
        return kind->text == "Link" ? Role::link : kind->text == "Widget" ? Role::widget : Role::none;
    }

    void visit(std::size_t number) {
        const Numbered& object = document_.objects[number];
        const Role role = roles_.of[number];
        at_ = number;
        if (role == Role::length) {
            if (object.object.as<std::int64_t>() == nullptr) fault(where() + " should be the length of a stream");
            return;
        }
        const auto* dict = object.object.as<Dict>();
        if (dict == nullptr || object.stream.has_value() != rows_.has_stream(role))
            return fault(where() + " is not of the kind it is used as");
        visit_dict(role, *dict);
    }

    void visit_dict(Role role, const Dict& dict) {
        for (const Entry& entry : dict.entries) {
            const Row* row = rows_.find(role, entry.key);
            if (row == nullptr)
                return fault(where() + " has the key /" + std::string(entry.key) + ", which reports do not have there");
            if (!fits(*row, entry.value))
                return fault(where() + " has a value under /" + std::string(entry.key) +
                             " that reports do not have there");
        }
    }

    bool visit_direct(const Object& object, Role role) {
        const auto* dict = object.as<Dict>();
        if (dict != nullptr) visit_dict(role, *dict);
        return dict != nullptr;
    }

    template <class First, class Second>
    static bool by_turns(const Object& object, First first, Second second) {
        const auto* array = object.as<Array>();
        if (array == nullptr || array->items.size() % 2 != 0) return false;
        for (std::size_t i = 0; i < array->items.size(); i += 2)
            if (!first(array->items[i]) || !second(array->items[i + 1])) return false;
        return true;
    }

    bool is_destination(const Object& object) {
        const auto* array = object.as<Array>();
        if (array == nullptr || array->items.size() != 5) return false;
        const auto& items = array->items;
        const auto* kind = items[1].as<Name>();
        return refer(items[0], Role::page) && kind != nullptr && kind->text == "XYZ" && is_number(items[2]) &&
               is_number(items[3]) && items[4].as<Null>() != nullptr;
    }

    bool is_widths(const Object& object) {
        const auto* array = object.as<Array>();
        return array != nullptr && array->items.size() == 2 && array->items[0].as<std::int64_t>() != nullptr &&
               all_items(array->items[1], is_number);
    }

    bool fits(const Row& row, const Object& value) {
        const auto is_listed_name = [&](const Object& o) {
            return o.as<Name>() && one_of(row.exact, o.as<Name>()->text);
        };
        const auto is_text = [](const Object& o) { return o.as<Text>() != nullptr; };
        const auto is_integer = [](const Object& o) { return o.as<std::int64_t>() != nullptr; };
        const auto is_child = [&](const Object& o) { return refer(o, row.child); };
        const auto is_child_dict = [&](const Object& o) { return visit_direct(o, row.child); };
        // not reached: every kind of value has its case
        switch (row.is) {
            case Is::name: return is_listed_name(value);
            case Is::integer: return is_integer(value) && one_of(row.exact, std::to_string(*value.as<std::int64_t>()));
            case Is::number: return is_number(value);
            case Is::boolean: return value.as<bool>() != nullptr;
            case Is::text: return is_text(value);
            case Is::names: return all_items(value, is_listed_name);
            case Is::numbers: return all_items(value, is_number);
            case Is::texts: return all_items(value, is_text);
            case Is::widths: return is_widths(value);
            case Is::destination: return is_destination(value);
            case Is::byte_range: return all_items(value, is_integer);
            case Is::object: return is_child(value);
            case Is::dict: return is_child_dict(value);
            case Is::objects: return all_items(value, is_child);
            case Is::dicts: return all_items(value, is_child_dict);
            case Is::numbered: return by_turns(value, is_integer, is_child_dict);
            case Is::named: return by_turns(value, is_text, is_child);
            case Is::parent: return is_child(value) || refer(value, Role::structure_root);
            case Is::kids:
                return all_items(value, [&](const Object& o) {
                    return o.as<Reference>() ? is_child(o) : visit_direct(o, Role::content_piece);
                });
            case Is::owners:
                return by_turns(value, is_integer,
                                [&](const Object& o) { return o.as<Array>() ? all_items(o, is_child) : is_child(o); });
        }
        return false;
    }

    const Document& document_;
    Roles roles_;
    std::vector<std::size_t> waiting_;
    std::size_t at_ = 0;  // the object that is looked at; 0: the trailer
    const Rows rows_;
};

}  // namespace

Roles assign_roles(const Document& document) { return Walk(document).run(); }

std::vector<std::size_t> with_role(const Roles& roles, Role role) {
    std::vector<std::size_t> numbers;
    for (std::size_t i = 0; i < roles.of.size(); ++i)
        if (roles.of[i] == role) numbers.push_back(i);
    return numbers;
}

std::string check_page_list(const Document& document, const Roles& roles) {
    const auto lists = with_role(roles, Role::pages);
    // not reached: the kinds of values were checked before
    const Dict* list = lists.size() == 1 ? document.dict(lists[0]) : nullptr;
    // not reached: the kinds of values were checked before
    const auto* kids = list == nullptr ? nullptr : get<Array>(*list, "Kids");
    // not reached: the kinds of values were checked before
    const auto* count = list == nullptr ? nullptr : get<std::int64_t>(*list, "Count");
    // not reached: the kinds of values were checked before
    if (kids == nullptr || count == nullptr) return "there is not exactly one list of pages";
    std::vector<std::size_t> listed;
    for (const Object& kid : kids->items) listed.push_back(kid.as<Reference>()->number);
    if (*count != static_cast<std::int64_t>(listed.size())) return "the list of pages has another length than it says";
    std::sort(listed.begin(), listed.end());
    return listed == with_role(roles, Role::page) ? "" : "the list of pages does not hold every page once";
}

}  // namespace rigdeed::verify
