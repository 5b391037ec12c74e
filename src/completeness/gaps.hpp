#pragma once

#include "completeness/completeness.hpp"

/// The finders behind the rows of gap_requirements(), by what they look at.
namespace rigdeed::completeness {

using Notes = std::vector<Note>;

// What the surveyor saw, and when (gaps_of_inspection.cpp).
void not_seen_up(const Inspection&, Notes&);
void not_seen_down(const Inspection&, Notes&);
void down_before_up(const Inspection&, Notes&);
void aloft_before_deck(const Inspection&, Notes&);
void climbed_despite_bar(const Inspection&, Notes&);
void seen_aloft_though_stopped(const Inspection&, Notes&);
void milder_without_reason(const Inspection&, Notes&);
void sound_though_unseen(const Inspection&, Notes&);
void signs_contradict(const Inspection&, Notes&);
void climbed_despite_nothing(const Inspection&, Notes&);

// What the form left open (gaps_of_form.cpp).
void left_open(const Inspection&, Notes&);
void unconfirmed(const Inspection&, Notes&);
void sign_without_words(const Inspection&, Notes&);

// The rig that there must be (gaps_of_rig.cpp).
void stay_missing(const Inspection&, Notes&);
void fitting_missing(const Inspection&, Notes&);
void absent_though_there(const Inspection&, Notes&);
void demand_not_met(const Inspection&, Notes&);

// Values that cannot be, by themselves or beside others (plausible.cpp).
void implausible(const Inspection&, Notes&);
void dates_contradict(const Inspection&, Notes&);
void heights_contradict(const Inspection&, Notes&);

// What a survey before this one said (gaps_of_before.cpp).
void renewal_not_said(const Inspection&, Notes&);
void sign_not_said(const Inspection&, Notes&);  ///< a remark

// When photos were taken, and which of a pair is which (gaps_of_day.cpp).
void other_day(const Inspection&, Notes&);
void undated(const Inspection&, Notes&);
void far_close_exchanged(const Inspection&, Notes&);
void same_picture(const Inspection&, Notes&);

// The photos (gaps_of_photos.cpp).
void no_photo_pair(const Inspection&, Notes&);
void sign_without_pair(const Inspection&, Notes&);
void far_without_close(const Inspection&, Notes&);
void close_without_far(const Inspection&, Notes&);
void far_is_close(const Inspection&, Notes&);
void photo_missing(const Inspection&, Notes&);
void photo_unreadable(const Inspection&, Notes&);
void not_a_photo(const Inspection&, Notes&);
void photo_unused(const Inspection&, Notes&);
void close_shared(const Inspection&, Notes&);
void same_content(const Inspection&, Notes&);

/// A line for the survey that puts a camera's clock right, where one offset fits all passes and another is written; or
/// nothing.
[[nodiscard]] std::string clock_hint(const Inspection& in);

/// A note about a fitting.
[[nodiscard]] Note about(const survey::Fitting& fitting, std::string_view code, std::string what,
                         std::string hint = {});

}  // namespace rigdeed::completeness
