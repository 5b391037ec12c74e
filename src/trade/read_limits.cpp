#include "base/fields.hpp"
#include "base/text.hpp"
#include "trade/read_templates.hpp"

namespace rigdeed::trade {
namespace {

/// A number of a table, with or without a decimal point.
double number_of(Fields& fields, std::string_view name) {
    const auto read = [](std::string_view text) -> std::optional<double> {
        const auto measure = read_measure(std::string(text) + " mm", Measure::length);
        return measure.value ? std::optional(measure.value->value) : std::nullopt;
    };
    return fields.value<double>(name, true, read, "a number", "0.25").value_or(0);
}

}  // namespace

void read_plausible(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    Fields head(root, "<plausible>", file, problems);
    head.text("xmlns");
    head.finish({"limit"});
    for (const xml::Element& element : root.children) {
        Fields fields(element, "limit " + in_quotes(element.get("id").value_or("?")), file, problems);
        Plausible row;
        row.id = fields.token("id");
        row.least = number_of(fields, "least");
        row.usual_least = number_of(fields, "usual-least");
        row.usual_most = number_of(fields, "usual-most");
        row.most = number_of(fields, "most");
        row.source = fields.text("source");
        fields.finish();
        if (row.least > row.usual_least || row.usual_least > row.usual_most || row.usual_most > row.most)
            fields.say(element.line, "its limits are not in order", "least, usual-least, usual-most, most");
        trade.tables.plausible.push_back(std::move(row));
    }
}

void read_aliases(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    Fields head(root, "<aliases>", file, problems);
    head.text("xmlns");
    head.finish({"alias"});
    for (const xml::Element& element : root.children) {
        Fields fields(element, "alias " + in_quotes(element.get("id").value_or("?")), file, problems);
        Alias alias{fields.choice_text("of", {"kind", "sign", "role", "make", "material"}), fields.token("id"), {}};
        for (const std::string& word : split(fields.text("words", 1000), ' ')) alias.words.push_back(lower(word));
        fields.finish();
        if (alias.of.empty()) fields.say(element.line, "of is missing", "write of=\"kind\"");
        trade.aliases.push_back(std::move(alias));
    }
}

std::vector<std::string> Trade::meant(std::string_view of, std::string_view word) const {
    std::vector<std::string> ids;
    const std::string wanted = lower(word);
    for (const Alias& alias : aliases)
        for (const std::string& one : alias.words)
            if (alias.of == of && one == wanted) add_once(ids, alias.id);
    return ids;
}

}  // namespace rigdeed::trade
