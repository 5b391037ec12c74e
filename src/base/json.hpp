#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace rigdeed {

/// Writes JSON (RFC 8259) piece by piece, indented by two blanks.
class JsonWriter {
 public:
    JsonWriter& begin_object() { return open('{', '}'); }
    JsonWriter& begin_array() { return open('[', ']'); }
    JsonWriter& end();
    JsonWriter& key(std::string_view name);
    JsonWriter& value(std::string_view text);
    JsonWriter& value(const char* text) { return value(std::string_view(text)); }
    JsonWriter& value(bool truth) { return raw(truth ? "true" : "false"); }
    JsonWriter& value(std::int64_t number) { return raw(std::to_string(number)); }
    JsonWriter& value(int number) { return raw(std::to_string(number)); }
    JsonWriter& value(std::size_t number) { return raw(std::to_string(number)); }
    /// A decimal number with that many digits behind the point; throws Error (bug) if it is not finite.
    JsonWriter& number(double number, int decimals);
    JsonWriter& null() { return raw("null"); }

    template <class T>
    JsonWriter& field(std::string_view name, const T& content) {
        key(name);
        return value(content);
    }

    /// The document; every object and array must have been ended.
    [[nodiscard]] std::string text() const { return text_ + "\n"; }
    /// What was written since the last call, to be handed on while the rest is still unknown.
    [[nodiscard]] std::string taken() { return std::exchange(text_, {}); }

 private:
    JsonWriter& open(char opening, char closing);
    JsonWriter& raw(std::string_view piece);
    void separate();

    std::string text_;
    std::vector<char> closings_;
    bool first_ = true;
    bool after_key_ = false;
};

}  // namespace rigdeed
