#include "verify/seal_rules.hpp"

#include <algorithm>

namespace rigdeed::verify {
namespace {

constexpr std::size_t hex_digits = 32768;

const Reference* only_reference(const Dict* in, std::string_view key) {
    const auto* array = in == nullptr ? nullptr : get<Array>(*in, key);
    return array != nullptr && array->items.size() == 1 ? array->items[0].as<Reference>() : nullptr;
}

bool refers_to(const Dict* in, std::string_view key, std::size_t number) {
    const auto* reference = in == nullptr ? nullptr : get<Reference>(*in, key);
    return reference != nullptr && reference->number == number;
}

// How often the pages' annotation lists name an object.
std::size_t times_on_pages(const Document& document, const Roles& roles, std::size_t number, std::size_t& page) {
    std::size_t times = 0;
    for (const std::size_t one : with_role(roles, Role::page)) {
        const auto* annotations = get<Array>(*document.dict(one), "Annots");
        if (annotations == nullptr) continue;
        for (const Object& item : annotations->items)
            if (const auto* reference = item.as<Reference>(); reference != nullptr && reference->number == number)
                ++times, page = one;
    }
    return times;
}

const Reference* first_page(const Document& document, const Dict& catalog) {
    const Dict* pages = document.dict(catalog, "Pages");
    // not reached: the kinds of values were checked before
    const auto* kids = pages == nullptr ? nullptr : get<Array>(*pages, "Kids");
    // not reached: the kinds of values were checked before
    return kids == nullptr || kids->items.empty() ? nullptr : kids->items[0].as<Reference>();
}

}  // namespace

std::string find_seal(const Document& document, const Roles& roles, Seal& seal) {
    const auto widgets = with_role(roles, Role::widget), signatures = with_role(roles, Role::signature);
    const Dict* catalog = document.dict(document.trailer, "Root");
    // not reached: the kinds of values were checked before, and a widget without its signature has none
    if (catalog == nullptr || widgets.empty() || signatures.empty()) return "there is no seal";
    if (widgets.size() != 1 || signatures.size() != 1) return "there is more than one signature or signature field";
    const std::size_t signature = signatures[0];
    const Dict* widget = document.dict(widgets[0]);
    const auto* field = only_reference(document.dict(*catalog, "AcroForm"), "Fields");
    if (field == nullptr || field->number != widgets[0]) return "the form does not have exactly the field of the seal";
    if (!refers_to(widget, "V", signature)) return "the field of the seal has another value";
    if (!refers_to(document.dict(*catalog, "Perms"), "DocMDP", signature))
        return "the seal does not certify the document against changes";
    std::size_t page = 0;
    const auto* first = first_page(document, *catalog);
    if (times_on_pages(document, roles, widgets[0], page) != 1 || first == nullptr || first->number != page ||
        !refers_to(widget, "P", page))
        return "the field of the seal is not on the first page";
    const auto* references = get<Array>(*document.dict(signature), "Reference");
    const auto* reference =
        references != nullptr && references->items.size() == 1 ? references->items[0].as<Dict>() : nullptr;
    // not reached: the kinds of values were checked before
    const auto* method = reference == nullptr ? nullptr : get<Name>(*reference, "TransformMethod");
    // not reached: the kinds of values were checked before
    const Dict* parameters = reference == nullptr ? nullptr : document.dict(*reference, "TransformParams");
    if (method == nullptr || parameters == nullptr || parameters->find("P") == nullptr)
        return "the seal does not say that no change is permitted";
    const Dict& found = *document.dict(signature);
    for (const char* key : {"Filter", "SubFilter", "Name", "M"})
        if (found.find(key) == nullptr) return std::string("the seal lacks /") + key;
    seal.dictionary = &found;
    return {};
}

std::string check_byte_range(const Document& document, Seal& seal) {
    const auto* range = get<Array>(*seal.dictionary, "ByteRange");
    const Object* contents = seal.dictionary->find("Contents");
    // not reached: the kinds of values were checked before
    const auto* text = contents == nullptr ? nullptr : contents->as<Text>();
    if (range == nullptr || range->items.size() != 3) return "the seal has no byte range";
    // not reached: the kinds of values were checked before
    if (text == nullptr || document.bytes[contents->begin] != '<') return "the seal has no signature in it";
    std::array<std::uint64_t, 3> numbers{};  // ten digits each: no sum of two can overflow
    for (std::size_t i = 0; i < 3; ++i) numbers[i] = static_cast<std::uint64_t>(*range->items[i].as<std::int64_t>());
    const auto [before, after, rest] = numbers;
    if (before != contents->begin || after != contents->end)
        return "the sealed bytes do not end and begin where the signature stands";
    if (after + rest != document.bytes.size())
        return "the seal is for " + std::to_string(after + rest) + " bytes, the file has " +
               std::to_string(document.bytes.size());
    seal.hole_begin = contents->begin;
    seal.hole_end = contents->end;
    seal.cms = text->bytes();
    return {};
}

std::string check_padding(Seal& seal) {
    const std::string& room = seal.cms;
    if (2 * room.size() != hex_digits) return "the room for the signature has another size";
    const auto byte = [&](std::size_t i) { return static_cast<std::size_t>(static_cast<unsigned char>(room[i])); };
    if (byte(0) == 0) return "the room for the signature is empty";
    if (byte(0) != 0x30 || byte(1) != 0x82) return "the signature is not a DER sequence";
    const std::size_t size = 4 + (byte(2) << 8 | byte(3));
    if (size > room.size()) return "the signature is larger than the room for it";
    if (room.find_first_not_of('\0', size) != std::string::npos) return "something is hidden behind the signature";
    seal.cms.resize(size);
    return {};
}

crypto::CmsFinding check_signature(const Sums& sums, const Seal& seal) {
    return crypto::examine_cms(seal.cms, sums.without(seal.hole_begin, seal.hole_end));
}

}  // namespace rigdeed::verify
