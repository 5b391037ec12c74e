#pragma once

#include <set>
#include <string>
#include <utility>
#include <vector>

#include "evidence/look.hpp"
#include "pairing/pairing.hpp"
#include "survey/edit.hpp"
#include "survey/survey.hpp"

/// From a survey and its photos to proposals, and back into the survey file.
namespace rigdeed::pairing {

/// What a proposal rests on, or why it is in doubt.
enum class Why { survey, code, order, nothing_in_turn, several, uncertain, or_else };

/// A photo with what is proposed for it. `fittings` in the words of the survey: their ids.
struct Told {
    std::string photo;
    std::vector<std::string> fittings;
    Way pass = Way::up;
    View view = View::other;
    std::optional<std::int64_t> at;  ///< when it was taken, by the survey's clock, seconds of the day
    bool sure = false;
    bool named = false;    ///< the survey says so already
    std::string of_place;  ///< id of the place whose code it shows; else empty
    Why reason = Why::uncertain;
    std::string why;        ///< the same in a phrase
    std::string next_best;  ///< id of another fitting it may show
};

struct Paired {
    std::vector<Told> photos;                 ///< in the order they were taken
    std::vector<std::string> unreadable;      ///< photo files that could not be looked at
    std::size_t foreign_codes = 0;            ///< codes of another survey's sheet: left alone
    std::vector<survey::CameraClock> clocks;  ///< of cameras, found by their photos: believed, until the survey says
    std::vector<std::size_t> questions;       ///< of `photos`: which to settle first, at most two
};

/// Sure ones are taken as said and the rest is asked again, until nothing more becomes sure.
/// `open` are looks whose time in `survey` means nothing.
[[nodiscard]] Paired pair_survey(const survey::Survey& survey, const std::vector<evidence::Looked>& looked,
                                 const std::set<std::pair<std::string, Way>>& open = {});

/// What to write into the survey file for it: sure ones as attributes, doubtful ones as comments at their fitting, in
/// place of such comments of an earlier run. `shows` is what is said of a photo of a code.
[[nodiscard]] std::vector<survey::Edit> edits_for(const Paired& paired, std::string_view text, const xml::Element& root,
                                                  const std::string& shows);

}  // namespace rigdeed::pairing
