#include "completeness/plausible.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "base/text.hpp"
#include "completeness/gaps.hpp"
#include "completeness/remarks.hpp"

namespace rigdeed::completeness {

using survey::Fitting;
using survey::Stay;

namespace {

constexpr double gravity = 9.80665;

/// The digits of a written measure, and its unit.
std::pair<std::string, std::string> parts(const std::string& written) {
    const auto end = written.find_first_not_of("-0123456789./ ");
    return {squeezed(written.substr(0, end)), end == std::string::npos ? std::string() : written.substr(end)};
}

class Judge {
 public:
    explicit Judge(const Inspection& in) : in_(in), loa_(in.survey.yacht.loa.quantity.value) {}

    std::vector<Judged> run() {
        const survey::Yacht& yacht = in_.survey.yacht;
        add({{}, yacht.line, "loa", yacht.loa.text}, "loa", loa_, loa_);
        if (const auto highest = masthead())
            add({{}, yacht.line, "loa", yacht.loa.text}, "height-of-loa", loa_, *highest / loa_, true);
        const bool loa_can_be =
            std::all_of(values_.begin(), values_.end(), [](const Judged& one) { return one.possible(); });
        if (loa_can_be) of_yacht();
        for (const Stay& stay : in_.survey.stays) of_stay(stay, loa_can_be);
        if (loa_can_be)
            for (const Fitting& fitting : in_.survey.fittings)
                if (fitting.at_deck())
                    add({fitting.id, fitting.line, "height", fitting.height.text}, "deck-height-of-loa",
                        fitting.height.quantity.value, fitting.height.quantity.value / loa_);
        return std::move(values_);
    }

 private:
    struct Where {
        std::string fitting;
        int line = 0;
        std::string name;
        std::string written;
        Measure measure = Measure::length;
    };
    /// `inverse`: twice the value makes half the number.
    void add(Where where, const char* limit, double base, double number, bool inverse = false) {
        if (!std::isfinite(number)) return;
        values_.push_back({where.fitting, where.line, where.name, where.written, where.measure, number, base, inverse,
                           &in_.trade.tables.plausible_of(limit)});
    }

    std::optional<double> masthead() const {
        std::optional<double> highest;
        for (const Fitting& fitting : in_.survey.fittings)
            if (fitting.station == "masthead")
                highest = std::max(highest.value_or(-1e9), fitting.height.quantity.value);
        return highest;
    }

    void of_yacht() {
        const survey::Yacht& yacht = in_.survey.yacht;
        const auto of_length = [&](const std::optional<Length>& value, const char* name, const char* limit) {
            if (value)
                add({{}, yacht.line, name, value->text}, limit, value->quantity.value, value->quantity.value / loa_);
        };
        of_length(yacht.beam, "beam", "beam-of-loa");
        of_length(yacht.freeboard, "freeboard", "freeboard-of-loa");
        of_length(yacht.gz30, "gz30", "gz30-of-loa");
        if (!yacht.displacement) return;
        const double kilograms = yacht.displacement->quantity.value;
        add({{}, yacht.line, "displacement", yacht.displacement->text, Measure::mass}, "displacement-of-loa", kilograms,
            kilograms / std::pow(loa_ / 1000, 3));
        if (yacht.rm30)
            add({{}, yacht.line, "rm30", yacht.rm30->text, Measure::moment}, "gz30-of-loa", yacht.rm30->quantity.value,
                yacht.rm30->quantity.value / (kilograms * gravity) * 1000 / loa_);
    }

    void of_stay(const Stay& stay, bool loa_can_be) {
        const double diameter = stay.diameter.quantity.value;
        const Where of_diameter{stay.id, stay.line, "diameter", stay.diameter.text};
        add(of_diameter, "stay-diameter", diameter, diameter);
        const bool can_be = values_.back().possible();
        if (loa_can_be && can_be) add(of_diameter, "diameter-of-loa", diameter, diameter / (loa_ / 1000));
        if (stay.breaking_load && can_be)
            add({stay.id, stay.line, "breaking-load", stay.breaking_load->text, Measure::force}, "load-of-diameter",
                stay.breaking_load->quantity.value, stay.breaking_load->quantity.value / (diameter * diameter));
        if (const double span = span_of(stay); stay.length && span > 500)
            add({stay.id, stay.line, "length", stay.length->text}, "length-of-span", stay.length->quantity.value,
                stay.length->quantity.value / span);
        if (stay.sailed && stay.fitted) {
            const double days = static_cast<double>(days_since_epoch(in_.survey.attendance.on) -
                                                    days_since_epoch(stay.fitted->earliest()));
            add({stay.id, stay.line, "sailed", stay.sailed->text, Measure::distance}, "sailed-a-year",
                stay.sailed->quantity.value, stay.sailed->quantity.value / std::max(days / 365.25, 1.0));
        }
    }

