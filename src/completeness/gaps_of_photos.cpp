#include <algorithm>
#include <map>

#include "base/text.hpp"
#include "completeness/gaps.hpp"

namespace rigdeed::completeness {

using evidence::Photo;
using evidence::State;
using survey::Fitting;
using survey::Seen;

namespace {

/// One place in the survey that names a photo.
struct Use {
    const Fitting* fitting = nullptr;  ///< nothing: a photo of no single fitting
    const Seen* seen = nullptr;
    bool close = false;
    int line = 0;
};

std::map<std::string, std::vector<Use>> uses_by_photo(const survey::Survey& survey) {
    std::map<std::string, std::vector<Use>> uses;
    for (const survey::OtherPhoto& other : survey.photos.others)
        uses[other.name].push_back({nullptr, nullptr, false, other.line});
    for (const Fitting& fitting : survey.fittings)
        for (const Seen& seen : fitting.seen) {
            if (!seen.far.empty()) uses[seen.far].push_back({&fitting, &seen, false, seen.line});
            if (!seen.close.empty()) uses[seen.close].push_back({&fitting, &seen, true, seen.line});
        }
    return uses;
}

Note note_for(const Use& use, std::string_view code, std::string what, std::string hint) {
    return {std::string(code), use.fitting != nullptr ? use.fitting->id : std::string(), use.line, std::move(what),
            std::move(hint)};
}

/// A note for each place that names a photo in one of these states.
const std::string as_jpeg =
    "on the telephone, choose all of them and share or export them as JPEG; put those into the folder in their place";

void in_state(const std::vector<State>& states, std::string_view code, const std::string& hint, const Inspection& in,
              Notes& notes) {
    const auto uses = uses_by_photo(in.survey);
    for (const Photo& photo : in.evidence.photos) {
        if (std::find(states.begin(), states.end(), photo.state) == states.end()) continue;
        for (const Use& use : uses.at(photo.name))
            notes.push_back(note_for(use, code,
                                     in.trade.wording("gap.photo", {{"name", photo.name},
                                                                    {"reason", reason_words(photo, in.trade.wording)}}),
                                     photo.trouble.why == evidence::Why::heic ? as_jpeg : hint));
    }
}

template <class Matches>
void for_each_seen(const Inspection& in, Notes& notes, std::string_view code, const std::string& hint,
                   Matches matches) {
    for (const Fitting& fitting : in.survey.fittings)
        for (const Seen& seen : fitting.seen)
            if (const std::string what = matches(seen); !what.empty()) {
                Note note = about(fitting, code, what, hint);
                note.line = seen.line;
                notes.push_back(std::move(note));
            }
}

}  // namespace

void no_photo_pair(const Inspection& in, Notes& notes) {
    for (const Fitting& fitting : in.survey.fittings) {
        if (!must_be_seen(fitting, survey::Way::up, in.survey) && !must_be_seen(fitting, survey::Way::down, in.survey))
            continue;
        if (std::none_of(fitting.seen.begin(), fitting.seen.end(), [](const Seen& seen) { return seen.has_pair(); }))
            notes.push_back(about(fitting, "no-photo-pair", in.trade.wording("gap.no-photo-pair"),
                                  "add far=\"…\" and close=\"…\" to one of its <seen>"));
    }
}

void sign_without_pair(const Inspection& in, Notes& notes) {
    for_each_seen(in, notes, "sign-without-pair", "a sign needs a far and a close photo of the pass that saw it",
                  [&](const Seen& seen) {
                      if (seen.signs.empty() || seen.has_pair()) return std::string();
                      return in.trade.wording("gap.sign-without-pair." + survey::name_of(seen.pass),
                                              {{"sign", seen.signs.front().code}});
                  });
}

void far_without_close(const Inspection& in, Notes& notes) {
    for_each_seen(in, notes, "far-without-close", "name its close photo, or delete far", [&](const Seen& seen) {
        if (seen.far.empty() || !seen.close.empty()) return std::string();
        return in.trade.wording("gap.far-without-close", {{"name", seen.far}});
    });
}

void close_without_far(const Inspection& in, Notes& notes) {
    for_each_seen(in, notes, "close-without-far", "name a far photo that shows which fitting it is",
                  [&](const Seen& seen) {
                      if (!seen.far.empty() || seen.close.empty()) return std::string();
                      return in.trade.wording("gap.close-without-far", {{"name", seen.close}});
                  });
}

void far_is_close(const Inspection& in, Notes& notes) {
    for_each_seen(in, notes, "far-is-close", "a pair is two photos: one from far, one close", [&](const Seen& seen) {
        if (seen.far.empty() || seen.far != seen.close) return std::string();
        return in.trade.wording("gap.far-is-close", {{"name", seen.far}});
    });
}

void photo_missing(const Inspection& in, Notes& notes) {
    in_state({State::missing, State::ambiguous}, "photo-missing", "copy the photo into the folder, or correct its name",
             in, notes);
}

void photo_unreadable(const Inspection& in, Notes& notes) {
    in_state({State::unreadable}, "photo-unreadable", "copy the photo from the camera again", in, notes);
}

void not_a_photo(const Inspection& in, Notes& notes) {
    in_state({State::not_a_photo, State::leads_outside}, "not-a-photo", "put the camera's own JPEG file there", in,
             notes);
}

void photo_unused(const Inspection& in, Notes& notes) {
    for (const std::string& file : in.evidence.unused)
        notes.push_back(
            {"photo-unused",
             {},
             0,
             in.trade.wording("gap.photo-unused", {{"name", shown(file)}}),
             "name it where it was taken, as <other name=\"…\" shows=\"…\"/>, or move it out of the folder"});
}

void close_shared(const Inspection& in, Notes& notes) {
    for (const auto& [name, uses] : uses_by_photo(in.survey)) {
        const auto close = std::find_if(uses.begin(), uses.end(), [](const Use& use) { return use.close; });
        if (close == uses.end() || uses.size() < 2) continue;
        for (const Use& use : uses) {
            if (&use == &*close || use.seen == close->seen) continue;  // far-is-close has its own row
            const bool other_pass = use.fitting == close->fitting;
            notes.push_back(note_for(use, "close-shared",
                                     in.trade.wording(other_pass ? "gap.close-shared.pass" : "gap.close-shared",
                                                      {{"name", name}, {"other", close->fitting->id}}),
                                     "a close photo belongs to one fitting and one pass: name the right one"));
        }
    }
}

void same_content(const Inspection& in, Notes& notes) {
    std::map<Digest, const Photo*> first;
    const auto uses = uses_by_photo(in.survey);
    for (const Photo& photo : in.evidence.photos) {
        if (photo.size == 0) continue;
        const auto [known, fresh] = first.try_emplace(photo.sha256, &photo);
        if (fresh) continue;
        for (const Use& use : uses.at(photo.name))
            notes.push_back(
                note_for(use, "same-content",
                         in.trade.wording("gap.same-content", {{"name", photo.name}, {"other", known->second->name}}),
                         "one picture was copied under two names: name the right photo"));
    }
}

}  // namespace rigdeed::completeness
