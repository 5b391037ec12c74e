#include "base/xml_scan.hpp"

#include <algorithm>
#include <charconv>

#include "base/text.hpp"

namespace rigdeed::xml {
namespace {

bool is_forbidden(char32_t c) {
    if (c == '\t' || c == '\n' || c == '\r') return false;
    return is_deceptive(c) || (c >= 0xFDD0 && c <= 0xFDEF);
}

std::string code_point(char32_t c) {
    static constexpr char digits[] = "0123456789ABCDEF";
    std::string hex;
    for (int shift = c > 0xFFFF ? 20 : 12; shift >= 0; shift -= 4) hex += digits[(c >> shift) & 15];
    return "U+" + hex;
}

/// Whether a declaration names UTF-8, or no encoding at all.
bool declares_utf8(std::string_view declaration) {
    const auto at = declaration.find("encoding");
    if (at == std::string_view::npos) return true;
    const auto value = trim(declaration.substr(std::min(declaration.find('=', at), declaration.size() - 1) + 1));
    const auto quoted = lower(value.substr(0, 7));
    return quoted == "\"utf-8\"" || quoted == "'utf-8'";
}

/// Walks over the markup without building anything.
class Scanner {
 public:
    Scanner(std::string_view text, const std::string& file) : text_(text), file_(file) {}

    Scanned run() {
        while (at_ < text_.size() && !stopped_) step();
        if (!stopped_ && !open_.empty())
            stop(text_.size(),
                 "the file ends, and <" + name_at(scanned_.elements[open_.back()].at) + "> of line " +
                     std::to_string(line_of(text_, scanned_.elements[open_.back()].at)) + " is still open",
                 "close it; or is the file cut short?");
        if (!stopped_ && scanned_.elements.empty())
            stop(0, "there is no element in it", "a survey file begins with <rig-survey …>");
        return std::move(scanned_);
    }

 private:
    void step() {
        if (text_[at_] != '<') return character_data();
        if (starts("<!--")) return comment();
        if (starts("<![CDATA[")) return cdata();
        if (starts("<!DOCTYPE") || starts("<!doctype"))
            return stop(at_, "a DOCTYPE is not allowed", "delete it; the file needs no entities");
        if (starts("<?xml ") && at_ == 0) return declaration();
        if (starts("<?")) return stop(at_, "processing instructions are not allowed", "delete the <?…?>");
        if (starts("</")) return end_tag();
        start_tag();
    }

    void character_data() {
        const auto end = std::min(text_.find('<', at_), text_.size());
        const auto piece = text_.substr(at_, end - at_);
        if (open_.empty() && !trim(piece).empty())
            return stop(at_ + piece.find_first_not_of(" \t\r\n"), "text outside the root element",
                        "delete " + in_quotes(trim(piece)));
        if (piece.find("]]>") != std::string_view::npos) return stop(at_, "\"]]>\" in text", "write ]]&gt;");
        check_entities(piece);
        at_ = end;
    }

    /// The end is looked for behind the beginning: "<!-->" is no whole comment.
    void comment() {
        const auto start = at_;
        skip_to("<!--", "-->", "a comment is not closed");
        if (!stopped_) scanned_.comments.push_back({start, at_});
    }

    void cdata() {
        if (open_.empty()) return stop(at_, "text outside the root element", "delete it");
        skip_to("<![CDATA[", "]]>", "a CDATA section is not closed");
    }

    void declaration() {
        const auto end = text_.find("?>");
        const auto piece = text_.substr(0, end);
        if (end == std::string_view::npos) return stop(0, "the XML declaration is not closed", "end it with ?>");
        if (piece.find("version=\"1.0\"") == std::string_view::npos &&
            piece.find("version='1.0'") == std::string_view::npos)
            return stop(0, "only XML 1.0 is read", "write <?xml version=\"1.0\" encoding=\"UTF-8\"?>");
        if (!declares_utf8(piece)) return stop(0, "only UTF-8 is read", "save the file as UTF-8 and declare it so");
        at_ = end + 2;
    }

