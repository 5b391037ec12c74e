#include "base/json.hpp"

#include "base/quantity.hpp"

namespace rigdeed {
namespace {

std::string escaped(std::string_view text) {
    static constexpr char digits[] = "0123456789abcdef";
    std::string result = "\"";
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') (result += '\\') += c;
        else if (c == '\n') result += "\\n";
        else if (byte < 0x20 || byte == 0x7F) ((result += "\\u00") += digits[byte >> 4]) += digits[byte & 15];
        else result += c;
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
