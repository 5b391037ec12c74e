#include "verify/carried.hpp"

#include <algorithm>
#include <array>
#include <optional>

#include "verify/inflate.hpp"

namespace rigdeed::verify {
namespace {

constexpr std::size_t largest_file = 32U << 20;

struct Expected {
    std::string_view name;
    bool required;
};

constexpr std::array expected_files{
    Expected{"before.xml", false}, Expected{"issue.xml", false},     Expected{"photos.xml", false},
    Expected{"survey.xml", true},  Expected{"templates.xml", false}, Expected{"works.xml", false},
};

const Array* names_of(const Document& document, const Dict& catalog) {
    const Dict* trees = document.dict(catalog, "Names");
    const Dict* tree = trees == nullptr ? nullptr : document.dict(*trees, "EmbeddedFiles");
    return tree == nullptr ? nullptr : get<Array>(*tree, "Names");
}

bool lists_agree(const Array* names, const Array* associated) {
    const std::size_t in_tree = names == nullptr ? 0 : names->items.size() / 2;
    const std::size_t in_list = associated == nullptr ? 0 : associated->items.size();
    if (in_tree != in_list) return false;
    for (std::size_t i = 0; i < in_tree; ++i) {
        const auto* one = names->items[2 * i + 1].as<Reference>();
        const auto* other = associated->items[i].as<Reference>();
        // not reached: every object has one use, and both lists are of one kind
        if (one == nullptr || other == nullptr || one->number != other->number) return false;
    }
    return true;
}

std::string read_file(const Document& document, const std::string& name, const Dict& specification, CarriedFile& file) {
    for (const char* key : {"F", "UF"}) {
        const auto* text = get<Text>(specification, key);
        if (text == nullptr || text->bytes() != name) return "the file \"" + name + "\" goes by two names";
    }
    const Dict* versions = document.dict(specification, "EF");
    // not reached: the kinds of values were checked before
    const auto* content = versions == nullptr ? nullptr : get<Reference>(*versions, "F");
    // not reached: the kinds of values were checked before
    const auto* again = versions == nullptr ? nullptr : get<Reference>(*versions, "UF");
    // not reached: the kinds of values were checked before, and one content has one use
    if (content == nullptr || again == nullptr || content->number != again->number)
        return "the file \"" + name + "\" has two contents";
    const Dict* dict = document.dict(content->number);
    // not reached: the kinds of values were checked before
    const Dict* parameters = dict == nullptr ? nullptr : document.dict(*dict, "Params");
    // not reached: the kinds of values were checked before
    const auto* size = parameters == nullptr ? nullptr : get<std::int64_t>(*parameters, "Size");
    const auto& packed = document.objects[content->number].stream;
    if (size == nullptr || *size < 0 || static_cast<std::size_t>(*size) > largest_file || !packed ||
        packed->size() > largest_file || dict->find("Filter") == nullptr)
        return "the file \"" + name + "\" is too large or does not say its size";
    auto bytes = inflated(*packed, static_cast<std::size_t>(*size));
    if (!bytes || bytes->size() != static_cast<std::size_t>(*size))
        return "the file \"" + name + "\" does not unpack to its stated size";
    file = {name, *std::move(bytes)};
    return {};
}

}  // namespace

std::string read_carried(const Document& document, const Roles& roles, std::vector<CarriedFile>& files) {
    const Dict* catalog = document.dict(document.trailer, "Root");
    // not reached: the kinds of values were checked before
    if (catalog == nullptr) return "there is no catalog";
    const Array* names = names_of(document, *catalog);
    if (!lists_agree(names, get<Array>(*catalog, "AF"))) return "the two lists of carried files differ";
    const std::size_t count = names == nullptr ? 0 : names->items.size() / 2;
    if (count != with_role(roles, Role::filespec).size()) return "one carried file is listed twice";
    for (std::size_t i = 0; i < count; ++i) {
        const std::string name(names->items[2 * i].as<Text>()->bytes());
        const auto is_it = [&](const Expected& one) { return one.name == name; };
        if (std::none_of(expected_files.begin(), expected_files.end(), is_it))
            return "a carried file has a name that reports do not use";
        if (!files.empty() && files.back().name >= name) return "the carried files are not in the order of their names";
        CarriedFile& file = files.emplace_back();
        const std::string fault =
            read_file(document, name, *document.dict(names->items[2 * i + 1].as<Reference>()->number), file);
        if (!fault.empty()) return fault;
    }
    const auto carries = [&](std::string_view name) {
        return std::any_of(files.begin(), files.end(), [&](const CarriedFile& file) { return file.name == name; });
    };
    for (const Expected& one : expected_files)
        if (one.required && !carries(one.name) && !carries("works.xml"))  // which a follow-up carries in its place
            return "the report does not carry " + std::string(one.name);
    if (carries("survey.xml") && carries("works.xml"))
        return "it carries a survey and works: it is one paper or the other";
    return {};
}

}  // namespace rigdeed::verify
