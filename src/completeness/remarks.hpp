#pragma once

#include "completeness/completeness.hpp"

/// The finders behind the rows of remark_requirements(): findings about the evidence, not about the rig.
namespace rigdeed::completeness {

using Notes = std::vector<Note>;

inline constexpr int pass_tolerance = 15 * 60;  ///< seconds a photo may lie outside its pass

void no_camera_time(const Inspection&, Notes&);
void outside_pass(const Inspection&, Notes&);
void close_before_far(const Inspection&, Notes&);
void flash_off(const Inspection&, Notes&);
void flash_not_recorded(const Inspection&, Notes&);
void scale_too_coarse(const Inspection&, Notes&);
void blurred(const Inspection&, Notes&);
void edited_later(const Inspection&, Notes&);
void clocks_disagree(const Inspection&, Notes&);
void hin_form(const Inspection&, Notes&);
void out_of_order(const Inspection&, Notes&);
void dated_needlessly(const Inspection&, Notes&);
void unusual(const Inspection&, Notes&);
void issued_late(const Inspection&, Notes&);
void older_than_yacht(const Inspection&, Notes&);
void choices_not_said(const Inspection&, Notes&);
void id_says_otherwise(const Inspection&, Notes&);

/// US 33 CFR 181.25 (12 characters) or ISO 10087 (country code and those 12); hyphens and blanks do not count.
[[nodiscard]] bool has_hin_form(std::string_view hin);

}  // namespace rigdeed::completeness
