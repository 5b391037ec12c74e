#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/file.hpp"
#include "evidence/copies.hpp"
#include "reopen/reopen.hpp"

namespace rigdeed::reopen {

/// Whether a report's picture is what its original makes.
enum class CopyState {
    same,         ///< made anew, byte for byte
    alike,        ///< made by other versions of the libraries: alike to the eye (evidence::are_alike)
    differs,      ///< it is not what the original shows
    not_compared  ///< it cannot be made anew here, or not in the same size
};

struct CopyFinding {
    std::string photo;  ///< as the survey names it
    CopyState state = CopyState::not_compared;
    std::string remark;  ///< why it was not compared
};

/// Where the original of a photo is.
struct Original {
    Digest sha256;
    std::string path;  ///< in the folder
};

/// Makes the copies of a report (its bytes: `file`) anew from its originals in `folder`, as far as they are there, in
/// confined child processes, `jobs` at once. One finding a photo that was found, in the record's order. To be called
/// while there is one thread only. Copies that a store of this user has are not made anew, if the report was made with
/// what makes them here.
[[nodiscard]] std::vector<CopyFinding> compare_copies(const SealedReport& report, std::string_view file,
                                                      const Folder& folder, const std::vector<Original>& originals,
                                                      unsigned jobs, evidence::CopyStore* store = nullptr);

}  // namespace rigdeed::reopen
