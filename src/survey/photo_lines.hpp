#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "survey/survey.hpp"

/// Lines drawn on a photo, and what is measured with them: right in the plane of what gave the scale, nowhere else.
namespace rigdeed::survey {

/// "0.412 0.5 0.47 0.5": two numbers a point, two points a line, one or two lines, none of them without length.
[[nodiscard]] std::optional<PhotoLines> read_photo_lines(std::string_view text);

/// How long one line of them is, in widths of the photo.
[[nodiscard]] double length_of(const PhotoLines& lines, std::size_t number);
/// Between two lines, each drawn away from where they meet: 0 … 180.
[[nodiscard]] Degrees angle_between(const PhotoLines& lines);
/// What a line measures on a photo with this scale.
[[nodiscard]] Millimetres measured_length(const PhotoLines& line, const PhotoScale& scale);

/// Each end of a line is found within so many pixels of the original (from memory: by eye, enlarged).
inline constexpr double end_within = 2;
/// How far a value measured on a photo `pixels` wide may be off by where the ends of its lines and of the scale's were
/// put, their squares added up (JCGM 100:2008, 5.1.2). In the unit of the value: mm or degrees. `scale` may be null for
/// an angle.
[[nodiscard]] double uncertainty_of(double value, const PhotoLines& lines, const PhotoScale* scale, int pixels);

/// That what was measured on a photo is of a photo of its fitting, has a scale where it is a length, and follows from
/// its lines.
void check_photo_measures(const Survey& survey, const std::string& file, Problems& problems);

}  // namespace rigdeed::survey
