#include "base/xml_scan.hpp"

#include <algorithm>
#include <charconv>

#include "base/text.hpp"

namespace rigdeed::xml {
namespace {

constexpr int deepest = 32;

bool is_forbidden(char32_t c) {
    const bool control = (c < 0x20 && c != '\t' && c != '\n' && c != '\r') || (c >= 0x7F && c < 0xA0);
    const bool direction = (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0x200E || c == 0x200F;
    return control || direction || (c & 0xFFFE) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF) || c == 0xFEFF;
}

std::string code_point(char32_t c) {
    static constexpr char digits[] = "0123456789ABCDEF";
    std::string hex;
    for (int shift = c > 0xFFFF ? 20 : 12; shift >= 0; shift -= 4) hex += digits[(c >> shift) & 15];
    return "U+" + hex;
}

/// Walks over the markup without building anything.
class Scanner {
 public:
    Scanner(std::string_view text, const std::string& file) : text_(text), file_(file) {}

    Problems run() {
        while (at_ < text_.size() && !stopped_) step();
        if (!stopped_ && depth_ > 0)
            stop(text_.size(), "the file ends inside an element", "close every element; is the file cut short?");
        if (!stopped_ && roots_ == 0) stop(0, "there is no element in it", "a survey file begins with <rig-survey …>");
        return std::move(problems_);
    }

 private:
    void step() {
        if (text_[at_] != '<') return character_data();
        if (starts("<!--")) return skip_to("-->", "a comment is not closed");
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
        if (depth_ == 0 && !trim(piece).empty())
            return stop(at_ + piece.find_first_not_of(" \t\r\n"), "text outside the root element",
                        "delete " + in_quotes(trim(piece)));
        if (piece.find("]]>") != std::string_view::npos) return stop(at_, "\"]]>\" in text", "write ]]&gt;");
        check_entities(piece);
        at_ = end;
    }

    void cdata() {
        if (depth_ == 0) return stop(at_, "text outside the root element", "delete it");
        skip_to("]]>", "a CDATA section is not closed");
    }

    void declaration() {
        const auto end = text_.find("?>");
        const auto piece = text_.substr(0, end);
        if (end == std::string_view::npos) return stop(0, "the XML declaration is not closed", "end it with ?>");
        if (piece.find("version=\"1.0\"") == std::string_view::npos &&
            piece.find("version='1.0'") == std::string_view::npos)
            return stop(0, "only XML 1.0 is read", "write <?xml version=\"1.0\" encoding=\"UTF-8\"?>");
        const auto encoding = piece.find("encoding=");
        if (encoding != std::string_view::npos && !lower(piece.substr(encoding + 10)).starts_with("utf-8"))
            return stop(0, "only UTF-8 is read", "save the file as UTF-8 and declare it so");
        at_ = end + 2;
    }

    void end_tag() {
        const auto end = text_.find('>', at_);
        if (end == std::string_view::npos) return stop(at_, "a tag is not closed", "end it with >");
        if (--depth_ < 0) return stop(at_, "an end tag without its start tag", "delete it");
        at_ = end + 1;
    }

    void start_tag() {
        if (depth_ == 0 && ++roots_ > 1) return stop(at_, "a second root element", "keep one <rig-survey> a file");
        const auto start = at_++;
        while (at_ < text_.size() && text_[at_] != '>' && !stopped_) {
            if (text_[at_] == '<') return stop(start, "a tag is not closed", "end it with >");
            if (text_[at_] == '"' || text_[at_] == '\'') attribute_value();
            else ++at_;
        }
        if (stopped_) return;
        if (at_ >= text_.size()) return stop(start, "a tag is not closed", "end it with >");
        const bool empty = text_[at_ - 1] == '/';
        ++at_;
        if (!empty && ++depth_ > deepest)
            stop(start, "elements nested more than " + std::to_string(deepest) + " deep", "a survey needs six levels");
    }

    void attribute_value() {
        const auto end = text_.find(text_[at_], at_ + 1);
        if (end == std::string_view::npos)
            return stop(at_, "an attribute value is not closed", "end it with its quote");
        const auto value = text_.substr(at_ + 1, end - at_ - 1);
        if (value.find('<') != std::string_view::npos) return stop(at_, "\"<\" in an attribute value", "write &lt;");
        check_entities(value);
        at_ = end + 1;
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
        const bool hex = name.starts_with("#x");
        const auto digits = name.substr(hex ? 2 : 1);
        unsigned long value = 0;
        const auto [end, code] = std::from_chars(digits.data(), digits.data() + digits.size(), value, hex ? 16 : 10);
        const bool number = code == std::errc{} && end == digits.data() + digits.size() && value <= 0x10FFFF;
        const bool surrogate = value >= 0xD800 && value <= 0xDFFF;
        if (!number || surrogate || is_forbidden(static_cast<char32_t>(value)))
            stop(offset,
                 "character reference " + in_quotes("&" + std::string(name) + ";") + " names no usable character",
                 "write the character itself");
    }

    void skip_to(std::string_view end, const char* unclosed) {
        const auto found = text_.find(end, at_);
        if (found == std::string_view::npos) return stop(at_, unclosed, "close it with " + std::string(end));
        at_ = found + end.size();
    }

    bool starts(std::string_view what) const { return text_.substr(at_).starts_with(what); }

    void stop(std::size_t offset, std::string what, std::string hint) {
        problems_.push_back({{file_, line_of(text_, offset)}, std::move(what), std::move(hint)});
        stopped_ = true;
    }

    std::string_view text_;
    const std::string& file_;
    std::size_t at_ = 0;
    int depth_ = 0;
    int roots_ = 0;
    bool stopped_ = false;
    Problems problems_;
};

Problems check_characters(std::string_view text, const std::string& file) {
    const auto points = decode_utf8(text);
    if (!points) {
        std::size_t good = 0;  // longest valid prefix ends before the first bad byte
        for (std::size_t step = text.size(); step > 0; step /= 2)
            while (good + step <= text.size() && decode_utf8(text.substr(0, good + step))) good += step;
        return {{{file, line_of(text, good)}, "not valid UTF-8 text", "save the file in the encoding UTF-8"}};
    }
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

int line_of(std::string_view text, std::size_t offset) {
    return 1 + static_cast<int>(std::count(
                   text.begin(), text.begin() + static_cast<std::ptrdiff_t>(std::min(offset, text.size())), '\n'));
}

Problems scan(std::string_view text, const std::string& file) {
    if (auto problems = check_characters(text, file); !problems.empty()) return problems;
    return Scanner(text, file).run();
}

}  // namespace rigdeed::xml
