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
void stay_missing(const Inspection&, Notes&);
void demand_not_met(const Inspection&, Notes&);

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

/// A note about a fitting.
[[nodiscard]] Note about(const survey::Fitting& fitting, std::string_view code, std::string what,
                         std::string hint = {});

}  // namespace rigdeed::completeness