    /// Between its lowest and its highest fitting, mm.
    double span_of(const Stay& stay) {
        if (heights_.empty())
            for (const Fitting& fitting : in_.survey.fittings) {
                const double height = fitting.height.quantity.value;
                auto& [low, high] = heights_.try_emplace(fitting.stay, height, height).first->second;
                low = std::min(low, height);
                high = std::max(high, height);
            }
        const auto found = heights_.find(stay.id);
        return found == heights_.end() ? 0 : found->second.second - found->second.first;
    }

    const Inspection& in_;
    double loa_;
    std::vector<Judged> values_;
    std::map<std::string, std::pair<double, double>> heights_;
};

Note note_of(const Judged& value, std::string_view code, std::string_view key, const Inspection& in) {
    const std::string meant = probably_meant(value);
    return {std::string(code), value.fitting, value.line,
            in.trade.wording(key, {{"name", value.name}, {"value", value.written}}),
            meant.empty() ? "is the unit right, and the decimal point?" : "did you mean " + in_quotes(meant) + "?"};
}

}  // namespace

std::vector<Judged> judged_values(const Inspection& in) { return Judge(in).run(); }

std::string probably_meant(const Judged& value) {
    static const std::map<Measure, std::vector<std::string>> units{{Measure::length, {"mm", "cm", "m", "in", "ft"}},
                                                                   {Measure::mass, {"kg", "t", "lb"}},
                                                                   {Measure::force, {"kN", "N", "kgf", "lbf"}},
                                                                   {Measure::moment, {"N m", "kN m", "ft lbf"}},
                                                                   {Measure::distance, {"nmi", "km"}}};
    const auto [digits, unit] = parts(value.written);
    std::vector<std::string> candidates;
    for (const std::string& other : units.at(value.measure)) candidates.push_back(digits + " " + other);
    if (const auto number = read_measure(digits + " mm", Measure::length).value)
        for (const double factor : {0.1, 10.0, 0.01, 100.0}) {
            std::string text = fixed(number->value * factor, 4);
            text.erase(text.find_last_not_of('0') + 1);
            if (text.ends_with('.')) text.pop_back();
            candidates.push_back(text + " " + unit);
        }
    for (const std::string& candidate : candidates) {
        const auto read = read_measure(candidate, value.measure).value;
        if (!read || read->value <= 0 || value.base == 0) continue;
        const double factor = read->value / value.base;
        Judged tried = value;
        tried.number = value.inverse ? value.number / factor : value.number * factor;
        if (tried.usual()) return candidate;
    }
    return {};
}

void implausible(const Inspection& in, Notes& notes) {
    for (const Judged& value : judged_values(in))
        if (!value.possible()) notes.push_back(note_of(value, "implausible", "gap.implausible", in));
}

void unusual(const Inspection& in, Notes& notes) {
    for (const Judged& value : judged_values(in))
        if (value.possible() && !value.usual()) notes.push_back(note_of(value, "unusual", "remark.unusual", in));
}

void dates_contradict(const Inspection& in, Notes& notes) {
    const trade::Wording& words = in.trade.wording;
    const survey::Attendance& attendance = in.survey.attendance;
    for (const Stay& stay : in.survey.stays)
        if (stay.fitted && stay.fitted->earliest() > attendance.on)
            notes.push_back({"dates-contradict", stay.id, stay.line,
                             words("gap.dates-contradict.fitted", {{"fitted", stay.fitted->iso()}}),
                             "a stay is fitted before it is surveyed: look at fitted=\"…\" and at on=\"…\""});
    const auto of_history = [&](const PartDate& on, int line) {
        if (on.earliest() > attendance.on)
            notes.push_back({"dates-contradict",
                             {},
                             line,
                             words("gap.dates-contradict.history", {{"on", on.iso()}}),
                             "<history> tells what was before: look at on=\"…\""});
    };
    for (const survey::PastSurvey& past : in.survey.history.surveys) of_history(past.on, past.line);
    for (const survey::Repair& repair : in.survey.history.repairs) of_history(repair.on, repair.line);
    for (const survey::LoggedTension& logged : in.survey.history.tensions) of_history(logged.on, logged.line);
    const survey::Yacht& yacht = in.survey.yacht;
    if (yacht.built && *yacht.built > attendance.on.year)
        notes.push_back({"dates-contradict",
                         {},
                         yacht.line,
                         words("gap.dates-contradict.built", {{"year", std::to_string(*yacht.built)}}),
                         "look at built=\"…\" and at on=\"…\""});
    // A day of grace: the survey has local days, the issue has those of UTC.
    if (in.issued && days_since_epoch(attendance.on) > days_since_epoch(*in.issued) + 1)
        notes.push_back(
            {"dates-contradict",
             {},
             attendance.line,
             words("gap.dates-contradict.issued", {{"on", attendance.on.iso()}, {"issued", in.issued->iso()}}),
             "look at on=\"…\", at --issued-on, and at this computer's clock"});
}

void issued_late(const Inspection& in, Notes& notes) {
    if (!in.issued) return;
    const auto days = days_since_epoch(*in.issued) - days_since_epoch(in.survey.attendance.on);
    if (static_cast<double>(days) <= in.trade.tables.plausible_of("days-to-issue").usual_most) return;
    notes.push_back({"issued-late",
                     {},
                     in.survey.attendance.line,
                     in.trade.wording("remark.issued-late", {{"days", std::to_string(days)}}),
                     "the rig is described as it was at the attendance"});
}

void older_than_yacht(const Inspection& in, Notes& notes) {
    for (const Stay& stay : in.survey.stays)
        if (in.survey.yacht.built && stay.fitted && stay.fitted->year < *in.survey.yacht.built)
            notes.push_back(
                {"older-than-yacht", stay.id, stay.line,
                 in.trade.wording("remark.older-than-yacht",
                                  {{"fitted", stay.fitted->iso()}, {"built", std::to_string(*in.survey.yacht.built)}}),
                 "look at fitted=\"…\" and at built=\"…\""});
}

namespace {

/// The lowest and highest fitting of some place.
struct Range {
    const Fitting* low = nullptr;
    const Fitting* high = nullptr;