    void end_tag() {
        const auto end = text_.find('>', at_);
        if (end == std::string_view::npos) return stop(at_, "a tag is not closed", "end it with >");
        const std::string name(trim(text_.substr(at_ + 2, end - at_ - 2)));
        const bool begun = std::any_of(open_.begin(), open_.end(),
                                       [&](std::size_t one) { return name_at(scanned_.elements[one].at) == name; });
        if (!begun)
            return stop(at_, "the end tag </" + shown(name) + "> has no start tag", "is it mistyped, or one too many?");
        if (const std::size_t inner = scanned_.elements[open_.back()].at; name_at(inner) != name)
            return stop(inner,
                        "<" + name_at(inner) + "> is not closed: </" + name + "> of line " +
                            std::to_string(line_of(text_, at_)) + " comes before its end",
                        "write </" + name_at(inner) + "> where it ends, or end its tag in \"/>\"");
        Span& span = scanned_.elements[open_.back()];
        open_.pop_back();
        span.content_end = at_;
        span.end = at_ = end + 1;
    }

    /// Of the element whose '<' stands there.
    std::string name_at(std::size_t at) const {
        return std::string(text_.substr(at + 1, text_.find_first_of(" \t\r\n/>", at + 1) - at - 1));
    }

    void start_tag() {
        const auto start = at_++;
        const char first = at_ < text_.size() ? text_[at_] : '>';
        const bool letter = (first >= 'a' && first <= 'z') || (first >= 'A' && first <= 'Z') || first == '_' ||
                            static_cast<unsigned char>(first) >= 0x80;
        if (!letter) return stop(start, "\"<\" that begins no tag", "in words write &lt;");
        if (open_.empty() && !scanned_.elements.empty())
            return stop(start, "a second root element", "keep one <rig-survey> a file");
        if (scanned_.elements.size() == most_elements)
            return stop(start, "more than " + std::to_string(most_elements) + " elements", "is it the right file?");
        inside_start_tag(start);
        if (stopped_) return;
        if (at_ >= text_.size()) return stop(start, "a tag is not closed", "end it with >");
        const bool empty = text_[at_ - 1] == '/';
        ++at_;
        scanned_.elements.push_back({start, at_, at_, at_});
        if (!empty) open_.push_back(scanned_.elements.size() - 1);
        if (open_.size() > static_cast<std::size_t>(deepest))
            stop(start, "elements nested more than " + std::to_string(deepest) + " deep", "a survey needs six levels");
    }

    void inside_start_tag(std::size_t start) {
        std::size_t attributes = 0;
        while (at_ < text_.size() && text_[at_] != '>' && !stopped_) {
            if (text_[at_] == '<') return stop(start, "a tag is not closed", "end it with >");
            if (text_[at_] != '"' && text_[at_] != '\'') {
                ++at_;
                continue;
            }
            if (++attributes > most_attributes)
                return stop(start, "more than " + std::to_string(most_attributes) + " attributes in one element",
                            "no element has so many");
            attribute_value();
        }
    }

    void attribute_value() {
        const auto end = text_.find(text_[at_], at_ + 1);
        if (end == std::string_view::npos)
            return stop(at_, "an attribute value is not closed", "end it with its quote");
        const auto value = text_.substr(at_ + 1, end - at_ - 1);
        if (value.find('<') != std::string_view::npos) return stop(at_, "\"<\" in an attribute value", "write &lt;");
        check_entities(value);
        at_ = end + 1;
        if (!stopped_ && at_ < text_.size() && (text_[at_] == '"' || text_[at_] == '\''))
            stop(at_, "a stray quote behind " + in_quotes(value), "delete it; inches are written \"5/16 in\"");
    }

    void check_entities(std::string_view piece) {
        for (auto i = piece.find('&'); i != std::string_view::npos && !stopped_; i = piece.find('&', i + 1)) {
            const auto end = piece.find(';', i);
            const auto name = end == std::string_view::npos ? std::string_view() : piece.substr(i + 1, end - i - 1);
            const auto offset = static_cast<std::size_t>(piece.data() - text_.data()) + i;
            if (name.empty()) stop(offset, "\"&\" that begins no entity", "write &amp;");
            else if (name.front() == '#') check_reference(name, offset);
            else if (name != "lt" && name != "gt" && name != "amp" && name != "quot" && name != "apos")
                stop(offset, "unknown entity " + in_quotes("&" + std::string(name) + ";"),
                     "write the character itself, in UTF-8");
        }
    }

