#include "base/json.hpp"

#include "base/quantity.hpp"
#include "base/text.hpp"

namespace rigdeed {
namespace {

std::string escaped(std::string_view text) {
    static constexpr char digits[] = "0123456789abcdef";
    const auto unit = [](unsigned value) {
        std::string four = "\\u";
        for (int shift = 12; shift >= 0; shift -= 4) four += digits[value >> shift & 15];
        return four;
    };
    std::string result = "\"";
    for (std::size_t at = 0; at < text.size();) {
        std::size_t length = 1;
        while (at + length < text.size() && (static_cast<unsigned char>(text[at + length]) & 0xC0) == 0x80) ++length;
        const std::string_view piece = text.substr(at, length);
        const auto points = decode_utf8(piece);
        const char32_t point = points ? points->front() : 0xFFFD;  // what is no character
        if (point == '"' || point == '\\') (result += '\\') += piece;
        else if (point == '\n') result += "\\n";
        else if (points && !is_deceptive(point)) result += piece;
        else if (point < 0x10000) result += unit(point);
        else result += unit(0xD800 + ((point - 0x10000) >> 10)) + unit(0xDC00 + ((point - 0x10000) & 0x3FF));
        at += length;
    }
    return result + "\"";
}

}  // namespace

void JsonWriter::separate() {
    if (after_key_) {
        after_key_ = false;
        return;
    }
    if (!first_) text_ += ',';
    if (!closings_.empty()) text_ += "\n" + std::string(closings_.size() * 2, ' ');
    first_ = false;
}

JsonWriter& JsonWriter::open(char opening, char closing) {
    separate();
    text_ += opening;
    closings_.push_back(closing);
    first_ = true;
    return *this;
}

JsonWriter& JsonWriter::end() {
    const char closing = closings_.back();
    closings_.pop_back();
    if (!first_) text_ += "\n" + std::string(closings_.size() * 2, ' ');
    text_ += closing;
    first_ = false;
    return *this;
}

JsonWriter& JsonWriter::key(std::string_view name) {
    separate();
    text_ += escaped(name) + ": ";
    after_key_ = true;
    return *this;
}

JsonWriter& JsonWriter::value(std::string_view text) { return raw(escaped(text)); }
JsonWriter& JsonWriter::number(double number, int decimals) { return raw(fixed(number, decimals)); }

JsonWriter& JsonWriter::raw(std::string_view piece) {
    separate();
    text_ += piece;
    return *this;
}

}  // namespace rigdeed
