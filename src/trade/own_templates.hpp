#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Templates of the user's own, which stand in for those built in.
namespace rigdeed::trade {

struct OwnTemplate {
    std::string name;  ///< "look/letterhead.xml"
    std::string text;
    std::string origin;  ///< as messages call it

    /// What it can change: how the paper looks, its words, or the rules by which fittings are judged.
    enum class Matter { look, words, rules };
    [[nodiscard]] Matter matter() const;
};

struct OwnTemplates {
    std::vector<OwnTemplate> files;  ///< by name
    bool carried = false;            ///< out of a report: what lay beside them (a logo) is not there

    /// Names of those that are rules or words: what a reader must be told of.
    [[nodiscard]] std::vector<std::string> telling() const;
    [[nodiscard]] bool have(OwnTemplate::Matter matter) const;
};

/// Every template file of a folder. Throws Error if it cannot be read.
[[nodiscard]] OwnTemplates read_own_templates(const std::filesystem::path& folder);

/// As they are carried in a report (templates.xml), and back; nothing if the text is no such file.
[[nodiscard]] std::string write_carried(const OwnTemplates& own);
[[nodiscard]] std::optional<OwnTemplates> read_carried(std::string_view text);

}  // namespace rigdeed::trade
