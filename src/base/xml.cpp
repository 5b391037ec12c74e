#include "base/xml.hpp"

#include <algorithm>
#include <pugixml.hpp>

#include "base/text.hpp"
#include "base/xml_scan.hpp"

namespace rigdeed::xml {
namespace {

/// Answers "which line?" for many offsets of one text.
class Lines {
 public:
    explicit Lines(std::string_view text) {
        for (std::size_t i = 0; i < text.size(); ++i)
            if (text[i] == '\n') ends_.push_back(i);
    }
    [[nodiscard]] int at(std::ptrdiff_t offset) const {
        const auto end =
            std::lower_bound(ends_.begin(), ends_.end(), static_cast<std::size_t>(std::max<std::ptrdiff_t>(offset, 0)));
        return 1 + static_cast<int>(end - ends_.begin());
    }

 private:
    std::vector<std::size_t> ends_;
};

class Converter {
 public:
    Converter(const char* buffer, const Lines& lines, const std::string& file, Problems& problems)
        : buffer_(buffer), lines_(lines), file_(file), problems_(problems) {}

    Element convert(const pugi::xml_node& node) {
        Element element;
        element.name = node.name();
        element.line = lines_.at(node.offset_debug());
        if (element.name.find(':') != std::string::npos)
            say(element.line, "element <" + element.name + "> has a prefix", "write the name without one");
        for (const auto& attribute : node.attributes()) add(element, attribute);
        for (const auto& child : node.children()) {
            if (child.type() == pugi::node_element) element.children.push_back(convert(child));
            else if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata)
                element.text += child.value();
        }
        return element;
    }

 private:
    void add(Element& element, const pugi::xml_attribute& attribute) {
        const Attribute read{attribute.name(), attribute.value(), lines_.at(attribute.name() - buffer_)};
        if (read.name == "xmlns:xsi" || read.name == "xsi:schemaLocation") return;
        if (read.name.find(':') != std::string::npos)
            return say(read.line, "attribute " + in_quotes(read.name) + " has a prefix", "write the name without one");
        if (element.find(read.name) != nullptr)
            return say(read.line, "attribute " + in_quotes(read.name) + " stands twice in <" + element.name + ">",
                       "keep one of them");
        element.attributes.push_back(read);
    }

    void say(int line, std::string what, std::string hint) {
        problems_.push_back({{file_, line}, std::move(what), std::move(hint)});
    }

    const char* buffer_;
    const Lines& lines_;
    const std::string& file_;
    Problems& problems_;
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
    if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
    if (auto problems = scan(text, file); !problems.empty()) return {std::nullopt, std::move(problems)};

    const Lines lines(text);
    std::string buffer(text);
    pugi::xml_document document;
    const auto parsed =
        document.load_buffer_inplace(buffer.data(), buffer.size(), pugi::parse_default, pugi::encoding_utf8);
    if (!parsed) {
        const std::string what = lower(parsed.description());
        return {std::nullopt,
                {{{file, lines.at(parsed.offset)},
                  "not well-formed XML: " + what,
                  "is every element closed and every value in quotes?"}}};
    }
    Reading reading;
    Element root = Converter(buffer.data(), lines, file, reading.problems).convert(document.document_element());
    if (reading.problems.empty()) reading.root = std::move(root);
    return reading;
}

std::string escaped(std::string_view text) {
    std::string result;
    for (const char c : text) {
        switch (c) {
            case '&': result += "&amp;"; break;
            case '<': result += "&lt;"; break;
            case '>': result += "&gt;"; break;
            case '"': result += "&quot;"; break;
            case '\n': result += "&#10;"; break;
            case '\t': result += "&#9;"; break;
            case '\r': result += "&#13;"; break;
            default: result += c;
        }
    }
    return result;
}

}  // namespace rigdeed::xml
