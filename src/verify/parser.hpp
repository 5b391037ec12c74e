#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "verify/object.hpp"

namespace rigdeed::verify {

/// Reads objects exactly as reports write them: one blank or line feed where one stands, no comments, no duplicate
/// keys, no escapes in names. After the first fault all reading yields nothing.
class Parser {
 public:
    explicit Parser(std::string_view bytes, std::size_t at = 0) : bytes_(bytes), at_(at) {}

    [[nodiscard]] Object object();
    /// Steps over `literal` if it stands here; a fault otherwise.
    void expect(std::string_view literal);
    [[nodiscard]] bool here(std::string_view literal) const {
        return peek() == literal[0] && (literal.size() == 1 || bytes_.substr(at_, literal.size()) == literal);
    }
    /// Digits without leading zeros, below 10^10; a fault otherwise.
    [[nodiscard]] std::size_t number();
    /// Exactly ten digits.
    [[nodiscard]] std::size_t ten_digits();
    void skip(std::size_t count);

    [[nodiscard]] std::size_t at() const { return at_; }
    [[nodiscard]] bool failed() const { return !fault_.empty(); }
    [[nodiscard]] const std::string& fault() const { return fault_; }
    void fail(const std::string& what);

 private:
    [[nodiscard]] char peek(std::size_t ahead = 0) const {
        return at_ + ahead < bytes_.size() ? bytes_[at_ + ahead] : '\0';
    }
    [[nodiscard]] Dict dict();
    [[nodiscard]] Array array();
    [[nodiscard]] Array byte_range();
    [[nodiscard]] Text literal_string();
    [[nodiscard]] Text hex_string(bool lower_case);
    [[nodiscard]] Name name(bool media_type);
    void value(std::string_view key, Object& to);
    void digits(Object& to);
    [[nodiscard]] bool reference(Object& to);

    std::string_view bytes_;
    std::size_t at_;
    int depth_ = 0;
    std::vector<Entry> entries_;  // of the dictionaries that are being read, the outermost first
    std::vector<Object> items_;   // of the arrays
    std::size_t values_ = 0;
    std::string fault_;
};

}  // namespace rigdeed::verify
