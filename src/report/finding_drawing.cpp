#include "report/finding_drawing.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "document/measures.hpp"
#include "drawing/palette.hpp"
#include "drawing/schematic.hpp"
#include "drawing/strand_section.hpp"
#include "report/sections/sections.hpp"

namespace rigdeed::report {
namespace {

class FindingDrawing {
 public:
    FindingDrawing(const Material& material, const assessment::FittingVerdict& one)
        : material_(material), words_(material.trade.wording), one_(one) {}

    FittingDrawing draw() const {
        FittingDrawing result{std::nullopt, std::vector<bool>(one_.fitting->measured.size(), false)};
        if (shows_section()) result.drawing = section();
        else if (!one_.signs.empty())
            result.drawing = schematic([this](std::string_view key) { return words_(key); }, result.told);
        return result;
    }

 private:
    /// What is known of this fitting, for its drawing.
    drawing::SchematicFacts known() const {
        drawing::SchematicFacts facts;
        for (const survey::Measured& measured : one_.fitting->measured) {
            const auto value = read_measure(measured.value, Measure::angle).value;
            if (!value) continue;
            if (measured.what == "leg-angle") facts.leg_angle = value->value;
            if (measured.what == "spreader-rise") facts.spreader_rise = value->value;
        }
        for (const trade::JudgedSign& sign : one_.signs)
            if (sign.rule->shows == trade::Shows::reversed &&
                (one_.kind->is_a(trade::KindIs::pin) || one_.kind->is_a(trade::KindIs::split_pin)))
                facts.upside_down = true;
        return facts;
    }

    /// Said to be missing, where the drawing is of the fitting itself.
    bool is_gone(const trade::JudgedSign& sign) const {
        return sign.rule->code == trade::missing && one_.kind->schematic == one_.kind->id;
    }

    /// A kind of the user's own may name a drawing that we have not: its room stays empty.
    drawing::Drawing schematic(const drawing::SchematicWords& words, std::vector<bool>& told_measures) const {
        auto drawn = drawing::schematic(one_.kind->schematic, words, known());
        if (!drawn) return {{measures::schematic_width, 20_pt}, {}, one_.kind->name};
        std::vector<drawing::SignPlace> places;
        std::vector<std::string> told;
        bool unnamed = false;
        for (const trade::JudgedSign& sign : one_.signs) {
            // what was worked out for the whole stay is at no place of this part
            if (is_limit(*sign.rule, material_.trade) && one_.fitting->measured.empty()) {
                add_once(told, sign.rule->name);
                continue;
            }
            places.push_back({sign.rule->at, sign.sign->where,
                              is_limit(*sign.rule, material_.trade) ? trade::Shows::nothing : sign.rule->shows,
                              is_gone(sign)});
            const bool by_limit = is_limit(*sign.rule, material_.trade);  // its place follows from what was measured
            unnamed = unnamed || (sign.sign->where.empty() && !by_limit && !places.back().all_of_it_gone &&
                                  !drawing::spot_of(*drawn, places.back(), words).named);
            add_once(told, sign.sign->where.empty()
                               ? sign.rule->name
                               : said(words_, sign.rule->name, where_words(words_, *one_.kind, sign.sign->where)));
        }
        drawing::mark_signs(*drawn, one_.verdict, one_.number, places, words);
        for (std::string& measure : point_to_measures(*drawn, told_measures)) add_once(told, std::move(measure));
        if (unnamed) {
            drawing::Label label;
            label.at = {drawn->drawing.size.width * 0.5, drawn->drawing.size.height + 8_pt};
            label.text = words_("finding.place-not-named");
            label.anchor = drawing::Anchor::middle;
            label.colour = drawing::black_70;
            drawn->drawing.items.push_back(label);
            drawn->drawing.size.height += 11_pt;
        }
        drawn->drawing.alternative = said(words_, drawn->drawing.alternative, join(told, "; "));
        return std::move(drawn->drawing);
    }

    /// Of those measured on board; what was measured on a photo is shown there. Returns them in words.
    std::vector<std::string> point_to_measures(drawing::Schematic& drawn, std::vector<bool>& told) const {
        std::vector<drawing::MeasureTag> tags;
        std::vector<std::size_t> of;
        const auto& measured = one_.fitting->measured;
        for (std::size_t i = 0; i < measured.size(); ++i) {
            if (!measured[i].from.empty()) continue;
            const auto at = drawing::spot_of_measure(drawn, measured[i].what);
            if (!at) continue;
            tags.push_back({*at, words_.numbers(measured[i].value)});
            of.push_back(i);
        }
        const std::vector<bool> placed = drawing::add_measure_tags(drawn, tags);
        std::vector<std::string> in_words;
        for (std::size_t k = 0; k < of.size(); ++k) {
            told[of[k]] = placed[k];
            if (placed[k]) in_words.push_back(measured_words(measured[of[k]], material_.trade));
        }
        return in_words;
    }

    /// Only where wires were seen to be broken or dull: a section of an unseen strand would say too much.
    bool shows_section() const {
        const drawing::WireStates states = wire_states();
        return one_.stay != nullptr && one_.stay->make == "1x19" && states.broken + states.dull > 0;
    }

    drawing::WireStates wire_states() const {
        drawing::WireStates states;
        for (const trade::JudgedSign& sign : one_.signs) {
            const auto count = static_cast<std::size_t>(sign.sign->count.value_or(1));
            const auto take = [&](std::size_t& sum, std::set<int>& wires) {
                wires.insert(sign.sign->wires.begin(), sign.sign->wires.end());
                sum = std::max({sum, count, wires.size()});
            };
            if (sign.rule->is == trade::SignIs::broken_wire) take(states.broken, states.broken_wires);
            if (sign.rule->is == trade::SignIs::dull_wire) take(states.dull, states.dull_wires);
        }
        return states;
    }

    drawing::Drawing section() const {
        const drawing::WireStates states = wire_states();
        const std::size_t marked = std::min<std::size_t>(states.broken + states.dull, 12);
        drawing::StrandWords words;
        words.broken = words_.count("strand.broken", states.broken);
        words.dull = words_.count("strand.dull", states.dull);
        if (marked < 12) words.whole = words_.count("strand.whole", 12 - marked);
        words.hidden = words_("strand.hidden");
        words.unplaced = words_("strand.unplaced");
        words.alternative =
            join({words_("finding.section"), words.broken, words.dull, words.whole, words.hidden}, "; ");
        return drawing::strand_section(states, words);
    }

    const Material& material_;
    const trade::Wording& words_;
    const assessment::FittingVerdict& one_;
};

}  // namespace

bool is_limit(const trade::SignRule& rule, const trade::Trade& trade) {
    return std::any_of(trade.limits.begin(), trade.limits.end(),
                       [&](const trade::Limit& limit) { return limit.rule.code == rule.code; });
}

FittingDrawing finding_drawing(const Material& material, const assessment::FittingVerdict& one) {
    return FindingDrawing(material, one).draw();
}

}  // namespace rigdeed::report
