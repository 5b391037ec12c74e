#include <filesystem>

#include "base/error.hpp"
#include "base/fields.hpp"
#include "base/file.hpp"
#include "base/text.hpp"
#include "trade/read_templates.hpp"

namespace rigdeed::trade {
namespace {

constexpr std::uint64_t largest_logo = 2 * 1024 * 1024;
constexpr std::size_t most_lines = 3;

std::optional<unsigned char> hex_byte(std::string_view two) {
    int value = 0;
    for (const char c : two) {
        const int digit = c >= '0' && c <= '9'   ? c - '0'
                          : c >= 'a' && c <= 'f' ? c - 'a' + 10
                          : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                                 : -1;
        if (digit < 0) return std::nullopt;
        value = value * 16 + digit;
    }
    return static_cast<unsigned char>(value);
}

std::optional<Colour> read_colour(const std::string& text) {
    if (text.size() != 7 || text[0] != '#') return std::nullopt;
    const auto red = hex_byte(text.substr(1, 2)), green = hex_byte(text.substr(3, 2)),
               blue = hex_byte(text.substr(5, 2));
    if (!red || !green || !blue) return std::nullopt;
    return Colour{*red, *green, *blue};
}

/// The logo lies beside the template that names it.
void read_logo(Letterhead& letterhead, const std::string& name, const std::string& file, int line, Fields& fields) {
    if (name.empty()) return;
    if (name.find('/') != std::string::npos || name == "." || name == "..")
        return fields.say(line, "logo " + in_quotes(name) + " is a path", "write the name of a file beside this one");
    const std::filesystem::path path = std::filesystem::path(file).parent_path() / name;
    try {
        letterhead.logo = read_file(path, largest_logo);
        letterhead.logo_file = path.string();
    } catch (const Error& error) {
        fields.say(line, "logo " + in_quotes(name) + ": " + error.what(),
                   "put the picture beside this file, at most 2 MiB");
    }
}

}  // namespace

void read_letterhead(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    Fields fields(root, "<letterhead>", file, problems);
    Letterhead& letterhead = trade.letterhead;
    letterhead = {};
    fields.text("xmlns");
    letterhead.paper =
        fields.choice("paper", std::vector<PaperRow>(papers.begin(), papers.end()), false).value_or(letterhead.paper);
    if (const std::string language =
            fields.choice_text("language", std::vector<std::string>(languages.begin(), languages.end()));
        !language.empty())
        letterhead.language = language;
    letterhead.firm = fields.optional_text("firm");
    if (const std::string accent = fields.optional_text("accent"); !accent.empty()) {
        letterhead.accent = read_colour(accent);
        if (!letterhead.accent)
            fields.say(root.line, "accent " + in_quotes(accent) + " is no colour", "write #rrggbb, as #1F4E79");
    }
    const std::string logo = fields.optional_text("logo");
    if (!trade.own.carried) read_logo(letterhead, logo, file, root.line, fields);
    fields.finish({"line"});
    for (const xml::Element& child : root.children)
        if (child.name == "line") letterhead.lines.push_back(squeezed(child.text));
    if (letterhead.lines.size() > most_lines)
        fields.say(root.line, "it has more than three lines", "keep three: the cover has no room for more");
}

}  // namespace rigdeed::trade