    void take(const Fitting& one) {
        if (low == nullptr || one.height.quantity < low->height.quantity) low = &one;
        if (high == nullptr || one.height.quantity > high->height.quantity) high = &one;
    }
};

void tell_order(const Fitting& above, const Fitting& below, const Inspection& in, Notes& notes) {
    notes.push_back(about(above, "heights-contradict",
                          in.trade.wording("gap.heights-contradict", {{"station", above.station},
                                                                      {"height", above.height.text},
                                                                      {"other", below.id},
                                                                      {"below", below.station},
                                                                      {"its", below.height.text}}),
                          "what stands farther up the rig is higher: look at both heights and stations"));
}

}  // namespace

/// Aloft is above the deck on every stay; a pair of spreaders above the one below it; nothing above the masthead.
void heights_contradict(const Inspection& in, Notes& notes) {
    std::map<std::string, std::string> mast_of;
    for (const Stay& stay : in.survey.stays) mast_of[stay.id] = stay.mast;
    std::map<std::string, Range> deck, aloft;                      // by stay
    std::map<std::string, std::map<std::string, Range>> stations;  // by mast
    for (const Fitting& fitting : in.survey.fittings) {
        if (!fitting.stay.empty()) (fitting.at_deck() ? deck : aloft)[fitting.stay].take(fitting);
        const auto mast = mast_of.find(fitting.stay);
        stations[mast != mast_of.end() ? mast->second : fitting.mast][fitting.station].take(fitting);
    }
    for (auto& [stay, above] : aloft)
        if (const auto below = deck.find(stay);
            below != deck.end() && above.low->height.quantity <= below->second.high->height.quantity)
            tell_order(*above.low, *below->second.high, in, notes);
    for (auto& [mast, at] : stations) {
        for (int n = 2; n <= 6; ++n) {
            const auto upper = at.find("spreader-" + std::to_string(n));
            const auto lower_pair = at.find("spreader-" + std::to_string(n - 1));
            if (upper != at.end() && lower_pair != at.end() &&
                upper->second.low->height.quantity <= lower_pair->second.high->height.quantity)
                tell_order(*upper->second.low, *lower_pair->second.high, in, notes);
        }
        const auto top = at.find("masthead");
        if (top == at.end()) continue;
        for (const auto& [station, range] : at)
            if (station != "masthead" && range.high->height.quantity > top->second.high->height.quantity)
                tell_order(*top->second.high, *range.high, in, notes);
    }
    const auto& all = in.survey.fittings;
    const bool alike = all.size() > 2 && std::all_of(all.begin(), all.end(), [&](const Fitting& one) {
                           return one.height.quantity == all.front().height.quantity;
                       });
    if (alike)
        notes.push_back({"heights-contradict",
                         {},
                         all.front().line,
                         in.trade.wording("gap.heights-contradict.all", {{"height", all.front().height.text}}),
                         "measure them: the report's drawings and its order of climbing stand on them"});
}

}  // namespace rigdeed::completeness
