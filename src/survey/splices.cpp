#include "survey/splices.hpp"

#include <algorithm>
#include <set>

#include "base/error.hpp"
#include "base/xml_scan.hpp"

namespace rigdeed::survey {
namespace {

constexpr std::string_view blanks = " \t";
constexpr std::string_view white = " \t\r\n";

/// The edits are made by the program itself: one that cannot be is its fault.
[[noreturn]] void refuse(const std::string& what) { throw Error("cannot edit: " + what, {}, {}, ExitCode::bug); }

void check_name(const std::string& name) {
    const bool good =
        !name.empty() && name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
    if (!good) refuse("\"" + name + "\" is no name of an element or attribute");
}

char quote_of(std::string_view text, const xml::Element& element, char otherwise) {
    return element.attributes.empty() ? otherwise : text[element.attributes.back().quote];
}

}  // namespace

/// What is planned so far.
struct Splicer::Work {
    std::vector<Splice> splices;
    std::map<std::size_t, std::string> filled;  ///< elements that ended in "/>", and what they hold now
    std::map<const xml::Element*, std::vector<xml::Comment>> taken;  ///< pieces, by the element they stand in
    std::set<const xml::Element*> added_to;
    Problems& problems;
};

/// Where a new piece goes and how it is written there.
struct Splicer::Place {
    std::size_t at = 0;
    bool own_line = false;
    bool fills = false;  ///< the first content of an element that ended in "/>", which begins at `at`
    std::string indent;
    char quote = '"';
};

Splicer::Splicer(std::string_view text, const std::string& file, const xml::Element& root)
    : text_(text), file_(file), root_(root), comments_(xml::comments(text)) {
    const auto first = text.find('\n');
    line_end_ = first != std::string_view::npos && first > 0 && text[first - 1] == '\r' ? "\r\n" : "\n";
    step_ = "  ";
    if (root_.children.empty() || !begins_line(root_.children.front().span.at)) return;
    const std::string outer = indent_of(root_.span.at), inner = indent_of(root_.children.front().span.at);
    if (inner.size() > outer.size() && inner.starts_with(outer)) step_ = inner.substr(outer.size());
}

std::vector<Splice> Splicer::run(const std::vector<Edit>& edits, Problems& problems) const {
    Work work{{}, {}, {}, {}, problems};
    for (const Edit& edit : edits) std::visit([&](const auto& known) { plan(known, work); }, edit);
    finish(work);
    // What is put in at a place comes before what is taken out there.
    std::stable_sort(work.splices.begin(), work.splices.end(), [](const Splice& a, const Splice& b) {
        return std::pair(a.at, a.length > 0) < std::pair(b.at, b.length > 0);
    });
    for (std::size_t i = 1; i < work.splices.size(); ++i)
        if (work.splices[i].at < work.splices[i - 1].at + work.splices[i - 1].length)
            refuse("two edits want the same bytes in line " + std::to_string(xml::line_of(text_, work.splices[i].at)));
    return std::move(work.splices);
}

void Splicer::plan(const SetAttribute& edit, Work& work) const {
    check_name(edit.name);
    const xml::Element& element = element_at(edit.element);
    if (const xml::Attribute* old = element.find(edit.name)) {
        if (old->value == edit.value) return;
        work.splices.push_back(
            {old->quote + 1, old->end - old->quote - 2, xml::escaped(edit.value, text_[old->quote])});
        return;
    }
    const char quote = quote_of(text_, element, '"');
    std::size_t at = element.span.at + 1 + element.name.size();
    std::string separator = " ";
    if (!element.attributes.empty()) {
        const xml::Attribute& last = element.attributes.back();
        const auto before = text_.find_last_not_of(white, last.at - 1) + 1;
        separator = std::string(text_.substr(before, last.at - before));
        at = last.end;
    }
    work.splices.push_back({at, 0, separator + edit.name + "=" + quote + xml::escaped(edit.value, quote) + quote});
}

void Splicer::plan(const TakeAttribute& edit, Work& work) const {
    const xml::Attribute* old = element_at(edit.element).find(edit.name);
    if (old == nullptr) return;
    const auto from = text_.find_last_not_of(white, old->at - 1) + 1;
    work.splices.push_back({from, old->end - from, {}});
}

template <class Write>
void Splicer::add(Where where, std::size_t element, const Write& write, Work& work) const {
    const xml::Element& neighbour = element_at(element);
    const Place place = place_of(where, neighbour);
    const xml::Element* parent = where == Where::last_in ? &neighbour : parent_of(neighbour.span.at);
    work.added_to.insert(parent);
    const std::string piece = place.own_line ? place.indent + write(place) + line_end_ : write(place);
    if (place.fills) work.filled[element] += piece;
    else work.splices.push_back({place.at, 0, piece});
}

void Splicer::plan(const AddElement& edit, Work& work) const {
    if (edit.where != Where::last_in && edit.element == root_.span.at) refuse("a second root element");
    add(
        edit.where, edit.element, [&](const Place& place) { return written(edit.added, place); }, work);
}

void Splicer::plan(const AddComment& edit, Work& work) const {
    if (edit.words.find("--") != std::string::npos || edit.words.ends_with('-')) {
        work.problems.push_back({{file_, xml::line_of(text_, edit.element)},
                                 "a comment would hold \"--\" or end in \"-\"",
                                 "write it without"});
        return;
    }
    add(
        edit.where, edit.element, [&](const Place&) { return "<!--" + edit.words + "-->"; }, work);
}

void Splicer::plan(const TakeElement& edit, Work& work) const {
    const xml::Element& element = element_at(edit.element);
    if (&element == &root_) refuse("the root element cannot go");
    work.taken[parent_of(element.span.at)].push_back({element.span.at, element.span.end});
}

void Splicer::plan(const TakeComment& edit, Work& work) const {
    const auto found = std::lower_bound(comments_.begin(), comments_.end(), edit.comment,
                                        [](const xml::Comment& comment, std::size_t at) { return comment.at < at; });
    if (found == comments_.end() || found->at != edit.comment) refuse("there is no comment");
    work.taken[parent_of(found->at)].push_back(*found);
}

/// What concerns an element as a whole is known when all edits are.
void Splicer::finish(Work& work) const {
    for (const auto& [at, content] : work.filled) {
        const xml::Element& element = element_at(at);
        const bool lines = begins_line(at);
        work.splices.push_back(
            {element.span.content - 2, 2,
             (lines ? ">" + line_end_ : ">") + content + (lines ? indent_of(at) : "") + "</" + element.name + ">"});
    }
    for (auto& [parent, pieces] : work.taken) take_out(parent, std::move(pieces), work);
}

void Splicer::take_out(const xml::Element* parent, std::vector<xml::Comment> pieces, Work& work) const {
    std::sort(pieces.begin(), pieces.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    std::vector<xml::Comment> runs;  // pieces side by side go as one
    for (const xml::Comment& piece : pieces) {
        const bool beside = !runs.empty() && runs.back().end <= piece.at &&
                            text_.substr(runs.back().end, piece.at - runs.back().end).find_first_not_of(blanks) ==
                                std::string_view::npos;
        if (beside) runs.back().end = piece.end;
        else runs.push_back(piece);
    }
    if (parent != nullptr && !work.added_to.contains(parent)) {
        std::size_t rest = parent->span.content;
        for (const xml::Comment& run : runs)
            if (text_.substr(rest, run.at - rest).find_first_not_of(white) == std::string_view::npos) rest = run.end;
        const auto left = text_.find_first_not_of(white, rest);
        if (left == parent->span.content_end) {
            const auto from = parent->span.content - 1;
            work.splices.push_back({from, parent->span.end - from, "/>"});
            return;
        }
    }
    for (const xml::Comment& run : runs) {
        const auto next = begins_line(run.at) ? next_line(run.end, false) : std::nullopt;
        const auto from = next ? line_start(run.at).value_or(run.at) : run.at;
        work.splices.push_back({from, next.value_or(run.end) - from, {}});
    }
}

Splicer::Place Splicer::place_of(Where where, const xml::Element& element) const {
    const xml::Span& span = element.span;
    Place place;
    place.quote = quote_of(text_, element, quote_of(text_, root_, '"'));
    place.own_line = begins_line(span.at);
    if (where == Where::last_in) {
        const auto last = last_inside(element);
        place.fills = !span.has_end_tag();
        if (!place.fills) place.own_line = begins_line(span.content_end) && (!last || begins_line(*last));
        if (place.own_line) place.indent = last ? indent_of(*last) : indent_of(span.at) + step_;
        place.at = place.fills ? span.at : line_start(span.content_end).value_or(span.content_end);
        return place;
    }
    if (where == Where::before) place.at = line_start(span.at).value_or(span.at);
    if (where == Where::after) {
        const auto next = place.own_line ? next_line(span.end, true) : std::nullopt;
        place.own_line = next.has_value();
        place.at = next.value_or(span.end);
    }
    if (place.own_line) place.indent = indent_of(span.at);
    return place;
}

std::string Splicer::written(const xml::Element& element, const Place& place) const {
    std::string out;
    write(out, element, place, place.indent);
    return out;
}

void Splicer::write(std::string& out, const xml::Element& element, const Place& place,
                    const std::string& indent) const {
    check_name(element.name);
    out += "<" + element.name;
    for (const xml::Attribute& attribute : element.attributes) {
        check_name(attribute.name);
        out += " " + attribute.name + "=" + place.quote + xml::escaped(attribute.value, place.quote) + place.quote;
    }
    if (element.children.empty() && element.text.empty()) {
        out += "/>";
        return;
    }
    out += ">" + xml::escaped(element.text, ' ');
    for (const xml::Element& child : element.children) {
        if (place.own_line) out += line_end_ + indent + step_;
        write(out, child, place, indent + step_);
    }
    if (place.own_line && !element.children.empty()) out += line_end_ + indent;
    out += "</" + element.name + ">";
}

const xml::Element& Splicer::element_at(std::size_t at) const {
    if (root_.span.at == at) return root_;
    if (const xml::Element* parent = parent_of(at)) {
        const auto& children = parent->children;
        const auto found = std::lower_bound(children.begin(), children.end(), at,
                                            [](const auto& child, std::size_t place) { return child.span.at < place; });
        if (found != children.end() && found->span.at == at) return *found;
    }
    refuse("no element begins at byte " + std::to_string(at));
}

/// The innermost element that `at` lies in the content of; null outside the root.
const xml::Element* Splicer::parent_of(std::size_t at) const {
    const xml::Element* inner = nullptr;
    const auto holds = [at](const xml::Element& element) {
        return element.span.content <= at && at < element.span.content_end;
    };
    const xml::Element* next = holds(root_) ? &root_ : nullptr;
    while (next != nullptr) {
        inner = next;
        const auto behind =
            std::upper_bound(inner->children.begin(), inner->children.end(), at,
                             [](std::size_t place, const auto& child) { return place < child.span.at; });
        next = behind != inner->children.begin() && holds(*std::prev(behind)) ? &*std::prev(behind) : nullptr;
    }
    return inner;
}

/// Where the last element or comment directly inside begins.
std::optional<std::size_t> Splicer::last_inside(const xml::Element& parent) const {
    const auto from = parent.children.empty() ? parent.span.content : parent.children.back().span.end;
    auto last = parent.children.empty() ? std::nullopt : std::optional(parent.children.back().span.at);
    const auto behind = std::lower_bound(comments_.begin(), comments_.end(), parent.span.content_end,
                                         [](const xml::Comment& comment, std::size_t at) { return comment.at < at; });
    if (behind != comments_.begin() && std::prev(behind)->at >= from) last = std::prev(behind)->at;
    return last;
}

/// Where the line begins, if there are only blanks between; nothing in the first line.
std::optional<std::size_t> Splicer::line_start(std::size_t at) const {
    while (at > 0 && blanks.find(text_[at - 1]) != std::string_view::npos) --at;
    return at > 0 && text_[at - 1] == '\n' ? std::optional(at) : std::nullopt;
}

bool Splicer::begins_line(std::size_t at) const { return line_start(at).has_value(); }

/// Where the next line begins, if from `end` on there is nothing in this one but blanks, and comments if wanted.
std::optional<std::size_t> Splicer::next_line(std::size_t end, bool past_comments) const {
    auto at = text_.find_first_not_of(blanks, end);
    while (past_comments && at != std::string_view::npos && text_.substr(at).starts_with("<!--")) {
        const auto behind = text_.find("-->", at + 4);
        if (text_.substr(at, behind - at).find('\n') != std::string_view::npos) return std::nullopt;
        at = text_.find_first_not_of(blanks, behind + 3);
    }
    if (at != std::string_view::npos && text_[at] == '\r') ++at;
    return at < text_.size() && text_[at] == '\n' ? std::optional(at + 1) : std::nullopt;
}

std::string Splicer::indent_of(std::size_t at) const {
    const auto start = line_start(at).value_or(at);
    return std::string(text_.substr(start, at - start));
}

}  // namespace rigdeed::survey