    void check_reference(std::string_view name, std::size_t offset) {
        const auto point = referred(name);
        if (!point || is_forbidden(*point))
            stop(offset,
                 "character reference " + in_quotes("&" + std::string(name) + ";") + " names no usable character",
                 "write the character itself");
    }

    void skip_to(std::string_view begin, std::string_view end, const char* unclosed) {
        const auto found = text_.find(end, at_ + begin.size());
        if (found == std::string_view::npos) return stop(at_, unclosed, "close it with " + std::string(end));
        at_ = found + end.size();
    }

    bool starts(std::string_view what) const { return text_.substr(at_).starts_with(what); }

    void stop(std::size_t offset, std::string what, std::string hint) {
        scanned_.problems.push_back({{file_, line_of(text_, offset)}, std::move(what), std::move(hint)});
        stopped_ = true;
    }

    std::string_view text_;
    const std::string& file_;
    std::size_t at_ = 0;
    std::vector<std::size_t> open_;  ///< elements not yet ended, by their place in `scanned_`
    bool stopped_ = false;
    Scanned scanned_;
};

/// What a file that is no text begins with.
struct Beginning {
    std::string_view bytes;
    std::string_view what;
};
constexpr Beginning no_texts[] = {{"PK\x03\x04", "a zip archive, or a word processor's or spreadsheet's document"},
                                  {"\xD0\xCF\x11\xE0", "a word processor's or spreadsheet's document"},
                                  {"{\\rtf", "a word processor's document"},
                                  {"%PDF", "a PDF"},
                                  {"\xFF\xD8\xFF", "a photo"},
                                  {"\x89PNG", "a picture"},
                                  {"\x1F\x8B", "a compressed file"}};

Problems check_text(std::string_view text, const std::string& file) {
    for (const Beginning& one : no_texts)
        if (text.starts_with(one.bytes))
            return {{{file, 1},
                     "not a text file but " + std::string(one.what),
                     "a survey is a plain text file; save it as text, in the encoding UTF-8"}};
    if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF"))
        return {{{file, 1}, "a text file in UTF-16", "save the file in the encoding UTF-8"}};
    if (text.substr(0, 1024).find('\0') != std::string_view::npos)
        return {{{file, 1}, "not a text file", "a survey is a plain text file, in the encoding UTF-8"}};
    return {};
}

Problems check_characters(std::string_view text, const std::string& file) {
    if (auto problems = check_text(text, file); !problems.empty()) return problems;
    const auto points = decode_utf8(text);
    if (!points)
        return {
            {{file, line_of(text, valid_utf8(text))}, "not valid UTF-8 text", "save the file in the encoding UTF-8"}};
    int line = 1;
    for (const char32_t c : *points) {
        if (c == '\n') ++line;
        if (is_forbidden(c))
            return {{{file, line},
                     "the character " + code_point(c) + " is not allowed",
                     "delete it; it is invisible in most editors"}};
    }
    return {};
}

}  // namespace

std::optional<char32_t> referred(std::string_view reference) {
    const bool hex = reference.starts_with("#x");
    const auto digits = reference.substr(std::min(reference.size(), hex ? std::size_t{2} : std::size_t{1}));
    unsigned long value = 0;
    const auto [end, code] = std::from_chars(digits.data(), digits.data() + digits.size(), value, hex ? 16 : 10);
    const bool number = code == std::errc{} && end == digits.data() + digits.size() && value <= 0x10FFFF;
    const bool surrogate = value >= 0xD800 && value <= 0xDFFF;
    return number && !surrogate ? std::optional(static_cast<char32_t>(value)) : std::nullopt;
}

int line_of(std::string_view text, std::size_t offset) {
    return 1 + static_cast<int>(std::count(
                   text.begin(), text.begin() + static_cast<std::ptrdiff_t>(std::min(offset, text.size())), '\n'));
}

Scanned scan(std::string_view text, const std::string& file) {
    if (auto problems = check_characters(text, file); !problems.empty()) return {std::move(problems), {}, {}};
    return Scanner(text, file).run();
}

}  // namespace rigdeed::xml
