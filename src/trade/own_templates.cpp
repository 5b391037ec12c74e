#include "trade/own_templates.hpp"

#include <algorithm>

#include "base/file.hpp"
#include "base/xml.hpp"

namespace rigdeed::trade {
namespace {

constexpr std::uint64_t largest_template = 4 * 1024 * 1024;
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

}  // namespace

OwnTemplate::Matter OwnTemplate::matter() const {
    if (name.starts_with("look/")) return Matter::look;
    return name.starts_with("wording/") || name.starts_with("phrases/") ? Matter::words : Matter::rules;
}

std::vector<std::string> OwnTemplates::telling() const {
    std::vector<std::string> names;
    for (const OwnTemplate& file : files)
        if (file.matter() != OwnTemplate::Matter::look) names.push_back(file.name);
    return names;
}

bool OwnTemplates::have(OwnTemplate::Matter matter) const {
    return std::any_of(files.begin(), files.end(), [&](const OwnTemplate& file) { return file.matter() == matter; });
}

OwnTemplates read_own_templates(const std::filesystem::path& folder) {
    OwnTemplates own;
    for (const std::string& name : Folder(folder).files()) {
        if (!name.ends_with(".xml")) continue;
        const Bytes bytes = read_file(folder / name, largest_template);
        std::string_view text = as_text(bytes);
        if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
        own.files.push_back({name, std::string(text), (folder / name).string()});
    }
    return own;
}

std::string write_carried(const OwnTemplates& own) {
    std::string text =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<own-templates xmlns=\"urn:rigdeed:own-templates:1\">\n";
    for (const OwnTemplate& file : own.files)
        text += "  <file name=\"" + xml::escaped(file.name) + "\" text=\"" + xml::escaped(file.text) + "\"/>\n";
    return text + "</own-templates>\n";
}

std::optional<OwnTemplates> read_carried(std::string_view text) {
    const auto [root, problems] = xml::read(text, "templates.xml");
    if (!root || root->name != "own-templates") return std::nullopt;
    OwnTemplates own;
    own.carried = true;
    for (const xml::Element& file : root->children) {
        const auto name = file.get("name"), content = file.get("text");
        if (file.name != "file" || !name || !content) return std::nullopt;
        if (!own.files.empty() && own.files.back().name >= *name) return std::nullopt;
        own.files.push_back({*name, *content, "templates.xml in the report, " + *name});
    }
    return own;
}

}  // namespace rigdeed::trade
