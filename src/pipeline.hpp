#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "assessment/calculation.hpp"
#include "completeness/completeness.hpp"
#include "crypto/cms.hpp"
#include "crypto/signer.hpp"
#include "evidence/evidence.hpp"
#include "layout/paginate.hpp"
#include "pdf/render.hpp"
#include "record/record.hpp"
#include "report/compose.hpp"
#include "sheet/climb_sheet.hpp"
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
    evidence::CopyStore* copies = nullptr;      ///< print copies made before in this run, or none
    const evidence::Evidence* known = nullptr;  ///< of the same survey, gathered before in this run, or none
};

/// Throws InvalidSurvey with all problems, or Error if a file or folder cannot be opened.
[[nodiscard]] std::unique_ptr<Inspected> inspect(const std::filesystem::path& survey_file, const trade::Trade& trade,
                                                 const InspectOptions& options);

struct IssueOptions {
    std::int64_t issued_at = 0;                ///< seconds since 1970-01-01 UTC
    const crypto::Signer* signer = nullptr;    ///< none: an unsigned preview
    crypto::Stamp stamp;                       ///< none: no timestamp
    std::optional<record::Replaced> replaces;  ///< the report that this one takes the place of
};

/// The report in the language of this trade, with an empty slot for the seal, of the size that it will have. Uses up
/// the photos of `inspected`.
[[nodiscard]] pdf::RenderedPdf lay_out(std::unique_ptr<Inspected> inspected, const trade::Trade& trade,
                                       const IssueOptions& options);
/// Seals what was laid out, if there is a signer; only now is a timestamp asked for.
[[nodiscard]] std::string seal_report(pdf::RenderedPdf laid_out, const IssueOptions& options);

/// The climb sheet of a survey file, in the language of this trade; No photo is read. Empty:
/// with Scope::missing, nothing is missing. Throws InvalidSurvey, or Error if the file cannot be opened.
struct ClimbSheet {
    std::string pdf;
    std::size_t pages = 0;
};
[[nodiscard]] std::optional<ClimbSheet> climb_sheet(const std::filesystem::path& survey_file, const trade::Trade& trade,
                                                    sheet::Scope scope, PaperSize paper, std::int64_t made_at);

/// The pages of a report. The rig on its cover is drawn as large as the words of this language leave room.
[[nodiscard]] layout::Pages pages_of(report::Material material, const layout::Paper& paper);

/// What a report carries, and what its seal says.
struct Carried {
    std::string_view survey_file;
    std::string_view issue_record;
    crypto::CertificateFacts signer;
    std::int64_t issued_at = 0;
};

/// The report made anew from what it carries: all but the pixels of its photos, and unsealed.
struct MadeAnew {
    std::string pdf;     ///< empty if the survey it carries is none
    std::string cannot;  ///< why it cannot be made here: by another program, with other templates; else empty
};
/// The trade with its words in the language of the report.
using TradeIn = std::function<trade::Trade(const std::string& language)>;
[[nodiscard]] MadeAnew make_anew(const Carried& carried, const TradeIn& trade_in);

/// SHA-256 of the two lines that hold the SHA-256 digests of survey file and photo register, in hex.
[[nodiscard]] Digest data_digest(std::string_view survey_file, std::string_view photo_register);

}  // namespace rigdeed
