#pragma once

#include <map>
#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "base/xml.hpp"

namespace rigdeed::trade {

/// The texts of the templates in another language, by the English ones. Without any, nothing is translated.
class Phrases {
 public:
    /// <phrases> of <p> with <en> and <to>. A text without its translation, twice a text, or other fill-ins in the
    /// translation are problems.
    void read(const xml::Element& root, const std::string& file, Problems& problems);

    /// Puts the translation in the place of every text that a reader sees; ids, numbers and units stay. What has no
    /// translation stays too if `must_know_all` is empty, else it throws Error (code bug) that names this file.
    void translate(xml::Element& root, const std::string& must_know_all) const;

    [[nodiscard]] const std::map<std::string, std::string, std::less<>>& all() const { return phrases_; }

 private:
    void replace(std::string& text, int line, const std::string& must_know_all) const;

    std::map<std::string, std::string, std::less<>> phrases_;
};

/// The {fill-ins} of a text, sorted.
[[nodiscard]] std::vector<std::string> fill_ins(std::string_view text);

/// Every text of a template file that is translated, in its order.
[[nodiscard]] std::vector<std::string> texts_of(const xml::Element& root);

}  // namespace rigdeed::trade
