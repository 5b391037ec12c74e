#include <algorithm>

#include "base/text.hpp"
#include "drawing/schematic.hpp"
#include "report/sections/sections.hpp"
#include "survey/photo_lines.hpp"

namespace rigdeed::report {

std::string flash_words(const Material& material, const evidence::Photo& photo) {
    const trade::Wording& words = material.trade.wording;
    if (!photo.facts.flash) return words("photo.flash-unknown");
    if (photo.facts.flash->fired()) return words("photo.flash-on");
    return photo.facts.flash->absent() ? words("photo.no-flash-unit") : words("photo.flash-off");
}

Picture photo_block(const Material& material, const std::string& name, const std::string& role,
                    const std::string& fitting) {
    const trade::Wording& words = material.trade.wording;
    Picture block;
    block.role = role;
    block.alternative = words("photo.alternative", {{"name", name}, {"role", role}, {"fitting", fitting}});
    const evidence::Photo* photo = material.evidence.find(name);
    if (photo == nullptr || !photo->usable()) {
        block.caption = words("photo.unusable",
                              {{"name", name}, {"reason", photo != nullptr ? unusable_words(*photo, words) : "?"}});
        return block;
    }
    block.jpeg = photo->print.jpeg;
    block.width = photo->print.width;
    block.height = photo->print.height;
    const auto when = photo->true_time(material.survey.photos);
    std::string taken = when ? when->time.hh_mm() : words("photo.time-unknown");
    if (when && when->date != material.survey.attendance.on) taken = words.date(when->date) + " " + taken;
    block.caption = name + ", " + taken + ", " + flash_words(material, *photo);
    const auto scale = photo->scale();
    if (scale) block.caption += ", " + words("photo.scale", {{"scale", words.number(scale->value, 3)}});
    return block;
}

std::string stay_words(const survey::Stay& stay, const trade::Trade& trade) {
    const trade::Make* make = trade.make(stay.make);
    return (make != nullptr ? make->name : stay.make) + ", " + trade.material_name(stay.alloy) + ", " +
           trade.wording.numbers(stay.diameter.text);
}

std::string measured_words(const survey::Measured& measured, const trade::Trade& trade) {
    const trade::MeasureName* name = trade.tables.measure(measured.what);
    const std::string value =
        (name != nullptr ? name->name : measured.what) + " " + trade.wording.numbers(measured.value);
    return measured.from.empty() ? value
                                 : trade.wording("measured.on-photo", {{"value", value}, {"photo", measured.from}});
}

std::string how_measured(const survey::Measured& measured, const Material& material) {
    const trade::Wording& words = material.trade.wording;
    const evidence::Photo* photo = material.evidence.find(measured.from);
    if (measured.from.empty() || photo == nullptr || photo->width == 0) return {};
    const trade::MeasureName* name = material.trade.tables.measure(measured.what);
    const std::string what = name != nullptr ? name->name : measured.what;
    const survey::PhotoScale* scale = material.survey.photos.scale_of(measured.from);
    const bool angle = measured.along.size() == 4;
    const auto value = read_measure(measured.value, angle ? Measure::angle : Measure::length).value;
    if (!value || (!angle && scale == nullptr)) return {};
    const double within = survey::uncertainty_of(value->value, measured.along, scale, photo->width);
    if (angle)
        return words(
            "measured.how-angle",
            {{"what", what}, {"photo", measured.from}, {"within", words.number(std::max(within, 0.1), 1) + "°"}});
    return words("measured.how",
                 {{"what", what},
                  {"photo", measured.from},
                  {"of", scale->of},
                  {"length", words.numbers(scale->length.text)},
                  {"within", words.numbers(printed(std::max(within, 0.01), Unit::millimetre, 2, material.units))}});
}

std::string rig_plan(const Material& material) {
    const trade::Plan* plan = material.trade.plan(material.survey.yacht.rig);
    if (plan != nullptr) return plan->name;
    const std::string& rig = material.survey.yacht.rig;
    return rig == trade::any_rig ? material.trade.wording("rig.other") : rig;
}

std::string unusable_words(const evidence::Photo& photo, const trade::Wording& words) {
    return completeness::reason_words(photo, words);
}

std::string said(const trade::Wording& words, const std::string& of, const std::string& what) {
    return words("form.said", {{"what", of}, {"words", what}});
}

std::string finding_anchor(int number) { return "finding-" + std::to_string(number); }

std::string work_anchor(int number) { return "work-" + std::to_string(number); }

std::vector<std::string> place_lines(const Material& material, const assessment::FittingVerdict& one) {
    const trade::Wording& words = material.trade.wording;
    const survey::Fitting& fitting = *one.fitting;
    std::vector<std::string> first;
    const auto side = fitting.side ? fitting.side : one.stay != nullptr ? std::optional(one.stay->side) : std::nullopt;
    if (side == survey::Side::port) first.push_back(words("rig.port"));
    if (side == survey::Side::starboard) first.push_back(words("rig.starboard"));
    const std::string& station = fitting.station;
    if (station.starts_with("spreader-"))
        first.push_back(words("place.station.spreader", {{"n", station.substr(station.size() - 1)}}));
    else if (words.has("place.station." + station)) first.push_back(words("place.station." + station));
    std::vector<std::string> lines;
    if (!first.empty()) lines.push_back(capitalised(join(first, ", ")));
    lines.push_back(words("works.at-height", {{"height", words.numbers(fitting.height.text)}}));
    return lines;
}

std::string where_words(const trade::Wording& words, const trade::Kind& kind, const std::string& where) {
    std::string key;
    for (const char c : where) key += c == ' ' ? '-' : c;
    if (!drawing::has_label(kind.schematic, key) || !words.has("schematic.label." + key))
        return words.has("where." + key) ? words("where." + key) : where;
    std::string label = words("schematic.label." + key);
    label = label.substr(0, label.find(','));  // "eye, up" is how it is drawn
    std::replace(label.begin(), label.end(), '/', ' ');
    return label;
}

std::string sign_words(const trade::Wording& words, const trade::Kind& kind, const std::string& name,
                       const survey::Sign& sign) {
    std::vector<std::string> parts;
    if (!sign.where.empty()) parts.push_back(where_words(words, kind, sign.where));
    if (!sign.wires.empty()) {
        std::vector<std::string> wires;
        for (const int wire : sign.wires) wires.push_back(std::to_string(wire));
        parts.push_back(words(wires.size() == 1 ? "finding.wire" : "finding.wires", {{"wires", words.listed(wires)}}));
    } else if (sign.count && *sign.count > 1)
        parts.push_back(words("finding.count", {{"n", std::to_string(*sign.count)}}));
    if (sign.length) parts.push_back(words.numbers(sign.length->text));
    return parts.empty() ? name : name + " (" + join(parts, ", ") + ")";
}

std::string said_once(const std::vector<std::string>& texts) {
    std::vector<std::string> sentences;
    for (const std::string& text : texts) {
        std::size_t from = 0;
        while (from < text.size()) {
            std::size_t end = text.find(". ", from);
            // "p. 3" and "31. März" are no ends: a sentence begins with a capital and is no word of two letters
            while (end != std::string::npos &&
                   (std::islower(static_cast<unsigned char>(text[end + 2])) != 0 || end < from + 4 ||
                    std::isdigit(static_cast<unsigned char>(text[end - 1])) != 0))
                end = text.find(". ", end + 2);
            sentences.push_back(text.substr(from, end == std::string::npos ? end : end + 1 - from));
            from = end == std::string::npos ? text.size() : end + 2;
        }
    }
    std::vector<std::string> kept;
    for (const std::string& one : sentences) {
        const std::string beginning = one.ends_with('.') ? one.substr(0, one.size() - 1) : one;
        const bool said_longer = std::any_of(sentences.begin(), sentences.end(), [&](const std::string& other) {
            return other.size() > one.size() && other.starts_with(beginning);
        });
        if (!said_longer) add_once(kept, one);
    }
    return join(kept, " ");
}

std::string verdict_word(Verdict verdict, const trade::Wording& words) {
    return words("verdict." + survey::name_of(verdict));
}

bool was_not_seen(const assessment::FittingVerdict& one) {
    return one.verdict == Verdict::unseen || one.fitting->seen.empty();
}

std::string told_seen(const Material& material) {
    std::size_t both = 0, once = 0, none = 0;
    for (const assessment::FittingVerdict& one : material.assessment.fittings) {
        const bool twice = one.fitting->in(survey::Way::up) != nullptr && one.fitting->in(survey::Way::down) != nullptr;
        (was_not_seen(one) ? none : twice ? both : once) += 1;
    }
    return material.trade.wording("cover.fittings", {{"all", std::to_string(material.assessment.fittings.size())},
                                                     {"both", std::to_string(both)},
                                                     {"once", std::to_string(once)},
                                                     {"unseen", std::to_string(none)}});
}

std::string finding_sentence(const Material& material, const assessment::FittingVerdict& one) {
    const trade::Wording& words = material.trade.wording;
    if (one.absent) return said(words, one.signs.front().rule->name, one.signs.front().sign->words);
    if (!one.signs.empty()) {
        std::vector<std::string> names;
        if (const assessment::Consequence* worse = assessment::worse_than_signs(one))
            names.push_back(filled_rule(worse->rule->name, one, *worse, material));
        for (const trade::JudgedSign& sign : one.signs)
            if (std::find(names.begin(), names.end(), sign.rule->name) == names.end()) names.push_back(sign.rule->name);
        return words.listed(names);
    }
    if (!one.unseen_because.empty()) return words("finding.unseen.sentence", {{"reason", one.unseen_because}});
    if (!one.consequences.empty())
        return filled_rule(one.consequences.front().rule->name, one, one.consequences.front(), material);
    return words("finding.given.sentence");
}

std::string filled_rule(const std::string& pattern, const assessment::FittingVerdict& one, const trade::Trade& trade) {
    const std::string stay = one.stay != nullptr ? trade::stay_name(*one.stay, trade) : trade.wording("name.stay");
    return filled(pattern, {{"stay", stay}, {"fitting", one.name}});
}

std::string filled_rule(const std::string& pattern, const assessment::FittingVerdict& one,
                        const assessment::Consequence& consequence, const Material& material) {
    return assessment::words_of(consequence, pattern, one, material.assessment, material.trade);
}

}  // namespace rigdeed::report
