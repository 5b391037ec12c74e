#include "completeness/remarks.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <regex>

#include "base/text.hpp"
#include "completeness/gaps.hpp"

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

std::string photo_words(const Photo& photo) { return "photo " + in_quotes(photo.name); }

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
    const auto when = photo.true_time(in.survey.photos.camera_clock);
    return when ? std::optional(seconds_since_epoch(*when)) : std::nullopt;
}

}  // namespace

void no_camera_time(const Inspection& in, Notes& notes) {
    for_each_close(in, [&](const Fitting& fitting, const Seen&, const Photo& close) {
        if (!close.facts.taken)
            notes.push_back(about(fitting, "no-camera-time", photo_words(close) + ": the camera recorded no time"));
    });
}

void outside_pass(const Inspection& in, Notes& notes) {
    const std::map<Way, std::optional<Span>> spans{{Way::up, span_of(Way::up, in.survey)},
                                                   {Way::down, span_of(Way::down, in.survey)}};
    for_each_close(in, [&](const Fitting& fitting, const Seen& seen, const Photo& close) {
        const auto taken = true_moment(in, close);
        const auto& span = spans.at(seen.pass);
        if (!taken || !span) return;
        if (*taken >= moment(in, span->first) - pass_tolerance && *taken <= moment(in, span->last) + pass_tolerance)
            return;
        const LocalTime when = local_from_seconds(*taken);
        notes.push_back(about(fitting, "outside-pass",
                              photo_words(close) + ": taken " + when.date.iso() + " " + when.time.hh_mm() +
                                  ", outside the pass " + survey::name_of(seen.pass) + " (" + span->first.hh_mm() +
                                  " to " + span->last.hh_mm() + ")",
                              "is camera-clock right?"));
    });
}

void close_before_far(const Inspection& in, Notes& notes) {
    for_each_close(in, [&](const Fitting& fitting, const Seen& seen, const Photo& close) {
        const Photo* far = in.evidence.find(seen.far);
        if (far == nullptr || !far->usable() || !far->facts.taken || !close.facts.taken || far->name == close.name)
            return;
        if (*close.facts.taken < *far->facts.taken)
            notes.push_back(about(fitting, "close-before-far",
                                  photo_words(close) + ": taken before its far photo " + in_quotes(far->name)));
    });
}

void flash_off(const Inspection& in, Notes& notes) {
    for_each_close(in, [&](const Fitting& fitting, const Seen&, const Photo& close) {
        if (close.facts.flash && !close.facts.flash->fired())
            notes.push_back(about(fitting, "flash-off", photo_words(close) + ": no flash; fine cracks may not show"));
    });
}

void flash_not_recorded(const Inspection& in, Notes& notes) {
    for_each_close(in, [&](const Fitting& fitting, const Seen&, const Photo& close) {
        if (!close.facts.flash)
            notes.push_back(
                about(fitting, "flash-not-recorded", photo_words(close) + ": the camera did not record the flash"));
    });
}

void scale_too_coarse(const Inspection& in, Notes& notes) {
    for_each_close(in, [&](const Fitting& fitting, const Seen&, const Photo& close) {
        const auto scale = close.scale();
        if (!scale) {
            notes.push_back(about(fitting, "scale-too-coarse",
                                  photo_words(close) + ": scale not recorded; a hairline crack cannot be excluded"));
        } else if (finest_line(*scale) > hairline) {
            notes.push_back(about(fitting, "scale-too-coarse",
                                  photo_words(close) + ": " + fixed(scale->value, 3) + " mm/px; lines finer than " +
                                      fixed(finest_line(*scale).value, 2) + " mm would not show"));
        }
    });
}

void edited_later(const Inspection& in, Notes& notes) {
    for_each_close(in, [&](const Fitting& fitting, const Seen&, const Photo& close) {
        if (!close.facts.changed || !close.facts.taken || *close.facts.changed <= *close.facts.taken) return;
        const std::string by = close.facts.software.empty() ? "" : " by " + in_quotes(close.facts.software);
        notes.push_back(about(fitting, "edited-later",
                              photo_words(close) + ": changed on " + close.facts.changed->date.iso() + " at " +
                                  close.facts.changed->time.hh_mm() + by + ", after it was taken"));
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
    std::vector<std::string> cameras;
    for (auto& [camera, seconds] : ahead) {
        std::nth_element(seconds.begin(), seconds.begin() + static_cast<std::ptrdiff_t>(seconds.size() / 2),
                         seconds.end());
        const std::int64_t median = seconds[seconds.size() / 2];
        least = least ? std::min(*least, median) : median;
        most = most ? std::max(*most, median) : median;
        cameras.push_back(camera.empty() ? "a camera without a name" : camera);
    }
    if (*most - *least <= pass_tolerance) return;
    notes.push_back({"clocks-disagree",
                     {},
                     0,
                     "the clocks of the cameras disagree by " + std::to_string((*most - *least + 30) / 60) +
                         " minutes: " + listed(cameras),
                     {}});
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
                     "hull number " + in_quotes(yacht.hin) + " has not the form of ISO 10087 or 33 CFR 181.25",
                     "older craft differ; compare it with the hull"});
}

}  // namespace rigdeed::completeness
