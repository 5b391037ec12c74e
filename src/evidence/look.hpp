#pragma once

#include <string>
#include <vector>

#include "evidence/evidence.hpp"
#include "evidence/upright.hpp"

/// What the pixels of photos say before anyone has said what they show.
namespace rigdeed::evidence {

struct Looked {
    Photo photo;                     ///< name, file, facts, or its trouble; no copies
    std::vector<std::string> codes;  ///< texts of the QR codes in it
    double sharpness = 0;            ///< of the middle of the picture: see sharpness_of
};

/// Every photo file in the folder of the survey: those that it names, by their names, and those that it does not, by
/// their files' stems. Each is read once; what a store knows of it is not found out anew.
[[nodiscard]] std::vector<Looked> look_through(const survey::Survey& survey, unsigned jobs, const Progress& progress,
                                               CopyStore* store = nullptr);

/// As if the survey named every photo that was looked at, and nothing else: what no one has looked at yet is shown,
/// too.
[[nodiscard]] survey::Survey naming_all(const survey::Survey& survey, const std::vector<Looked>& looked);

/// Copies of all of them with just so many pixels along the longer side; of a photo that is not usable none.
[[nodiscard]] Evidence small_pictures(const survey::Survey& survey, const std::vector<Looked>& looked, int side,
                                      const Gathering& how);

/// How much of the contrast of a picture is in its finest lines: the mean square of steps from one pixel to the next,
/// over that of steps of four pixels. Falls with defocus and shake; compares photos of the same thing and size.
[[nodiscard]] double sharpness_of(const Raster& grey);

}  // namespace rigdeed::evidence
