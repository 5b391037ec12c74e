#include "report/sections/charts.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "drawing/charts.hpp"
#include "trade/judge.hpp"

namespace rigdeed::report {
namespace {

using assessment::Calculation;
using assessment::Figure;

constexpr Points chart_width = document::measures::text_width;

const survey::Stay* stay_of(const Calculation& one, const Material& material) {
    return one.about.size() == 1 ? material.survey.stay(one.about.front()) : nullptr;
}

const survey::Fitting* fitting_of(const Figure& figure, const Material& material) {
    for (const survey::Fitting& fitting : material.survey.fittings)
        if (fitting.id == figure.of) return &fitting;
    return nullptr;
}

/// What a link is held against, as loads.
std::vector<double> wanted_of(const Figure& figure, double strand, const Material& material) {
    const survey::Fitting* fitting = fitting_of(figure, material);
    if (fitting == nullptr) return {};
    for (const trade::LinkKind& link : material.trade.tables.links) {
        if (fitting->kind != link.kind) continue;
        std::vector<double> loads;
        for (const std::string& least : link.least)
            loads.push_back(strand * material.trade.tables.constant(least).value);
        return loads;
    }
    return {};
}

drawing::ChainLink link_of(const Figure& figure, const Calculation& one, const Material& material) {
    const Figure& weakest = one.result("weakest");
    const std::optional<double> strand = one.input("strand").value;
    drawing::ChainLink link;
    link.name = figure.name;
    link.value = figure.value;
    if (figure.value) link.value_words = assessment::text_of(figure, material.units, material.trade.wording);
    link.ratio_words =
        figure.value && strand ? material.trade.wording.number(*figure.value / *strand, 2) : std::string("–");
    link.weakest = weakest.value && figure.value == weakest.value;
    if (strand) link.wanted = wanted_of(figure, *strand, material);
    return link;
}

/// The figures of a chain from the mast to the deck, the strand among them where the upper half of its stay ends. The
/// calculation names the links from the deck up.
std::vector<const Figure*> from_the_mast(const Calculation& one, const Material& material) {
    const auto height = [&](const Figure* figure) {
        const survey::Fitting* fitting = fitting_of(*figure, material);
        return fitting != nullptr ? fitting->height.quantity : Millimetres{};
    };
    std::vector<const Figure*> figures;
    for (auto input = one.inputs.rbegin(); input != one.inputs.rend(); ++input)
        if (input->id == "link") figures.push_back(&*input);
    std::stable_sort(figures.begin(), figures.end(),
                     [&](const auto* a, const auto* b) { return height(a) > height(b); });
    auto lower = figures.begin();
    if (!figures.empty()) {
        const Millimetres middle = (height(figures.front()) + height(figures.back())) / 2;
        while (lower != figures.end() && height(*lower) > middle) ++lower;
    }
    figures.insert(lower, &one.input("strand"));
    return figures;
}

/// The same links of the same strength, from the mast to the deck.
bool same_links(const Calculation& a, const Calculation& b, const Material& material) {
    const auto of_a = from_the_mast(a, material), of_b = from_the_mast(b, material);
    return std::equal(of_a.begin(), of_a.end(), of_b.begin(), of_b.end(), [&](const Figure* one, const Figure* other) {
        const drawing::ChainLink x = link_of(*one, a, material), y = link_of(*other, b, material);
        return one->name == other->name && one->value == other->value && x.name == y.name && x.value == y.value &&
               x.wanted == y.wanted && x.weakest == y.weakest;
    });
}

/// Of stays whose links are alike, one chart.
document::Illustration chain(const std::vector<const Calculation*>& alike, const Material& material) {
    const Calculation& one = *alike.front();
    std::vector<std::string> stays;
    for (const Calculation* of : alike) stays.push_back(of->subject);
    const trade::Wording& words = material.trade.wording;
    std::vector<drawing::ChainLink> links;
    for (const Figure* figure : from_the_mast(one, material)) links.push_back(link_of(*figure, one, material));
    drawing::ChainWords chart;
    const std::string strand = assessment::text_of(one.input("strand"), material.units, words);
    chart.strand = words("chart.strand", {{"load", strand}});
    chart.of_the_strand = words("chart.of-the-strand");
    chart.not_measured = words("calc.not-measured");
    const bool all_measured =
        std::all_of(links.begin(), links.end(), [](const drawing::ChainLink& link) { return link.value.has_value(); });
    chart.weakest = words(all_measured ? "chart.weakest" : "chart.weakest-measured");
    chart.alternative = words("chart.chain", {{"stay", material.trade.wording.listed(stays)}});
    chart.number = [&words](double value, int decimals) { return words.number(value, decimals); };
    return {drawing::chain_chart(links, one.input("strand").value, chart_width, chart), chart.alternative};
}

/// "7"; "6.5" where the custom is no whole number of years.
std::string years_of(int months, const trade::Wording& words) {
    return words.number(months / 12.0, months % 12 == 0 ? 0 : 1);
}

/// One chart for each make: the custom differs.
std::vector<document::Illustration> ages(const std::vector<const Calculation*>& members, const Material& material) {
    const trade::Wording& words = material.trade.wording;
    std::vector<document::Illustration> charts;
    for (const trade::Band& band : material.trade.tables.bands) {
        std::vector<drawing::AgeBar> bars;
        for (const Calculation* one : members) {
            const survey::Stay* stay = stay_of(*one, material);
            if (stay == nullptr || stay->make != band.make) continue;
            drawing::AgeBar bar;
            bar.name = one->subject;
            if (const auto months = one->result("age-months").value) bar.years = *months / 12;
            bar.age_words = one->result("age").text;
            if (bar.age_words.empty()) bar.age_words = words("calc.not-measured");
            if (stay->age_source) bar.source_words = words("rig.by." + survey::name_of(*stay->age_source));
            bar.proven = stay->age_source == survey::AgeSource::invoice || stay->age_source == survey::AgeSource::plate;
            bars.push_back(std::move(bar));
        }
        if (bars.empty()) continue;
        const drawing::AgeBand custom{band.least / 12.0, band.common / 12.0, band.most / 12.0,
                                      words("chart.custom", {{"years", years_of(band.common, words)}})};
        const std::string caption = words(
            "chart.ages",
            {{"least", years_of(band.least, words)}, {"most", years_of(band.most, words)}, {"source", band.source}});
        charts.push_back({drawing::age_chart(bars, custom, chart_width, caption), caption});
    }
    return charts;
}

std::optional<double> share_of(const Calculation& one) {
    const Figure* share = one.find_result("share-of-strength");
    return share != nullptr ? share->value : std::nullopt;
}

std::vector<document::Illustration> tensions(const std::vector<const Calculation*>& members, const Material& material) {
    const trade::Wording& words = material.trade.wording;
    std::vector<drawing::TensionPair> pairs;
    for (const Calculation* port : members) {
        const survey::Stay* left = stay_of(*port, material);
        if (left == nullptr) continue;
        for (const Calculation* starboard : members) {
            const survey::Stay* right = stay_of(*starboard, material);
            if (right == nullptr || !material.trade.are_pair(*left, *right) || !material.trade.role(left->role)->pairs)
                continue;
            if (!share_of(*port) && !share_of(*starboard)) continue;
            pairs.push_back({material.trade.role_name(left->role), share_of(*port), share_of(*starboard)});
            break;
        }
    }
    if (pairs.empty()) return {};
    std::vector<double> caps;
    for (const char* cap : {"tension-cap-least", "tension-cap-common", "tension-cap-most"})
        caps.push_back(material.trade.tables.constant(cap).value);
    drawing::TensionWords chart{words("rig.port"), words("rig.starboard"), words("calc.not-measured"),
                                words("chart.tension"),
                                [&words](double value, int decimals) { return words.number(value, decimals); }};
    return {{drawing::tension_chart(pairs, caps, chart_width, chart), chart.alternative}};
}

}  // namespace

std::vector<document::Illustration> charts_of(const std::vector<const Calculation*>& members,
                                              const Material& material) {
    const std::string& id = members.front()->id;
    if (id == "ages") return ages(members, material);
    if (id == "static-tension") return tensions(members, material);
    if (id != "chain-of-strength") return {};
    std::vector<std::vector<const Calculation*>> alike;
    for (const Calculation* one : members) {
        if (!one->has_result()) continue;
        const auto known = std::find_if(alike.begin(), alike.end(),
                                        [&](const auto& group) { return same_links(*group.front(), *one, material); });
        if (known == alike.end()) alike.push_back({one});
        else known->push_back(one);
    }
    std::vector<document::Illustration> charts;
    for (const auto& group : alike) charts.push_back(chain(group, material));
    return charts;
}

}  // namespace rigdeed::report
