#include "assessment/calculation.hpp"

#include <algorithm>
#include <array>

#include "assessment/calculations/working.hpp"
#include "base/error.hpp"
#include "base/text.hpp"

namespace rigdeed::assessment {
namespace {

// In the order of the report.
constexpr std::array subjects{
    strand_strengths, pins,           bolts,         chains_of_strength,     heel_tests, rig_loads,
    panel_statics,    panel_inertias, spreader_tips, static_tensions,        warmth,     rope_sizes,
    galvanic_pairs,   photo_scales,   ages,          quantities_for_renewal, lamp_loads, coverage};

const Figure* find(const std::vector<Figure>& figures, std::string_view id) {
    const auto found = std::find_if(figures.begin(), figures.end(), [&](const Figure& one) { return one.id == id; });
    return found != figures.end() ? &*found : nullptr;
}

const Figure& known(const Figure* figure, const std::string& calculation, std::string_view id) {
    if (figure == nullptr)
        throw Error("calculation " + calculation + " has no figure " + in_quotes(id), {}, {}, ExitCode::bug);
    return *figure;
}

}  // namespace

const Figure& Calculation::input(std::string_view figure) const { return known(find(inputs, figure), id, figure); }

const Figure& Calculation::result(std::string_view figure) const { return known(find_result(figure), id, figure); }

const Figure* Calculation::find_result(std::string_view figure) const { return find(results, figure); }

bool Calculation::has_result() const {
    return std::any_of(results.begin(), results.end(), [](const Figure& one) { return one.known(); });
}

Calculations calculate(const Case& one) {
    Calculations all;
    for (auto* subject : subjects) subject(one, all);
    return all;
}

std::vector<Wanted> wanted(const Calculations& calculations) {
    std::vector<Wanted> list;
    for (const Calculation& calculation : calculations)
        for (const Missing& missing : calculation.missing) {
            auto row = std::find_if(list.begin(), list.end(), [&](const Wanted& one) {
                return one.input == missing.input && one.name == missing.name;
            });
            if (row == list.end()) row = list.insert(list.end(), {missing.input, missing.name, {}, {}});
            add_once(row->of, missing.of);
            add_once(row->calculations, calculation.title);
        }
    return list;
}

std::string text_of(const Figure& figure, UnitSystem units, const trade::Wording& words) {
    if (!figure.text.empty()) return figure.text;
    if (!figure.value) return words("calc.not-measured");
    if (figure.unit == Unit::month) return words.count("calc.months", static_cast<std::size_t>(*figure.value));
    return words.numbers(printed(*figure.value, figure.unit, figure.decimals, units));
}

}  // namespace rigdeed::assessment
