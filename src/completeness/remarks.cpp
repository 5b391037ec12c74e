#include "completeness/remarks.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <regex>

#include "base/text.hpp"
#include "completeness/gaps.hpp"
#include "evidence/sharpness.hpp"

namespace rigdeed::completeness {

using evidence::Photo;
using survey::Fitting;
using survey::Seen;
using survey::Way;

namespace {

/// Calls `with` for every usable close photo, and its far one if that is usable.
template <class With>
void for_each_close(const Inspection& in, With with) {
    for (const Fitting& fitting : in.survey.fittings)
        for (const Seen& seen : fitting.seen)
            if (const Photo* close = in.evidence.find(seen.close); close != nullptr && close->usable())
                with(fitting, seen, *close);
}

/// The words of a remark about this photo.
std::string words_of(const Inspection& in, const Photo& photo, std::string_view key, std::vector<Filling> more = {}) {
    more.push_back({"name", photo.name});
    return in.trade.wording("remark." + std::string(key), more);
}

struct Span {
    TimeOfDay first;
    TimeOfDay last;
};

std::optional<Span> span_of(Way pass, const survey::Survey& survey) {
    std::optional<Span> span;
    for (const Fitting& fitting : survey.fittings)
        if (const Seen* seen = fitting.in(pass)) {
            if (!span) span = Span{seen->at, seen->at};
            span->first = std::min(span->first, seen->at);
            span->last = std::max(span->last, seen->at);
        }
    return span;
}

std::int64_t moment(const Inspection& in, TimeOfDay at) { return seconds_since_epoch({in.survey.attendance.on, at}); }

std::optional<std::int64_t> true_moment(const Inspection& in, const Photo& photo) {
    const auto when = photo.true_time(in.survey.photos);
    return when ? std::optional(seconds_since_epoch(*when)) : std::nullopt;
}

}  // namespace

void no_camera_time(const Inspection& in, Notes& notes) {
    for_each_close(in, [&](const Fitting& fitting, const Seen&, const Photo& close) {
        if (!close.facts.taken)
            notes.push_back(about(fitting, "no-camera-time", words_of(in, close, "no-camera-time")));
    });
}

void outside_pass(const Inspection& in, Notes& notes) {
    const std::map<Way, std::optional<Span>> spans{{Way::up, span_of(Way::up, in.survey)},
                                                   {Way::down, span_of(Way::down, in.survey)}};
    const std::string clock = clock_hint(in);
    for_each_close(in, [&](const Fitting& fitting, const Seen& seen, const Photo& close) {
        const auto taken = true_moment(in, close);
        const auto& span = spans.at(seen.pass);
        if (!taken || !span) return;
        if (*taken >= moment(in, span->first) - pass_tolerance && *taken <= moment(in, span->last) + pass_tolerance)
            return;
        const LocalTime when = local_from_seconds(*taken);
        notes.push_back(about(fitting, "outside-pass",
                              words_of(in, close, "outside-pass." + survey::name_of(seen.pass),
                                       {{"time", when.date.iso() + " " + when.time.hh_mm()},
                                        {"first", span->first.hh_mm()},
                                        {"last", span->last.hh_mm()}}),
                              clock.empty() ? "is camera-clock right?" : clock));
    });
}

void close_before_far(const Inspection& in, Notes& notes) {
    for_each_close(in, [&](const Fitting& fitting, const Seen& seen, const Photo& close) {
        const Photo* far = in.evidence.find(seen.far);
        if (far == nullptr || !far->usable() || !far->facts.taken || !close.facts.taken || far->name == close.name)
            return;
        if (*close.facts.taken < *far->facts.taken)
            notes.push_back(
                about(fitting, "close-before-far", words_of(in, close, "close-before-far", {{"far", far->name}})));
    });
}

void flash_off(const Inspection& in, Notes& notes) {
    for_each_close(in, [&](const Fitting& fitting, const Seen&, const Photo& close) {
        if (close.facts.flash && !close.facts.flash->fired())
            notes.push_back(about(fitting, "flash-off", words_of(in, close, "flash-off")));
    });
}

void flash_not_recorded(const Inspection& in, Notes& notes) {
    for_each_close(in, [&](const Fitting& fitting, const Seen&, const Photo& close) {
        if (!close.facts.flash)
            notes.push_back(about(fitting, "flash-not-recorded", words_of(in, close, "flash-not-recorded")));
    });
}

void scale_too_coarse(const Inspection& in, Notes& notes) {
    const Millimetres hairline{in.trade.tables.constant("hairline").value};
    const double pixels_a_line = in.trade.tables.constant("pixels-a-line").value;
    for_each_close(in, [&](const Fitting& fitting, const Seen&, const Photo& close) {
        const auto scale = close.scale();
        if (!scale) {
            notes.push_back(about(fitting, "scale-too-coarse", words_of(in, close, "scale-too-coarse.unknown")));
        } else if (*scale * pixels_a_line > hairline) {
            notes.push_back(about(fitting, "scale-too-coarse",
                                  words_of(in, close, "scale-too-coarse",
                                           {{"scale", in.trade.wording.number(scale->value, 3)},
                                            {"width", in.trade.wording.number((*scale * pixels_a_line).value, 2)}})));
        }
    });
}

void blurred(const Inspection& in, Notes& notes) {
    std::vector<std::string> names;
    for_each_close(in, [&](const Fitting&, const Seen&, const Photo& close) {
        if (evidence::is_blurred(close)) names.push_back(close.name);
    });
    if (names.empty()) return;
    notes.push_back({"blurred", {}, 0, in.trade.wording("remark.blurred", {{"names", join(names, ", ")}}), {}});
}

void edited_later(const Inspection& in, Notes& notes) {
    for_each_close(in, [&](const Fitting& fitting, const Seen&, const Photo& close) {
        if (!close.facts.changed || !close.facts.taken || *close.facts.changed <= *close.facts.taken) return;
        notes.push_back(about(fitting, "edited-later",
                              words_of(in, close, close.facts.software.empty() ? "edited-later" : "edited-later.by",
                                       {{"date", close.facts.changed->date.iso()},
                                        {"time", close.facts.changed->time.hh_mm()},
                                        {"software", shown(close.facts.software)}})));
    });
}

void clocks_disagree(const Inspection& in, Notes& notes) {
    std::map<std::string, std::vector<std::int64_t>> ahead;  // camera: its time less the survey's
    for_each_close(in, [&](const Fitting&, const Seen& seen, const Photo& close) {
        if (const auto taken = true_moment(in, close))
            ahead[close.facts.camera].push_back(*taken - moment(in, seen.at));
    });
    if (ahead.size() < 2) return;
    std::optional<std::int64_t> least;
    std::optional<std::int64_t> most;
    std::vector<std::string> cameras, lines;
    for (auto& [camera, seconds] : ahead) {
        std::nth_element(seconds.begin(), seconds.begin() + static_cast<std::ptrdiff_t>(seconds.size() / 2),
                         seconds.end());
        const std::int64_t median = seconds[seconds.size() / 2];
        least = least ? std::min(*least, median) : median;
        most = most ? std::max(*most, median) : median;
        if (!camera.empty() && std::abs(median) > pass_tolerance / 3)
            lines.push_back("<camera name=\"" + shown(camera) + "\" clock=\"" +
                            clock_offset_text(in.survey.photos.clock_of(camera) - static_cast<int>(median)) + "\"/>");
        cameras.push_back(camera.empty() ? in.trade.wording("remark.clocks-disagree.nameless") : camera);
    }
    if (*most - *least <= pass_tolerance) return;
    notes.push_back(
        {"clocks-disagree",
         {},
         0,
         in.trade.wording("remark.clocks-disagree", {{"minutes", std::to_string((*most - *least + 30) / 60)},
                                                     {"cameras", in.trade.wording.listed(cameras)}}),
         lines.empty() ? std::string() : "if their clocks were off, write into <photos>: " + join(lines, " ")});
}

bool has_hin_form(std::string_view hin) {
    std::string plain;
    for (const char c : hin)
        if (c != '-' && c != ' ' && c != '.') plain += c;
    static const std::regex form("([A-Z]{2})?[A-Z]{3}[A-HJ-NPR-Z0-9]{5}[A-L][0-9][0-9]{2}");
    return std::regex_match(plain, form);
}

void hin_form(const Inspection& in, Notes& notes) {
    const survey::Yacht& yacht = in.survey.yacht;
    if (yacht.hin.empty() || has_hin_form(yacht.hin)) return;
    notes.push_back({"hin-form",
                     {},
                     yacht.line,
                     in.trade.wording("remark.hin-form", {{"hin", shown(yacht.hin)}}),
                     "older craft differ; compare it with the hull"});
}

}  // namespace rigdeed::completeness
