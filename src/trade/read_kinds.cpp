#include <algorithm>

#include "base/fields.hpp"
#include "base/text.hpp"
#include "trade/limits.hpp"
#include "trade/read_templates.hpp"

namespace rigdeed::trade {
namespace {

struct BarsRow {
    Bars value;
    std::string_view name;
};
const std::vector<BarsRow> bars_names{{Bars::never, "no"}, {Bars::at_deck, "at-deck"}, {Bars::always, "always"}};

struct RenewsRow {
    bool value;
    std::string_view name;
};
const std::vector<RenewsRow> renews_names{{true, "stay"}, {false, "fitting"}};
const std::vector<RenewsRow> spreads_names{{true, "yes"}, {false, "no"}};

struct ShowsRow {
    Shows value;
    std::string_view name;
};
const std::vector<ShowsRow> shows_names{{Shows::crack, "crack"},
                                        {Shows::crack_along, "crack-along"},
                                        {Shows::crack_across, "crack-across"},
                                        {Shows::broken, "broken"},
                                        {Shows::rust, "rust"},
                                        {Shows::corroded, "corroded"},
                                        {Shows::pits, "pits"},
                                        {Shows::blisters, "blisters"},
                                        {Shows::gone, "missing"},
                                        {Shows::bent, "bent"},
                                        {Shows::dent, "dent"},
                                        {Shows::worn, "worn"},
                                        {Shows::chafed, "chafed"},
                                        {Shows::loose, "loose"},
                                        {Shows::dead, "dead"},
                                        {Shows::reversed, "reversed"},
                                        {Shows::slipped, "slipped"},
                                        {Shows::foreign, "foreign"},
                                        {Shows::leak, "leak"},
                                        {Shows::hidden, "hidden"}};

struct SignIsRow {
    SignIs value;
    std::string_view name;
};
const std::vector<SignIsRow> sign_is_names{
    {SignIs::crack, "crack"},         {SignIs::creep, "creep"}, {SignIs::broken_wire, "broken-wire"},
    {SignIs::dull_wire, "dull-wire"}, {SignIs::rust, "rust"},   {SignIs::bent, "bent"}};

struct KindIsRow {
    KindIs value;
    std::string_view name;
};
const std::vector<KindIsRow> kind_is_names{
    {KindIs::line, "line"},     {KindIs::wires, "wires"}, {KindIs::terminal, "terminal"},   {KindIs::eye, "eye"},
    {KindIs::toggle, "toggle"}, {KindIs::pin, "pin"},     {KindIs::split_pin, "split-pin"}, {KindIs::tip, "tip"},
    {KindIs::sail, "sail"},     {KindIs::lamp, "lamp"},   {KindIs::aged, "aged"},           {KindIs::root, "root"}};

struct StandsRow {
    Stands value;
    std::string_view name;
};
const std::vector<StandsRow> stands_names{{Stands::masthead, "masthead"},           {Stands::stem, "stem"},
                                          {Stands::bowsprit_end, "bowsprit-end"},   {Stands::side_deck, "side-deck"},
                                          {Stands::spreader_root, "spreader-root"}, {Stands::spreader, "spreader"},
                                          {Stands::spreader_tip, "spreader-tip"}};

std::vector<KindIs> read_is(Fields& fields, int line) {
    std::vector<KindIs> is;
    const std::string text = fields.optional_text("is");
    if (text.empty()) return is;
    for (const std::string& word : split(text, ' ')) {
        const auto row = std::find_if(kind_is_names.begin(), kind_is_names.end(),
                                      [&](const KindIsRow& known) { return known.name == word; });
        if (row != kind_is_names.end()) is.push_back(row->value);
        else fields.say(line, "is " + in_quotes(word) + " is nothing that a kind can be", "look at our own kinds");
    }
    return is;
}

/// What signs and limits have alike: what follows, and the words.
void read_rule(const xml::Element& element, Fields& fields, SignRule& rule) {
    if (const auto verdict = fields.choice("verdict", survey::names(Verdict{}), true)) rule.verdict = *verdict;
    if (const auto bars = fields.choice("bars", bars_names, true)) rule.bars = *bars;
    rule.renews_stay = fields.choice("renews", renews_names, false).value_or(false);
    rule.spreads = fields.choice("spreads", spreads_names, false).value_or(false);
    rule.source = fields.text("source");
    rule.name = child_text(element, "name", true, fields);
    rule.plainly = child_text(element, "plainly", false, fields);
    rule.means = child_text(element, "means", true, fields);
    rule.act = child_text(element, "do", true, fields);
    rule.then = child_text(element, "then", false, fields);
    rule.work = child_text(element, "work", true, fields);
}

SignRule read_sign(const xml::Element& element, const std::string& kind, const std::string& file, Problems& problems) {
    Fields fields(element, kind + ", sign " + in_quotes(element.get("code").value_or("?")), file, problems);
    SignRule rule;
    rule.code = fields.token("code");
    rule.is = fields.choice("is", sign_is_names, false).value_or(SignIs::nothing);
    rule.shows = fields.choice("shows", shows_names, false).value_or(Shows::nothing);
    rule.at = fields.optional_token("at");
    read_rule(element, fields, rule);
    fields.finish({"name", "plainly", "means", "do", "then", "work"});
    return rule;
}

std::vector<std::string> list_of(Fields& fields, std::string_view name) {
    const std::string text = fields.optional_text(name, 600);
    return text.empty() ? std::vector<std::string>() : split(text, ' ');
}

std::string read_quantity(Fields& fields, int line) {
    const std::string of = fields.token("of");
    std::vector<std::string> known;
    for (const QuantityName& one : quantity_names) known.emplace_back(one.id);
    if (std::find(known.begin(), known.end(), of) == known.end())
        fields.say(line, "of " + in_quotes(of) + " is nothing that the program can find",
                   "the nearest: " + join(nearest(of, known), ", "));
    return of;
}

Limit read_limit(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "bound " + in_quotes(element.get("id").value_or("?")), file, problems);
    Limit limit;
    limit.rule.code = fields.token("id");
    limit.of = read_quantity(fields, element.line);
    const auto least = fields.value<double>("least", false, read_plain_number, "a number", "1.5");
    const auto most = fields.value<double>("most", false, read_plain_number, "a number", "1.5");
    if (least.has_value() == most.has_value())
        fields.say(element.line, "it needs least or most, not both", "write least=\"1.5\"");
    limit.least = least.has_value();
    limit.value = least.value_or(most.value_or(0));
    limit.kinds = list_of(fields, "kinds");
    limit.makes = list_of(fields, "makes");
    limit.roles = list_of(fields, "roles");
    limit.at = list_of(fields, "at");
    read_rule(element, fields, limit.rule);
    fields.finish({"name", "plainly", "means", "do", "then", "work"});
    return limit;
}

Milder read_milder(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "milder " + in_quotes(element.get("id").value_or("?")), file, problems);
    Milder row;
    row.id = fields.token("id");
    row.signs = list_of(fields, "signs");
    row.of = read_quantity(fields, element.line);
    row.least = fields.value<double>("least", true, read_plain_number, "a number", "95").value_or(0);
    if (const auto verdict = fields.choice("verdict", survey::names(Verdict{}), true)) row.verdict = *verdict;
    row.source = fields.text("source");
    row.because = child_text(element, "because", true, fields);
    fields.finish({"because"});
    return row;
}

