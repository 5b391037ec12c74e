#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/text.hpp"

namespace rigdeed::trade {

/// The words of the report in one language, by key, and how that language writes numbers, dates and lists ("form.…").
class Wording {
 public:
    explicit Wording(std::string language = "en") : language_(std::move(language)) {}

    /// ISO 639-1: "en".
    [[nodiscard]] const std::string& language() const { return language_; }
    void set(std::string key, std::string words) { words_[std::move(key)] = std::move(words); }
    [[nodiscard]] const std::map<std::string, std::string, std::less<>>& all() const { return words_; }
    [[nodiscard]] bool has(std::string_view key) const { return words_.find(key) != words_.end(); }
    /// Throws Error (code bug) for a key that has no words: a hole in the report must not go unnoticed.
    [[nodiscard]] const std::string& operator()(std::string_view key) const;
    [[nodiscard]] std::string operator()(std::string_view key, const std::vector<Filling>& fillings) const {
        return filled((*this)(key), fillings);
    }
    /// "key.one" or "key.many" by the count, which fills {n}.
    [[nodiscard]] std::string count(std::string_view key, std::size_t n) const;

    /// 3.50, in other languages 3,50.
    [[nodiscard]] std::string number(double value, int decimals) const;
    /// The same of numbers in a text that holds nothing else with a point in it: "14.20 m", "50.43 kN (11337 lbf)".
    [[nodiscard]] std::string numbers(std::string_view text) const;
    [[nodiscard]] std::string date(const Date& date) const;      ///< 3 October 2026
    [[nodiscard]] std::string date(const PartDate& date) const;  ///< May 2014
    /// "a", "a and b", "a, b and c".
    [[nodiscard]] std::string listed(const std::vector<std::string>& parts) const;
    [[nodiscard]] std::string either(const std::vector<std::string>& parts) const;  ///< "a or b"

 private:
    [[nodiscard]] std::string joined(const std::vector<std::string>& parts, std::string_view last) const;

    std::string language_;
    std::map<std::string, std::string, std::less<>> words_;
};

}  // namespace rigdeed::trade
