#include "base/xml.hpp"

#include <algorithm>
#include <pugixml.hpp>

#include "base/text.hpp"
#include "base/xml_scan.hpp"

namespace rigdeed::xml {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// Answers "which line?" for many offsets of one text.
class Lines {
 public:
    explicit Lines(std::string_view text) {
        for (std::size_t i = 0; i < text.size(); ++i)
            if (text[i] == '\n') ends_.push_back(i);
    }
    [[nodiscard]] int at(std::size_t offset) const {
        const auto end = std::lower_bound(ends_.begin(), ends_.end(), offset);
        return 1 + static_cast<int>(end - ends_.begin());
    }

 private:
    std::vector<std::size_t> ends_;
};

/// Makes the tree, each element beside what the scanner saw of it: where the two do not agree about the structure,
/// nothing is read, so that what the scanner vouches for (depth, amounts) holds for the tree.
class Converter {
 public:
    Converter(std::string_view text, std::size_t skipped, const char* buffer, const Scanned& scanned,
              const std::string& file)
        : text_(text), skipped_(skipped), buffer_(buffer), scanned_(scanned), lines_(text), file_(file) {}

    Reading run(const pugi::xml_node& root) {
        Element element = convert(root);
        if (next_ != scanned_.elements.size() && problems_.empty()) disagree(0);
        if (!problems_.empty()) return {std::nullopt, std::move(problems_)};
        return {std::move(element), {}};
    }

 private:
    Element convert(const pugi::xml_node& node) {
        Element element;
        element.name = node.name();
        const std::size_t at = offset(node.name()) - 1;
        if (next_ >= scanned_.elements.size() || scanned_.elements[next_].at != at) {
            disagree(at);
            return element;
        }
        const Span& span = scanned_.elements[next_++];
        element.span = {span.at + skipped_, span.content + skipped_, span.content_end + skipped_, span.end + skipped_};
        element.line = lines_.at(span.at);
        if (element.name.find(':') != std::string::npos)
            say(element.line, "element <" + element.name + "> has a prefix", "write the name without one");
        for (const auto& attribute : node.attributes()) add(element, attribute);
        for (const auto& child : node.children()) {
            if (child.type() == pugi::node_element) element.children.push_back(convert(child));
            else if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata)
                element.text += child.value();
            if (disagreed_) break;
        }
        return element;
    }

    void add(Element& element, const pugi::xml_attribute& attribute) {
        const std::size_t at = offset(attribute.name());
        const std::size_t quote = offset(attribute.value()) - 1;
        const std::size_t end = text_.find(text_[quote], quote + 1) + 1;
        Attribute read{attribute.name(), attribute.value(), lines_.at(at),
                       at + skipped_,    quote + skipped_,  end + skipped_};
        if (read.name == "xmlns:xsi" || read.name == "xsi:schemaLocation") return;
        if (read.name.find(':') != std::string::npos)
            return say(read.line, "attribute " + in_quotes(read.name) + " has a prefix", "write the name without one");
        if (element.find(read.name) != nullptr)
            return say(read.line, "attribute " + in_quotes(read.name) + " stands twice in <" + element.name + ">",
                       "keep one of them");
        element.attributes.push_back(std::move(read));
    }

    std::size_t offset(const char* where) const { return static_cast<std::size_t>(where - buffer_); }

    void disagree(std::size_t at) {
        if (!disagreed_)
            say(lines_.at(at), "not well-formed XML", "is every element closed and every value in quotes?");
        disagreed_ = true;
    }

    void say(int line, std::string what, std::string hint) {
        problems_.push_back({{file_, line}, std::move(what), std::move(hint)});
    }

    std::string_view text_;  ///< behind the byte order mark
    std::size_t skipped_;    ///< its bytes
    const char* buffer_;     ///< the same text, as the parser left it
    const Scanned& scanned_;
    Lines lines_;
    const std::string& file_;
    std::size_t next_ = 0;  ///< the next of the scanned elements
    bool disagreed_ = false;
    Problems problems_;
};

}  // namespace

const Attribute* Element::find(std::string_view attribute) const {
    for (const Attribute& one : attributes)
        if (one.name == attribute) return &one;
    return nullptr;
}

std::optional<std::string> Element::get(std::string_view attribute) const {
    const Attribute* found = find(attribute);
    return found != nullptr ? std::optional(found->value) : std::nullopt;
}

const Element* Element::child(std::string_view child_name) const {
    for (const Element& one : children)
        if (one.name == child_name) return &one;
    return nullptr;
}

Reading read(std::string_view text, const std::string& file) {
    const std::size_t skipped = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
    text.remove_prefix(skipped);
    Scanned scanned = scan(text, file);
    if (!scanned.problems.empty()) return {std::nullopt, std::move(scanned.problems)};

    std::string buffer(text);
    pugi::xml_document document;
    const auto parsed =
        document.load_buffer_inplace(buffer.data(), buffer.size(), pugi::parse_default, pugi::encoding_utf8);
    if (!parsed) {
        const std::string what = lower(parsed.description());
        return {std::nullopt,
                {{{file, line_of(text, static_cast<std::size_t>(std::max<std::ptrdiff_t>(parsed.offset, 0)))},
                  "not well-formed XML: " + what,
                  "is every element closed and every value in quotes?"}}};
    }
    return Converter(text, skipped, buffer.data(), scanned, file).run(document.document_element());
}

std::vector<Comment> comments(std::string_view text) {
    const std::size_t skipped = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
    std::vector<Comment> all = scan(text.substr(skipped), {}).comments;
    for (Comment& comment : all) comment = {comment.at + skipped, comment.end + skipped};
    return all;
}

std::string escaped(std::string_view text, char quote) {
    std::string result;
    for (const char c : text) {
        switch (c) {
            case '&': result += "&amp;"; break;
            case '<': result += "&lt;"; break;
            case '>': result += "&gt;"; break;
            case '"': result += quote == '"' ? "&quot;" : "\""; break;
            case '\'': result += quote == '\'' ? "&apos;" : "'"; break;
            case '\n': result += "&#10;"; break;
            case '\t': result += "&#9;"; break;
            case '\r': result += "&#13;"; break;
            default: result += c;
        }
    }
    return result;
}

std::string escaped(std::string_view text) { return escaped(text, '"'); }

std::string resolved(std::string_view text) {
    constexpr std::string_view number = "#x0123456789abcdefABCDEF";
    std::string result;
    for (std::size_t at = 0; at < text.size();) {
        const bool begins = text.substr(at).starts_with("&#");
        const auto end = begins ? text.find_first_not_of(number, at + 1) : std::string_view::npos;
        const auto point = end != std::string_view::npos && text[end] == ';'
                               ? referred(text.substr(at + 1, end - at - 1))
                               : std::nullopt;
        if (point) result += encode_utf8(std::u32string(1, *point));
        else result += text[at];
        at = point ? end + 1 : at + 1;
    }
    return result;
}

}  // namespace rigdeed::xml
