#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "record/record.hpp"

/// The sealed papers of one yacht, as they follow each other.
namespace rigdeed::years {

/// A sealed report, or a follow-up that answers one.
struct Paper {
    std::string file;
    Digest sha256;
    bool follow_up = false;
    std::string number;
    std::string yacht, hin;
    Date on;  ///< of the attendance; of a follow-up the last work
    std::int64_t sealed_at = 0;
    std::string signer;
    Digest fingerprint;  ///< of the signer's certificate
    std::optional<record::Concluded> says;
    std::vector<record::Earlier> since;  ///< the reports that it compares with, or answers
    std::optional<record::Replaced> replaces;
    std::vector<record::Work> works;  ///< what its list asks for; of a follow-up, what remains
    std::optional<Date> look_again;   ///< by when what is watched is looked at
};

struct Chain {
    std::string yacht, hin;
    std::vector<Paper> papers;         ///< oldest first
    std::optional<std::size_t> last;   ///< the report that stands: the last that none replaces
    std::vector<record::Work> open;    ///< of its list, what no follow-up of it closed
    std::vector<std::string> remarks;  ///< broken links, replaced reports that are still used
};

/// Papers by yacht, the yachts in the order of their first paper.
[[nodiscard]] std::vector<Chain> chains(std::vector<Paper> papers);

}  // namespace rigdeed::years
