#include <algorithm>
#include <cstdlib>
#include <map>
#include <set>

#include "base/text.hpp"
#include "completeness/gaps.hpp"
#include "completeness/remarks.hpp"

/// When the photos were taken, by their cameras, and which of a pair is which.
namespace rigdeed::completeness {

using evidence::Photo;
using survey::Fitting;
using survey::Seen;

namespace {

constexpr std::size_t handful = 5;  ///< of photos without a time that may be

/// A photo where the survey names it.
struct Named {
    const Photo* photo = nullptr;
    const Fitting* fitting = nullptr;  ///< none: of no single fitting
    const Seen* seen = nullptr;
    int line = 0;
};

/// Every usable photo, once, where it is named first.
std::vector<Named> named_photos(const Inspection& in) {
    std::vector<Named> all;
    std::set<std::string> known;
    const auto add = [&](const std::string& name, const Fitting* fitting, const Seen* seen, int line) {
        const Photo* photo = name.empty() ? nullptr : in.evidence.find(name);
        if (photo == nullptr || !photo->usable() || !known.insert(name).second) return;
        all.push_back({photo, fitting, seen, line});
    };
    for (const survey::OtherPhoto& other : in.survey.photos.others) add(other.name, nullptr, nullptr, other.line);
    for (const Fitting& fitting : in.survey.fittings)
        for (const Seen& seen : fitting.seen)
            for (const std::string& name : {seen.far, seen.close}) add(name, &fitting, &seen, seen.line);
    return all;
}

std::int64_t told(const Inspection& in, const Seen& seen) {
    return seconds_since_epoch({in.survey.attendance.on, seen.at});
}

}  // namespace

/// The clock offset by which all photos of passes would have been taken within `pass_tolerance` of what the survey
/// says.
std::optional<int> fitting_offset(const Inspection& in) {
    std::vector<std::int64_t> behind;
    for (const Named& one : named_photos(in))
        if (one.seen != nullptr && one.photo->facts.taken && one.photo->name == one.seen->close)
            behind.push_back(told(in, *one.seen) - seconds_since_epoch(*one.photo->facts.taken));
    if (behind.size() < 3) return std::nullopt;
    std::sort(behind.begin(), behind.end());
    const std::int64_t offset = behind[behind.size() / 2];
    if (offset - behind.front() > pass_tolerance || behind.back() - offset > pass_tolerance) return std::nullopt;
    if (std::abs(offset) >= 24 * 3600) return std::nullopt;
    return static_cast<int>(offset >= 0 ? (offset + 5) / 10 * 10 : -((5 - offset) / 10 * 10));
}

std::string clock_hint(const Inspection& in) {
    const auto offset = fitting_offset(in);
    if (!offset || *offset == in.survey.photos.camera_clock) return {};
    return "if the camera's clock was off, this would fit all photos: camera-clock=\"" + clock_offset_text(*offset) +
           "\" in <photos>";
}

/// Photos of another day than the attendance's, or than those declared.
void other_day(const Inspection& in, Notes& notes) {
    const survey::Photos& photos = in.survey.photos;
    std::map<Date, std::vector<Named>> days;
    for (const Named& one : named_photos(in)) {
        const auto when = one.photo->true_time(photos);
        if (!when || when->date == in.survey.attendance.on) continue;
        if (std::find(photos.dated.begin(), photos.dated.end(), when->date) == photos.dated.end())
            days[when->date].push_back(one);
    }
    const std::string hint = clock_hint(in);
    for (const auto& [day, all] : days) {
        const std::string declare = "if they were taken then, say so and why in <photos>: dated=\"" + day.iso() +
                                    "\" because=\"…\"" + (hint.empty() ? "" : "; " + hint);
        const std::vector<Filling> said{
            {"day", day.iso()}, {"on", in.survey.attendance.on.iso()}, {"n", std::to_string(all.size())}};
        if (all.size() > most_told) {
            notes.push_back({"other-day", {}, photos.line, in.trade.wording("gap.other-day.many", said), declare});
            continue;
        }
        for (const Named& one : all) {
            auto fillings = said;
            fillings.push_back({"name", one.photo->name});
            notes.push_back({"other-day", one.fitting != nullptr ? one.fitting->id : std::string(), one.line,
                             in.trade.wording("gap.other-day", fillings), declare});
        }
    }
}

void undated(const Inspection& in, Notes& notes) {
    if (in.survey.photos.undated) return;
    std::size_t without = 0;
    for (const Named& one : named_photos(in))
        if (one.seen != nullptr && !one.photo->facts.taken) ++without;
    if (without > handful)
        notes.push_back({"undated",
                         {},
                         in.survey.photos.line,
                         in.trade.wording("gap.undated", {{"n", std::to_string(without)}}),
                         "put in the camera's own files; if no camera recorded it, say so and why in <photos>: "
                         "dated=\"unknown\" because=\"…\""});
}

/// dated="…" of a day of which there is no photo, or for photos that have their times.
void dated_needlessly(const Inspection& in, Notes& notes) {
    const survey::Photos& photos = in.survey.photos;
    std::set<Date> days;
    bool all_have = true;
    for (const Named& one : named_photos(in)) {
        const auto when = one.photo->true_time(photos);
        if (when) days.insert(when->date);
        all_have = all_have && when.has_value();
    }
    for (const Date& day : photos.dated)
        if (!days.contains(day))
            notes.push_back({"dated-needlessly",
                             {},
                             photos.line,
                             in.trade.wording("remark.dated-needlessly", {{"day", day.iso()}}),
                             {}});
    if (photos.undated && all_have)
        notes.push_back({"dated-needlessly", {}, photos.line, in.trade.wording("remark.dated-needlessly.unknown"), {}});
}

namespace {

/// Twice the longer lens, where no distance was recorded, is no far photo beside a close one.
bool seems_exchanged(const Photo& far, const Photo& close) {
    const auto far_scale = far.scale(), close_scale = close.scale();
    if (far_scale && close_scale) return *far_scale < *close_scale;
    if (far.facts.distance && close.facts.distance) return *far.facts.distance < *close.facts.distance;
    if (far.facts.focal_35mm && close.facts.focal_35mm && !far.facts.distance && !close.facts.distance)
        return *far.facts.focal_35mm >= 2 * *close.facts.focal_35mm;
    return false;
}

}  // namespace

void far_close_exchanged(const Inspection& in, Notes& notes) {
    for (const Fitting& fitting : in.survey.fittings)
        for (const Seen& seen : fitting.seen) {
            const Photo* far = seen.far.empty() ? nullptr : in.evidence.find(seen.far);
            const Photo* close = seen.close.empty() ? nullptr : in.evidence.find(seen.close);
            if (!seen.because.empty() || far == nullptr || close == nullptr || far == close) continue;
            if (!far->usable() || !close->usable() || !seems_exchanged(*far, *close)) continue;
            Note note = about(fitting, "far-close-exchanged",
                              in.trade.wording("gap.far-close-exchanged", {{"far", seen.far}, {"close", seen.close}}),
                              "are they exchanged? if not, say why in the <seen>: because=\"…\"");
            note.line = seen.line;
            notes.push_back(std::move(note));
        }
}

void same_picture(const Inspection& in, Notes& notes) {
    std::map<Digest, const Photo*> first;
    for (const Named& one : named_photos(in)) {
        if (!one.photo->pixels) continue;
        const auto [known, fresh] = first.try_emplace(*one.photo->pixels, one.photo);
        if (fresh || known->second->sha256 == one.photo->sha256) continue;
        notes.push_back(
            {"same-picture", one.fitting != nullptr ? one.fitting->id : std::string(), one.line,
             in.trade.wording("gap.same-picture", {{"name", one.photo->name}, {"other", known->second->name}}),
             "one picture stands under two names, and what the camera wrote of it was changed: put in the "
             "right one"});
    }
}

/// Two fittings that the survey saw one after the other, and the camera the other way round: exchanged, perhaps.
void out_of_order(const Inspection& in, Notes& notes) {
    struct Look {
        const Fitting* fitting;
        const Seen* seen;
        std::int64_t taken;
    };
    std::map<std::pair<survey::Way, std::string>, std::vector<Look>> looks;  // by pass and camera
    for (const Fitting& fitting : in.survey.fittings)
        for (const Seen& seen : fitting.seen) {
            const Photo* close = seen.close.empty() ? nullptr : in.evidence.find(seen.close);
            if (close == nullptr || !close->usable() || !close->facts.taken) continue;
            looks[{seen.pass, close->facts.camera}].push_back(
                {&fitting, &seen, seconds_since_epoch(*close->facts.taken)});
        }
    for (auto& [of, all] : looks) {
        std::stable_sort(all.begin(), all.end(), [](const Look& a, const Look& b) { return a.seen->at < b.seen->at; });
        for (std::size_t i = 1; i < all.size(); ++i) {
            const Look &before = all[i - 1], &after = all[i];
            if (before.seen->at == after.seen->at || before.taken <= after.taken) continue;
            Note note = about(*after.fitting, "out-of-order",
                              in.trade.wording("remark.out-of-order", {{"name", after.seen->close},
                                                                       {"other", before.seen->close},
                                                                       {"fitting", before.fitting->id}}),
                              "do the photos belong to the other fitting each?");
            note.line = after.seen->line;
            notes.push_back(std::move(note));
        }
    }
}

}  // namespace rigdeed::completeness
