#include <algorithm>

#include "base/text.hpp"
#include "command/describe.hpp"

namespace rigdeed::command {
namespace {

using assessment::Calculation;
using assessment::Figure;

void write_list(std::string_view name, const std::vector<std::string>& list, JsonWriter& json) {
    json.key(name).begin_array();
    for (const std::string& one : list) json.value(one);
    json.end();
}

/// The value in the unit named, and the text as printed in the units asked for.
void write_figures(std::string_view name, const std::vector<Figure>& figures, const Inspected& inspected,
                   const trade::Trade& trade, JsonWriter& json) {
    json.key(name).begin_array();
    for (const Figure& figure : figures) {
        json.begin_object().field("symbol", figure.symbol).field("name", figure.name).key("value");
        if (figure.value) json.number(*figure.value, 9);
        else json.null();
        json.field("unit", unit_symbol(figure.unit))
            .field("text", assessment::text_of(figure, inspected.units, trade.wording))
            .field("known", figure.known())
            .field("source", figure.source)
            .end();
    }
    json.end();
}

void write(const Calculation& one, const Inspected& inspected, const trade::Trade& trade, JsonWriter& json) {
    json.begin_object().field("id", one.id).field("title", one.title).field("subject", one.subject);
    write_list("about", one.about, json);
    write_figures("inputs", one.inputs, inspected, trade, json);
    json.field("formula", one.formula);
    write_figures("results", one.results, inspected, trade, json);
    json.field("source", one.source).field("caveat", one.caveat);
    json.key("missing").begin_array();
    for (const assessment::Missing& missing : one.missing)
        json.begin_object().field("input", missing.input).field("name", missing.name).field("of", missing.of).end();
    json.end();
    write_list("remarks", one.remarks, json);
    write_list("notes", one.notes, json);
    write_list("doubts", one.doubts, json);
    json.end();
}

}  // namespace

void describe_calculations(const Inspected& inspected, const trade::Trade& trade, JsonWriter& json) {
    json.key("calculations").begin_array();
    for (const Calculation& one : inspected.calculations) write(one, inspected, trade, json);
    json.end().key("wanted").begin_array();
    for (const assessment::Wanted& one : assessment::wanted(inspected.calculations)) {
        json.begin_object().field("input", one.input).field("name", one.name);
        write_list("of", one.of, json);
        write_list("calculations", one.calculations, json);
        json.end();
    }
    json.end();
}

void describe_calculations(const Inspected& inspected, const Terminal& terminal) {
    const auto with_result = std::count_if(inspected.calculations.begin(), inspected.calculations.end(),
                                           [](const Calculation& one) { return one.has_result(); });
    terminal.result("\ncalculations: " + std::to_string(inspected.calculations.size()) + ", " +
                    std::to_string(with_result) + " with a result");
    std::vector<std::string> inputs;
    for (const assessment::Wanted& one : assessment::wanted(inspected.calculations)) inputs.push_back(one.name);
    if (!inputs.empty()) terminal.result("  more would be known with: " + join(inputs, "; "));
    for (const Calculation& one : inspected.calculations)
        for (const std::string& doubt : one.doubts) terminal.result("  " + one.subject + ": " + doubt);
}

}  // namespace rigdeed::command
