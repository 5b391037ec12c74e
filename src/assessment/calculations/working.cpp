#include "assessment/calculations/working.hpp"

#include <cmath>

#include "trade/judge.hpp"

namespace rigdeed::assessment {

namespace {

/// On board, or on a photo.
std::string source_of(const survey::Measured* measured, const trade::Wording& words) {
    if (measured == nullptr || measured->from.empty()) return words("calc.source.measured");
    return words("calc.source.measured-on", {{"photo", measured->from}});
}

}  // namespace

bool is_calculated(const survey::Fitting& fitting, const trade::Trade& trade) {
    const trade::Material* metal = trade.material(fitting.metal);
    return metal != nullptr && metal->calculated;
}

Working::Working(const Case& one, std::string_view id) : case_(one) {
    calculation_.id = id;
    calculation_.title = words("title");
    calculation_.formula = words("formula");
    calculation_.caveat = words("caveat");
    calculation_.source = one.trade.tables.source_of(id);
}

Working& Working::about(const survey::Stay& stay) { return about(trade::stay_name(stay, case_.trade), {stay.id}); }

Working& Working::about(const survey::Fitting& fitting) {
    // Named already: the fittings assessed stand in the survey's order.
    const auto place = static_cast<std::size_t>(&fitting - case_.survey.fittings.data());
    const auto& assessed = case_.assessment.fittings;
    const bool known = place < assessed.size() && assessed[place].fitting == &fitting;
    return about(known ? assessed[place].name : trade::fitting_name(fitting, case_.survey, case_.trade), {fitting.id});
}

Working& Working::about(std::string subject, std::vector<std::string> ids) {
    calculation_.subject = std::move(subject);
    calculation_.about = std::move(ids);
    return *this;
}

Figure Working::figure(std::string symbol, std::string_view name, std::optional<double> value, Unit unit, int decimals,
                       std::string source) const {
    if (value && !std::isfinite(*value)) value = std::nullopt;
    const std::string key = "calc.name." + std::string(name);
    std::string called = case_.trade.tables.measure(name) != nullptr && !case_.trade.wording.has(key)
                             ? measure_name(name)
                             : case_.trade.wording(key);
    return {.id = std::string(name),
            .symbol = std::move(symbol),
            .name = std::move(called),
            .value = value,
            .unit = unit,
            .decimals = decimals,
            .text = {},
            .source = std::move(source),
            .of = {}};
}

void Working::result_months(std::string symbol, std::string_view name, std::optional<int> months) {
    const auto value = months ? std::optional(static_cast<double>(*months)) : std::nullopt;
    calculation_.results.push_back(figure(std::move(symbol), name, value, Unit::month, 0, {}));
}

void Working::input_text(std::string symbol, std::string_view name, std::string text, std::string source) {
    Figure one = figure(std::move(symbol), name, std::nullopt, Unit::none, 0, std::move(source));
    one.text = std::move(text);
    calculation_.inputs.push_back(std::move(one));
}

void Working::result_text(std::string symbol, std::string_view name, std::string text) {
    Figure one = figure(std::move(symbol), name, std::nullopt, Unit::none, 0, {});
    one.text = std::move(text);
    calculation_.results.push_back(std::move(one));
}

void Working::result_or_none(std::string symbol, std::string_view name) {
    if (calculation_.results.empty()) result<Kilonewtons>(std::move(symbol), name, std::nullopt, 2);
}

void Working::strand(const std::string& name, const SourcedLoad& load) { add_link("strand", name, load, {}); }

void Working::link(const std::string& name, const SourcedLoad& load, const std::string& fitting) {
    add_link("link", name, load, fitting);
}

void Working::add_link(std::string id, const std::string& name, const SourcedLoad& load, const std::string& fitting) {
    const bool known = load.load && std::isfinite(load.load->value);
    calculation_.inputs.push_back({.id = std::move(id),
                                   .symbol = {},
                                   .name = name,
                                   .value = known ? std::optional(load.load->value) : std::nullopt,
                                   .unit = Unit::kilonewton,
                                   .decimals = 2,
                                   .text = {},
                                   .source = load.load ? load.source : std::string(),
                                   .of = fitting});
}

void Working::link_ratio(const std::string& link, Ratio ratio) {
    calculation_.results.push_back({.id = "link-to-strand",
                                    .symbol = {},
                                    .name = words("to-strand", {{"link", link}}),
                                    .value = ratio.value,
                                    .unit = Unit::none,
                                    .decimals = 2,
                                    .text = {},
                                    .source = {},
                                    .of = {}});
}

void Working::missing(std::string_view input, std::string name, std::string of) {
    for (const Missing& known : calculation_.missing)
        if (known.input == input && known.of == of) return;
    calculation_.missing.push_back({std::string(input), std::move(name), std::move(of)});
}

void Working::remark(std::string_view key, const std::vector<Filling>& fillings) {
    calculation_.remarks.push_back(words("remark." + std::string(key), fillings));
}

void Working::note(std::string_view key, const std::vector<Filling>& fillings) {
    calculation_.notes.push_back(words("remark." + std::string(key), fillings));
}

void Working::doubt(std::string_view key, const std::vector<Filling>& fillings) {
    calculation_.doubts.push_back(words("remark." + std::string(key), fillings));
}

std::string Working::words(std::string_view key, const std::vector<Filling>& fillings) const {
    return case_.trade.wording("calc." + calculation_.id + "." + std::string(key), fillings);
}

std::string Working::measure_name(std::string_view what) const {
    const trade::MeasureName* row = case_.trade.tables.measure(what);
    return row != nullptr ? row->name : std::string(what);
}

std::optional<double> Working::measure(std::string_view what, const survey::Fitting* fitting) const {
    const auto value = fitting != nullptr ? measure_of<Ratio>(*fitting, what, case_.trade) : std::nullopt;
    return value ? std::optional(value->value) : std::nullopt;
}

void Working::add_measured(std::string symbol, std::string_view what, const survey::Fitting* fitting,
                           std::optional<double> value, Unit unit, int decimals) {
    calculation_.inputs.push_back(figure(
        std::move(symbol), what, value, unit, decimals,
        value ? source_of(fitting != nullptr ? fitting->measure(what) : nullptr, case_.trade.wording) : std::string()));
}

std::string strand_load_name(const survey::Stay& stay, const trade::Trade& trade) {
    const trade::Make* make = trade.make(stay.make);
    return trade.wording("calc.name.breaking-load-of", {{"make", make != nullptr ? make->name : stay.make},
                                                        {"alloy", trade.material_name(stay.alloy)},
                                                        {"size", trade.wording.numbers(stay.diameter.text)}});
}

std::string maker_load_name(const survey::Fitting& fitting, const survey::Survey& survey, const trade::Trade& trade) {
    const survey::Stay* stay = survey.stay(fitting.stay);
    const trade::Kind* kind = trade.kind(fitting.kind);
    if (stay == nullptr || kind == nullptr) return trade.wording("calc.name.maker-load");
    const trade::Make* make = trade.make(stay->make);
    return trade.wording("calc.name.maker-load-of", {{"kind", kind->name},
                                                     {"make", make != nullptr ? make->name : stay->make},
                                                     {"size", trade.wording.numbers(stay->diameter.text)}});
}

}  // namespace rigdeed::assessment
