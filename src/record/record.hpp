#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/bytes.hpp"
#include "base/date.hpp"
#include "base/paper.hpp"
#include "base/unit.hpp"
#include "evidence/evidence.hpp"

/// The issue record, carried in each report as issue.xml: what besides the survey file its pages were made from. With
/// it the same pages can be made again without the photos.
namespace rigdeed::record {

/// The report that this one takes the place of (ISO/IEC 17020, 7.4.5).
struct Replaced {
    std::string number;
    Date issued;
    Digest sha256;  ///< of the sealed file
    std::string because;

    bool operator==(const Replaced&) const = default;
};

struct Made {
    std::string program;          ///< its version, that of what writes the PDF for it, the kind of processor
    std::optional<Digest> build;  ///< of everything that can change a page; 0.1.0 did not write it down
    Digest templates;             ///< of everything built in, and of the user's own templates
    UnitSystem units = UnitSystem::metric;
    PaperSize paper = PaperSize::a4;
    std::string language = "en";
    std::optional<Replaced> replaces;

    bool operator==(const Made&) const = default;
};

/// One element a photo, with all that the pages depend on; not its pixels.
[[nodiscard]] std::string write_record(const Made& made, const evidence::Evidence& evidence);

/// `evidence` is as it was, its print copies being JPEG headers of the right size without pixels.
struct Reading {
    Made made;
    evidence::Evidence evidence;
};
/// Nothing if the text is not an issue record.
[[nodiscard]] std::optional<Reading> read_record(std::string_view text);

}  // namespace rigdeed::record
