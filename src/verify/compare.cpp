#include "verify/compare.hpp"

#include <algorithm>

#include "base/hollow_jpeg.hpp"
#include "crypto/digest.hpp"
#include "verify/document.hpp"
#include "verify/inflate.hpp"
#include "verify/schema.hpp"

namespace rigdeed::verify {
namespace {

constexpr std::size_t most_unpacked = std::size_t{64} << 20;

struct Opened {
    Document document;
    Roles roles;
};

bool open(std::string_view bytes, Opened& to) {
    Table table;
    if (!read_table(bytes, table).empty() || !read_objects(bytes, std::move(table), to.document).empty()) return false;
    to.roles = assign_roles(to.document);
    return to.roles.fault.empty() && check_page_list(to.document, to.roles).empty();
}

std::string_view source(const Document& document, const Object& object) {
    return document.bytes.substr(object.begin, object.end - object.begin);
}

// The signature's dictionary without what only the signing fills in.
std::string settled_part(const Document& document, const Dict& signature) {
    std::string text;
    for (const Entry& entry : signature.entries)
        if (entry.key != "Contents" && entry.key != "ByteRange")
            text += std::string(entry.key) + " " + std::string(source(document, entry.value)) + "\n";
    return text;
}

bool same_stream(const Numbered& a, const Numbered& b) {
    // not reached: the same role has a stream in both
    if (a.stream.has_value() != b.stream.has_value()) return false;
    if (!a.stream || *a.stream == *b.stream) return true;
    const auto* dict = a.object.as<Dict>();
    // not reached: every stream of a report is packed
    if (dict == nullptr || dict->find("Filter") == nullptr) return false;
    const auto one = inflated(*a.stream, most_unpacked), other = inflated(*b.stream, most_unpacked);
    return one && other && *one == *other;
}

// The one made anew is hollow. Where it names no picture (reports of 0.1.0), any of its size is taken.
bool same_picture(const Opened& report, const Opened& made_anew, std::size_t number) {
    const Numbered &one = report.document.objects[number], &other = made_anew.document.objects[number];
    // not reached: a picture has a stream
    if (!one.stream || !other.stream) return false;
    const bool same_frame = source(report.document, one.object) == source(made_anew.document, other.object);
    const auto wanted = stands_for(*other.stream);
    return same_frame && (*one.stream == *other.stream || !wanted || crypto::sha256(*one.stream) == *wanted);
}

bool same(const Opened& a, const Opened& b, std::size_t number) {
    const Role role = a.roles.of[number];
    if (role != b.roles.of[number]) return false;
    if (role == Role::length) return true;  // what has this length is compared itself
    const Numbered &one = a.document.objects[number], &other = b.document.objects[number];
    if (role == Role::signature)
        return settled_part(a.document, *one.object.as<Dict>()) == settled_part(b.document, *other.object.as<Dict>());
    if (role == Role::image) return same_picture(a, b, number);
    return source(a.document, one.object) == source(b.document, other.object) && same_stream(one, other);
}

// "page 3", if this object is a page or what is drawn on it.
std::string page_of(const Opened& opened, std::size_t number) {
    const auto lists = with_role(opened.roles, Role::pages);
    const auto* kids = get<Array>(*opened.document.dict(lists.front()), "Kids");
    for (std::size_t i = 0; i < kids->items.size(); ++i) {
        const std::size_t page = kids->items[i].as<Reference>()->number;
        const auto* content = get<Reference>(*opened.document.dict(page), "Contents");
        if (page == number || (content != nullptr && content->number == number)) return "page " + std::to_string(i + 1);
    }
    return {};
}

std::string words_for(const Opened& report, std::size_t number) {
    if (const std::string page = page_of(report, number); !page.empty())
        return page + " does not say what the survey in the report says";
    switch (report.roles.of[number]) {
        case Role::info:
        case Role::metadata:
        case Role::signature: return "title, author, date or place are not those of the survey in the report";
        case Role::image: return "a picture in it is not the one that its record names";
        case Role::file:
        case Role::filespec: return "the files carried in the report do not go together";
        default: return "object " + std::to_string(number) + " is not what the survey in the report makes";
    }
}

}  // namespace

std::string first_difference(std::string_view report, std::string_view made_anew) {
    Opened a, b;
    if (!open(report, a) || !open(made_anew, b)) return "the report has not the structure that its survey makes";
    const std::size_t count = std::min(a.document.objects.size(), b.document.objects.size());
    std::size_t differing = 0;
    for (std::size_t number = count - 1; number > 0; --number) {
        if (same(a, b, number)) continue;
        if (differing == 0 || page_of(a, differing).empty() || !page_of(a, number).empty()) differing = number;
    }
    if (differing > 0) return words_for(a, differing);
    if (a.document.objects.size() != b.document.objects.size() ||
        with_role(a.roles, Role::page).size() != with_role(b.roles, Role::page).size())
        return "the report has other pages than its survey makes";
    return {};
}

std::vector<std::string_view> picture_contents(std::string_view report) {
    Opened opened;
    std::vector<std::string_view> contents;
    if (!open(report, opened)) return contents;
    for (const std::size_t number : with_role(opened.roles, Role::image))
        if (const auto& stream = opened.document.objects[number].stream) contents.push_back(*stream);
    return contents;
}

std::optional<std::string_view> picture(std::string_view report, const Digest& sha256) {
    Opened opened;
    if (!open(report, opened)) return std::nullopt;
    for (const std::size_t number : with_role(opened.roles, Role::image))
        if (const auto& stream = opened.document.objects[number].stream; stream && crypto::sha256(*stream) == sha256)
            return *stream;
    return std::nullopt;
}

void judge_content(Verdict& verdict, const std::string& difference) {
    verdict.content = difference.empty() ? Content::agrees : Content::differs;
    verdict.checks.push_back({static_cast<int>(verdict.checks.size()) + 1, "the pages say what the survey says",
                              difference.empty(), difference});
    if (difference.empty()) return;
    verdict.outcome = Outcome::not_as_issued;
    verdict.reason = Reason::content_differs;
    verdict.summary = difference;
    verdict.files.clear();
}

void leave_content_open(Verdict& verdict, const std::string& because) {
    verdict.content = Content::not_compared;
    verdict.content_remark = because;
}

}  // namespace rigdeed::verify
