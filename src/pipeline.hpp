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
#include "pairing/survey_pairing.hpp"
#include "pdf/render.hpp"
#include "record/record.hpp"
#include "report/compose.hpp"
#include "sheet/climb_sheet.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"
#include "years/since.hpp"

/// The whole flow, in its order: survey file and photos → complete? → verdicts → pages → sealed PDF.
namespace rigdeed {

/// A survey that was read, with its photos and what was found about both. Neither copied nor moved: what was found
/// points into the survey.
struct Inspected {
    Inspected() = default;
    Inspected(const Inspected&) = delete;
    Inspected& operator=(const Inspected&) = delete;

    std::string file_text;  ///< the survey file as it was read
    survey::Survey survey;
    evidence::Evidence evidence;
    completeness::Completeness completeness;
    assessment::Assessment assessment;
    assessment::Calculations calculations;
    UnitSystem units = UnitSystem::metric;   ///< of what is calculated, as printed
    std::optional<Date> on;                  ///< day of issue, or of the check; none: not known
    std::vector<report::Softened> softened;  ///< where rules of the surveyor's own are milder
    std::unique_ptr<years::Since> since;     ///< the reports that it is compared with, or none
};

/// A survey, or every problem of its file: why it is none.
struct Inspection {
    std::unique_ptr<Inspected> inspected;
    Problems problems;
};

/// Why a text is no survey file that could be inspected; empty if it is one.
[[nodiscard]] Problems problems_of(std::string_view text, const std::string& file, const trade::Trade& trade);

struct InspectOptions {
    unsigned jobs = 1;
    bool for_print = false;           ///< scale the photos, too
    bool may_give_way = false;        ///< smaller copies of photos of no sign are kept in `copies`, too
    evidence::PrintSizes exact;       ///< pixels that photos are to have, instead of what their place takes
    std::optional<UnitSystem> units;  ///< none: as the survey file says, else metric
    std::optional<Date> on;           ///< day of issue, or of the check
    /// The survey file's text, as it was read before in this run: it is not read again.
    std::optional<std::string> text;
    evidence::Progress progress;
    evidence::CopyStore* copies = nullptr;      ///< print copies made before in this run, or none
    bool sharpness = false;                     ///< of close photos is measured, for the remarks
    const evidence::Evidence* known = nullptr;  ///< of the same survey, gathered before in this run, or none
};

/// Throws Error if a file or folder cannot be opened.
[[nodiscard]] Inspection inspect(const std::filesystem::path& survey_file, const trade::Trade& trade,
                                 const InspectOptions& options);

struct IssueOptions {
    std::int64_t issued_at = 0;                ///< seconds since 1970-01-01 UTC
    bool date_typed = false;                   ///< else by the clock
    const crypto::Signer* signer = nullptr;    ///< none: an unsigned preview
    crypto::Stamp stamp;                       ///< none: no timestamp; one that gives none: sealed without, and says so
    std::optional<record::Replaced> replaces;  ///< the report that this one takes the place of
    std::vector<years::Given> since;           ///< the reports to compare with, oldest first
    years::FindPicture earlier_picture;        ///< in the last of them
};

/// A report with an empty slot for the seal, of the size that it will have.
struct LaidOut {
    pdf::RenderedPdf pdf;
    std::function<pdf::RenderedPdf()> without_timestamp;  ///< the same, saying that it has none; if it is to have one
};
/// The report in the language of this trade. Uses up the photos of `inspected`.
[[nodiscard]] LaidOut lay_out(std::unique_ptr<Inspected> inspected, const trade::Trade& trade,
                              const IssueOptions& options);
/// Seals what was laid out, if there is a signer; only now is a timestamp asked for.
[[nodiscard]] std::string seal_report(LaidOut laid_out, const IssueOptions& options);

/// The climb sheet of a survey file, in the language of this trade. No photo is read. Throws
/// Error if the file cannot be opened.
struct ClimbSheet {
    std::string pdf;  ///< empty: with Scope::missing, nothing is missing
    std::size_t pages = 0;
    Problems problems;  ///< of the survey file; then there is no sheet
    struct Place {
        std::vector<std::string> fittings;  ///< ids
        std::string up, down;               ///< texts of its codes
    };
    std::vector<Place> places;  ///< whose codes are on it
};
[[nodiscard]] ClimbSheet climb_sheet(const std::filesystem::path& survey_file, const trade::Trade& trade,
                                     sheet::Scope scope, sheet::Codes codes, PaperSize paper, std::int64_t made_at);

/// The contact sheet of what was proposed for the photos of a survey that was read, in the language of this trade.
struct ContactSheet {
    std::string pdf;
    std::size_t pages = 0;
    Problems problems;  ///< of the survey file; then there is no sheet
};
struct Pairing {
    const survey::Survey& survey;
    std::string_view text;  ///< of the survey file
    const std::vector<evidence::Looked>& looked;
    const pairing::Paired& paired;
};
[[nodiscard]] ContactSheet contact_sheet(const Pairing& of, const trade::Trade& trade, PaperSize paper,
                                         std::int64_t made_at, const evidence::Gathering& how);

/// The pages of a report. The rig on its cover is drawn as large as the words of this language leave room.
[[nodiscard]] layout::Pages pages_of(const report::Material& material, const layout::Paper& paper);

/// What a report carries, and what its seal says.
struct Carried {
    std::string_view survey_file;
    std::string_view issue_record;
    std::string_view own_templates;  ///< empty: none
    std::string_view before;         ///< the reports that it compares with, or answers; empty: none
    bool compares = true;            ///< read again what it compares with, too
    std::string_view works_file;     ///< of a follow-up, which has no survey file; else empty
    crypto::CertificateFacts signer;
    std::int64_t issued_at = 0;
};

/// The survey that a report carries, read again and judged.
struct Reopened {
    record::Reading record;                ///< of how it was made; photos without pixels
    std::unique_ptr<trade::Trade> trade;   ///< by which it was judged
    std::unique_ptr<Inspected> inspected;  ///< points into both
};
/// By the rules that it carries, or by the program's own. What is wrong with what it carries is thrown as Error.
[[nodiscard]] Reopened read_again(const Carried& carried, bool by_own_rules);

/// With what pages are made here; the same of all of it makes the same pages.
[[nodiscard]] record::Made made_here();
/// Why the pages of a report made so need not be those made here; empty if they are the same.
[[nodiscard]] std::string other_build(const record::Made& made);
/// Whether copies of photos were made with what makes them here.
[[nodiscard]] bool same_pictures(const record::Made& made);
/// A report made anew: all but the pixels of its pictures, and unsealed.
[[nodiscard]] std::string make_anew(const Reopened& reopened, const Carried& carried);

/// What the record says of the rig.
[[nodiscard]] record::Concluded concluded(const Inspected& inspected);

/// SHA-256 of the two lines that hold the SHA-256 digests of survey file and photo register, in hex.
[[nodiscard]] Digest data_digest(std::string_view survey_file, std::string_view photo_register);

}  // namespace rigdeed
