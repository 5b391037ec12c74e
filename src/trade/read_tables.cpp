#include <functional>

#include "base/fields.hpp"
#include "base/text.hpp"
#include "trade/read_templates.hpp"

namespace rigdeed::trade {
namespace {

struct PlaceRow {
    Place value;
    std::string_view name;
};
const std::vector<PlaceRow> place_names{
    {Place::deck, "deck"}, {Place::ends, "ends"}, {Place::along, "along"}, {Place::top, "top"}};

struct RunsRow {
    Runs value;
    std::string_view name;
};
const std::vector<RunsRow> runs_names{
    {Runs::deck_to_mast, "deck-to-mast"}, {Runs::at_deck, "at-deck"}, {Runs::aloft, "aloft"}};

struct FootRow {
    Foot::At value;
    std::string_view name;
};
const std::vector<FootRow> foot_names{{Foot::At::beside, "beside"},
                                      {Foot::At::ahead, "ahead"},
                                      {Foot::At::bow, "bow"},
                                      {Foot::At::foredeck, "foredeck"},
                                      {Foot::At::aft, "aft"},
                                      {Foot::At::hull, "hull"},
                                      {Foot::At::below_stem, "below-stem"},
                                      {Foot::At::other_masthead, "other-masthead"}};

struct YesNoRow {
    bool value;
    std::string_view name;
};
const std::vector<YesNoRow> yes_no{{true, "yes"}, {false, "no"}};

struct OverTipsRow {
    OverTips value;
    std::string_view name;
};
const std::vector<OverTipsRow> over_tips_names{
    {OverTips::none, "none"}, {OverTips::some, "some"}, {OverTips::all, "all"}};

struct OccasionRow {
    Occasion value;
    std::string_view name;
};

using ReadRow = std::function<void(const xml::Element&, Fields&)>;

/// Walks over a file that is a list of `row` elements.
void read_rows(const xml::Element& root, const std::string& row, const std::string& file, Problems& problems,
               const std::vector<std::string>& children, const ReadRow& read) {
    Fields fields(root, "<" + root.name + ">", file, problems);
    fields.text("xmlns");
    fields.finish({row});
    for (const xml::Element& child : root.children) {
        if (child.name != row) continue;
        Fields row_fields(child, row + " " + in_quotes(child.get("id").value_or("?")), file, problems);
        read(child, row_fields);
        row_fields.finish(children, true);
    }
}

Demand read_demand(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<demand>", file, problems);
    Demand demand;
    demand.id = fields.token("id");
    demand.name = fields.text("name");
    if (const auto at = fields.choice("at", place_names, true)) demand.at = *at;
    demand.kinds = split(fields.text("kinds"), ' ');
    demand.least = static_cast<std::size_t>(fields.whole("least", 1, 9).value_or(1));
    fields.finish();
    return demand;
}

/// Without kinds and name: the role does without.
Instead read_instead(const xml::Element& element, const std::string& file, Problems& problems) {
    Fields fields(element, "<instead>", file, problems);
    Instead instead{fields.token("of"), fields.optional_text("name"), {}};
    if (const std::string kinds = fields.optional_text("kinds"); !kinds.empty()) instead.kinds = split(kinds, ' ');
    fields.finish();
    if (instead.name.empty() != instead.kinds.empty())
        fields.say(element.line, "name and kinds go together", "write both, or neither if the role does without");
    return instead;
}

}  // namespace

namespace {

Foot read_foot(Fields& fields) {
    Foot foot;
    foot.at = fields.choice("foot", foot_names, false).value_or(Foot::At::beside);
    if (const auto along = fields.measure("along", Measure::percent, {0, 100}, false)) foot.along = along->value / 100;
    if (const auto out = fields.measure("out", Measure::percent, {0, 100}, false)) foot.out = out->value / 100;
    return foot;
}

}  // namespace

void read_makes(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    read_rows(root, "make", file, problems, {"demand"}, [&](const xml::Element& element, Fields& fields) {
        Make make{fields.token("id"), fields.text("name"), fields.token("family"), {}};
        for (const xml::Element& child : element.children)
            if (child.name == "demand") make.demands.push_back(read_demand(child, file, problems));
        trade.makes.push_back(std::move(make));
    });
}

void read_roles(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    read_rows(root, "role", file, problems, {"instead"}, [&](const xml::Element& element, Fields& fields) {
        Role role{fields.token("id"),
                  fields.text("name"),
                  fields.choice("runs", runs_names, false).value_or(Runs::deck_to_mast),
                  read_foot(fields),
                  fields.choice("over-tips", over_tips_names, false).value_or(OverTips::none),
                  fields.choice("pairs", yes_no, false).value_or(true),
                  fields.choice("sail", yes_no, false).value_or(false),
                  {}};
        for (const xml::Element& child : element.children)
            if (child.name == "instead") role.instead.push_back(read_instead(child, file, problems));
        trade.roles.push_back(std::move(role));
    });
}

void read_materials(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    read_rows(root, "material", file, problems, {}, [&](const xml::Element&, Fields& fields) {
        trade.materials.push_back({fields.token("id"), fields.text("name"), fields.optional_token("now"),
                                   fields.choice("calculated", yes_no, false).value_or(false)});
    });
}

void read_intervals(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    read_rows(root, "interval", file, problems, {}, [&](const xml::Element& element, Fields& fields) {
        Interval interval{fields.token("id"), fields.whole("months", 1, 600).value_or(0), fields.text("source")};
        if (interval.months == 0) fields.say(element.line, "months is missing", "write months=\"6\"");
        trade.intervals.push_back(std::move(interval));
    });
}

void read_rules(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    read_rows(root, "rule", file, problems, {"name", "means", "do", "work"},
              [&](const xml::Element& element, Fields& fields) {
                  CrossRule rule;
                  rule.id = fields.token("id");
                  rule.verdict = fields.choice("verdict", survey::names(Verdict{}), false);
                  rule.renews_stay = fields.optional_token("renews") == "stay";
                  rule.source = fields.text("source");
                  rule.name = child_text(element, "name", true, fields);
                  rule.means = child_text(element, "means", true, fields);
                  rule.act = child_text(element, "do", true, fields);
                  rule.work = child_text(element, "work", true, fields);
                  trade.rules.push_back(std::move(rule));
              });
}

void read_contradictions(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    read_rows(root, "contradiction", file, problems, {}, [&](const xml::Element& element, Fields& fields) {
        Contradiction row{fields.token("kind"), fields.token("sign"), fields.optional_token("other"),
                          fields.optional_token("measured"), fields.text("because")};
        if (row.other.empty() == row.measured.empty())
            fields.say(element.line, "it needs other or measured, not both", "name what contradicts the sign");
        trade.contradictions.push_back(std::move(row));
    });
}

void read_cautions(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    static const std::vector<OccasionRow> occasions{{Occasion::always, "always"},
                                                    {Occasion::barred, "barred"},
                                                    {Occasion::climbed, "climbed"},
                                                    {Occasion::reliance, "reliance"},
                                                    {Occasion::found, "found"}};
    read_rows(root, "caution", file, problems, {}, [&](const xml::Element& element, Fields& fields) {
        CautionText caution{fields.token("id"), split(fields.text("where"), ' '),
                            fields.choice("when", occasions, true).value_or(Occasion::always),
                            fields.optional_token("sign"), squeezed(element.text)};
        if ((caution.when == Occasion::found) == caution.sign.empty())
            fields.say(element.line, "when=\"found\" and sign go together", "name the sign that must be found");
        if (caution.words.empty()) fields.say(element.line, "it has no words", "write them between the tags");
        trade.cautions.push_back(std::move(caution));
    });
}

void read_wording(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    read_rows(root, "t", file, problems, {}, [&](const xml::Element& element, Fields& fields) {
        const std::string key = fields.token("key");
        const std::string words = squeezed(element.text);
        if (words.empty())
            fields.say(element.line, "key " + in_quotes(key) + " has no words", "write them between the tags");
        trade.wording.set(key, words);
    });
}

}  // namespace rigdeed::trade
