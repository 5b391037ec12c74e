#include <functional>

#include "base/text.hpp"
#include "trade/read_templates.hpp"

namespace rigdeed::trade {
namespace {

constexpr Range any_length{0, 1e6};
constexpr Range any_force{0, 1e5};

struct MeasureWord {
    Measure value;
    std::string_view name;
};
const std::vector<MeasureWord> measure_words{{Measure::length, "length"}, {Measure::force, "force"},
                                             {Measure::angle, "angle"},   {Measure::percent, "percent"},
                                             {Measure::power, "power"},   {Measure::voltage, "voltage"},
                                             {Measure::time, "time"},     {Measure::count, "count"}};

struct LinkByWord {
    LinkBy value;
    std::string_view name;
};
const std::vector<LinkByWord> link_by_words{{LinkBy::pin, "pin"}, {LinkBy::plate, "plate"}, {LinkBy::maker, "maker"}};

struct RowReader {
    std::string name;
    std::function<void(Fields&)> read;
};

/// Walks over a file whose elements are rows of a few kinds.
void read_rows(const xml::Element& root, const std::string& file, Problems& problems,
               const std::vector<RowReader>& readers) {
    Fields fields(root, "<" + root.name + ">", file, problems);
    fields.text("xmlns");
    std::vector<std::string> names;
    for (const RowReader& reader : readers) names.push_back(reader.name);
    fields.finish(names);
    for (const xml::Element& child : root.children)
        for (const RowReader& reader : readers) {
            if (reader.name != child.name) continue;
            Fields row(child, "<" + child.name + ">", file, problems);
            reader.read(row);
            row.finish();
        }
}

template <class Q>
Q required(Fields& fields, std::string_view name, Measure measure, Range range) {
    const auto written = fields.quantity<Q>(name, measure, range, true);
    return written ? written->quantity : Q{};
}

std::optional<double> number(Fields& fields, std::string_view name, bool is_required) {
    return fields.value<double>(name, is_required, read_plain_number, "a number", "0.525");
}

template <class Q>
std::optional<Q> plain(Fields& fields, std::string_view name) {
    const auto value = number(fields, name, false);
    return value ? std::optional(Q{*value}) : std::nullopt;
}

std::vector<std::string> words(Fields& fields, std::string_view name) { return split(fields.text(name, 500), ' '); }

/// None where the attribute is left out.
std::vector<std::string> known_words(const std::string& text) {
    return text.empty() ? std::vector<std::string>() : split(text, ' ');
}

MeasureName read_measure_name(Fields& fields) {
    MeasureName row;
    row.id = fields.token("id");
    row.name = fields.text("name");
    row.measure = fields.choice("measure", measure_words, true).value_or(Measure::length);
    const Range all{-1e6, 1e6};
    if (const auto least = fields.measure("least", row.measure, all, true)) row.least = least->value;
    if (const auto most = fields.measure("most", row.measure, all, true)) row.most = most->value;
    const std::string kinds = fields.optional_text("kinds", 500);
    if (!kinds.empty()) row.kinds = split(kinds, ' ');
    return row;
}

Band read_band(Fields& fields) {
    Band band;
    band.make = fields.token("make");
    band.least = fields.whole("least", 1, 1200).value_or(0);
    band.common = fields.whole("common", 1, 1200).value_or(0);
    band.most = fields.whole("most", 1, 1200).value_or(0);
    for (auto [name, miles] : {std::pair("miles-least", &band.miles_least), std::pair("miles-most", &band.miles_most)})
        if (const auto written = fields.quantity<NauticalMiles>(name, Measure::distance, {1, 1e6}, false))
            *miles = written->quantity;
    band.also = fields.optional_text("also");
    band.source = fields.text("source");
    return band;
}

}  // namespace

void read_measures(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    read_rows(root, file, problems,
              {{"measure", [&](Fields& fields) { trade.tables.measures.push_back(read_measure_name(fields)); }}});
}

void read_strand(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    Tables& tables = trade.tables;
    read_rows(root, file, problems,
              {{"construction",
                [&](Fields& fields) {
                    Construction row;
                    row.id = fields.token("id");
                    row.wires = fields.whole("wires", 1, 1000).value_or(1);
                    row.outer = fields.whole("outer", 1, 1000).value_or(1);
                    row.factor = plain<Ratio>(fields, "factor");
                    row.fill = plain<Ratio>(fields, "fill");
                    row.source = fields.text("source");
                    tables.constructions.push_back(std::move(row));
                }},
               {"grade",
                [&](Fields& fields) {
                    tables.grades.push_back({known_words(fields.optional_text("makes", 500)),
                                             words(fields, "alloys"),
                                             required<Millimetres>(fields, "up-to", Measure::length, any_length),
                                             {number(fields, "value", true).value_or(0)},
                                             fields.text("source")});
                }},
               {"printed",
                [&](Fields& fields) {
                    tables.printed_loads.push_back(
                        {fields.token("make"), fields.token("alloy"),
                         required<Millimetres>(fields, "diameter", Measure::length, any_length),
                         required<Kilonewtons>(fields, "load", Measure::force, any_force), fields.text("source")});
                }},
               {"modulus", [&](Fields& fields) {
                    tables.moduli.push_back({words(fields, "makes"),
                                             words(fields, "alloys"),
                                             {number(fields, "value", true).value_or(0)},
                                             fields.text("source")});
                }}});
}

void read_galvanic(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    read_rows(root, file, problems,
              {{"metal",
                [&](Fields& fields) {
                    trade.tables.metals.push_back({fields.token("id"), plain<Volts>(fields, "index"),
                                                   plain<Volts>(fields, "elsewhere"), plain<Volts>(fields, "noble"),
                                                   plain<Volts>(fields, "base"), fields.text("source")});
                }},
               {"touch", [&](Fields& fields) {
                    trade.tables.touches.push_back({fields.token("kind"), fields.token("other")});
                }}});
}

void read_split_pins(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    read_rows(root, file, problems,
              {{"split-pin", [&](Fields& fields) {
                    trade.tables.split_pins.push_back(
                        {required<Millimetres>(fields, "over", Measure::length, any_length),
                         required<Millimetres>(fields, "up-to", Measure::length, any_length),
                         required<Millimetres>(fields, "size", Measure::length, any_length), fields.text("source")});
                }}});
}

void read_bands(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    read_rows(root, file, problems,
              {{"band", [&](Fields& fields) { trade.tables.bands.push_back(read_band(fields)); }}});
}

void read_load_shares(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    read_rows(root, file, problems,
              {{"share", [&](Fields& fields) {
                    trade.tables.shares.push_back({fields.token("role"),
                                                   required<Percent>(fields, "share", Measure::percent, {0, 100}),
                                                   fields.text("source")});
                }}});
}

void read_calculations(const xml::Element& root, const std::string& file, Trade& trade, Problems& problems) {
    read_rows(root, file, problems,
              {{"formula",
                [&](Fields& fields) {
                    trade.tables.formulas.push_back({fields.token("id"), fields.text("source")});
                }},
               {"constant",
                [&](Fields& fields) {
                    trade.tables.constants.push_back(
                        {fields.token("id"), number(fields, "value", true).value_or(0), fields.text("source")});
                }},
               {"link", [&](Fields& fields) {
                    LinkKind link;
                    link.kind = fields.token("kind");
                    link.by = fields.choice("by", link_by_words, true).value_or(LinkBy::maker);
                    const std::string least = fields.optional_text("least");
                    if (!least.empty()) link.least = split(least, ' ');
                    trade.tables.links.push_back(std::move(link));
                }}});
}

}  // namespace rigdeed::trade
