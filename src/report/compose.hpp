#pragma once

#include <optional>
#include <string>
#include <vector>

#include "assessment/calculation.hpp"
#include "base/bytes.hpp"
#include "base/date.hpp"
#include "completeness/completeness.hpp"
#include "document/block.hpp"
#include "drawing/rig_geometry.hpp"
#include "evidence/evidence.hpp"
#include "survey/survey.hpp"
#include "trade/trade.hpp"
#include "years/since.hpp"

namespace rigdeed::report {

/// Who seals the report; for its last pages.
struct SignerFacts {
    std::string name;
    std::string organisation;
    std::string fingerprint;  ///< SHA-256 of the certificate, 64 hex digits
    std::string valid_until;
    LocalTime sealed = {};    ///< UTC, by the signer's clock
    bool date_typed = false;  ///< then it has no time of day
};

/// The report that this one takes the place of (ISO/IEC 17020, 7.4.5).
struct ReplacedFacts {
    std::string number;
    std::string issued;  ///< as printed
    std::string sha256;  ///< of the sealed file, 64 hex digits
    std::string because;
};

/// A fitting that rules of the surveyor's own judge milder than the program's.
struct Softened {
    std::string fitting;  ///< its name
    survey::Verdict by_program{};
    survey::Verdict by_own{};
    bool bar_lifted = false;  ///< by the program's rules it bars climbing
};

/// Templates of the surveyor's own that are rules or words.
struct OwnRules {
    std::vector<std::string> names;
    std::vector<Softened> softened;
};

/// What the report is made from. Everything lives longer than the call.
struct Material {
    const survey::Survey& survey;
    const trade::Trade& trade;
    const evidence::Evidence& evidence;
    const completeness::Completeness& completeness;
    const assessment::Assessment& assessment;
    const assessment::Calculations& calculations;
    const drawing::RigGeometry& rig;
    UnitSystem units;  ///< of what was calculated
    Digest data_digest;
    Date issued_on;
    std::optional<SignerFacts> signer;  ///< none: an unsigned preview
    evidence::PrintCopy logo;           ///< of the letterhead; empty: none
    std::optional<ReplacedFacts> replaced = std::nullopt;
    std::optional<OwnRules> own_rules = std::nullopt;
    const years::Since* since = nullptr;  ///< the reports that it is compared with; none: nothing is said of them
};

/// A line of the works list as it is printed, without sizes and places.
struct WorkLine {
    int item = 0;  ///< the number of its finding
    survey::Verdict verdict = survey::Verdict::renew;
    bool first = false;  ///< before anyone climbs
    std::string words, because;
};
/// The works in the order in which they are printed.
[[nodiscard]] std::vector<WorkLine> works_in_order(const Material& material);

[[nodiscard]] document::Document compose_report(const Material& material);

/// How large each photo will stand in the report, in pixels at 300 dpi along its longer side, and which parts of
/// close photos are enlarged. Photos of no sign may give way.
[[nodiscard]] evidence::ForPrint for_print(const assessment::Assessment& assessment, const survey::Survey& survey);

/// The photo register as it is embedded: XML, one element a photo, with size, SHA-256 and camera facts.
[[nodiscard]] std::string write_register(const survey::Survey& survey, const evidence::Evidence& evidence);

}  // namespace rigdeed::report
