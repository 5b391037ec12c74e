#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "assessment/calculation.hpp"
#include "completeness/completeness.hpp"
#include "crypto/signer.hpp"
#include "evidence/evidence.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"

/// The whole flow, in its order: survey file and photos → complete? → verdicts → pages → sealed PDF.
namespace rigdeed {

/// A survey that was read, with its photos and what was found about both.
struct Inspected {
    std::string file_text;  ///< the survey file as it was read
    survey::Survey survey;
    evidence::Evidence evidence;
    completeness::Completeness completeness;
    assessment::Assessment assessment;
    assessment::Calculations calculations;
    UnitSystem units = UnitSystem::metric;  ///< of what is calculated, as printed
};

/// What was given is not a survey we can read: every problem of the file.
struct InvalidSurvey {
    Problems problems;
};

struct InspectOptions {
    unsigned jobs = 1;
    bool for_print = false;           ///< scale the photos, too
    double share = 1;                 ///< of their pixels, for photos that show no finding
    std::optional<UnitSystem> units;  ///< none: as the survey file says, else metric
    evidence::Progress progress;
};

/// Throws InvalidSurvey with all problems, or Error if a file or folder cannot be opened.
[[nodiscard]] std::unique_ptr<Inspected> inspect(const std::filesystem::path& survey_file, const trade::Trade& trade,
                                                 const InspectOptions& options);

/// Lays out and seals the report; without a signer an unsigned preview. Uses up the photos of `inspected`.
[[nodiscard]] std::string issue(std::unique_ptr<Inspected> inspected, const trade::Trade& trade, std::int64_t issued_at,
                                const crypto::Signer* signer);

/// SHA-256 of the two lines that hold the SHA-256 digests of survey file and photo register, in hex.
[[nodiscard]] Digest data_digest(std::string_view survey_file, std::string_view photo_register);

}  // namespace rigdeed
