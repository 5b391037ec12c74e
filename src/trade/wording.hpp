#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/text.hpp"

namespace rigdeed::trade {

/// The words of the report in one language, by key.
class Wording {
 public:
    void set(std::string key, std::string words) { words_[std::move(key)] = std::move(words); }
    [[nodiscard]] bool has(std::string_view key) const { return words_.find(key) != words_.end(); }
    /// Throws Error (code bug) for a key that has no words: a hole in the report must not go unnoticed.
    [[nodiscard]] const std::string& operator()(std::string_view key) const;
    [[nodiscard]] std::string operator()(std::string_view key, const std::vector<Filling>& fillings) const {
        return filled((*this)(key), fillings);
    }
    /// "key.one" or "key.many" by the count, which fills {n}.
    [[nodiscard]] std::string count(std::string_view key, std::size_t n) const;

 private:
    std::map<std::string, std::string, std::less<>> words_;
};

}  // namespace rigdeed::trade