std::vector<SignRule> read_signs(const xml::Element& element, const std::string& kind, const std::string& file,
                                 Problems& problems) {
    std::vector<SignRule> signs;
    for (const xml::Element& child : element.children) {
        if (child.name != "sign") continue;
        signs.push_back(read_sign(child, kind, file, problems));
        for (std::size_t i = 0; i + 1 < signs.size(); ++i)
            if (signs[i].code == signs.back().code)
                problems.push_back(
                    {{file, child.line}, kind + ": sign " + in_quotes(signs[i].code) + " stands twice", "keep one"});
    }
    return signs;
}

Part read_part(const xml::Element& element, const std::string& kind, const std::string& file, Problems& problems) {
    Fields fields(element, kind + ", <part>", file, problems);
    Part part{fields.text("name"), split(fields.text("metals"), ' ')};
    fields.finish();
    return part;
}

Kind read_kind(const xml::Element& element, const std::string& family, const std::string& file, Problems& problems) {
    const std::string label = "kind " + in_quotes(element.get("id").value_or("?"));
    Fields fields(element, label, file, problems);
    Kind kind;
    kind.id = fields.token("id");
    kind.name = fields.text("name");
    kind.is = read_is(fields, element.line);
    kind.stands = fields.choice("stands", stands_names, false).value_or(Stands::at_mast);
    kind.family = family;
    kind.schematic = fields.token("schematic");
    kind.metals = split(fields.text("metals"), ' ');
    kind.plain = child_text(element, "plain", true, fields);
    kind.look = child_text(element, "look", true, fields);
    kind.hidden = child_text(element, "hidden", true, fields);
    fields.finish({"plain", "part", "look", "hidden", "sign"});
    for (const xml::Element& child : element.children)
        if (child.name == "part") kind.parts.push_back(read_part(child, label, file, problems));
    kind.signs = read_signs(element, label, file, problems);
    if (kind.signs.empty()) fields.say(element.line, "it has no signs", "add at least one <sign>");
    return kind;
}

/// A user's kind takes the place of ours of the same id.
void add(Trade& trade, Kind kind) {
    for (Kind& known : trade.kinds)
        if (known.id == kind.id) {
            known = std::move(kind);
            return;
        }
    trade.kinds.push_back(std::move(kind));
}

}  // namespace

std::string child_text(const xml::Element& element, std::string_view name, bool required, Fields& fields) {
    const xml::Element* child = element.child(name);
    const std::string text = child != nullptr ? squeezed(child->text) : std::string();
    if (required && text.empty())
        fields.say(element.line, "<" + std::string(name) + "> is missing or empty",
                   "every " + element.name + " needs it");
    return text;
}

void read_limits(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    Fields fields(root, "<limits>", file, problems);
    fields.text("xmlns");
    fields.finish({"bound", "milder"});
    for (const xml::Element& child : root.children) {
        if (child.name == "bound") trade.limits.push_back(read_limit(child, file, problems));
        if (child.name == "milder") trade.milder.push_back(read_milder(child, file, problems));
    }
}

void read_kinds(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    Fields fields(root, "<kinds>", file, problems);
    fields.text("xmlns");
    const std::string family = fields.text("family");
    fields.finish({"kind", "any"});
    for (const xml::Element& child : root.children) {
        if (child.name == "kind") add(trade, read_kind(child, family, file, problems));
        if (child.name == "any") trade.any_signs = read_signs(child, "<any>", file, problems);
    }
}

}  // namespace rigdeed::trade
