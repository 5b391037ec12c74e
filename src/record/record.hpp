#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

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

/// A sealed paper of the same rig from before, which this one rests on.
struct Earlier {
    std::string number;
    Date issued;
    Digest sha256;       ///< of the sealed file
    std::string signer;  ///< whom its certificate names
    Digest fingerprint;  ///< of that certificate

    bool operator==(const Earlier&) const = default;
};

/// A picture taken over from one of them.
struct EarlierPhoto {
    std::size_t of = 0;  ///< which of them, from 0
    std::string name;    ///< of the photo, there
    evidence::PrintCopy print;
    Digest sha256;  ///< of the picture
};

/// What the report says of the rig, for those who have no program that makes its pages anew.
struct Concluded {
    bool complete = false;                  ///< nothing is missing in the survey
    std::string answer;                     ///< name of assessment::Answer
    bool do_not_climb = true;               ///< something bars climbing
    std::array<std::size_t, 5> verdicts{};  ///< how many of each survey::Verdict, in its order

    bool operator==(const Concluded&) const = default;
};

/// A line of the works list, in its words.
struct Work {
    int item = 0;  ///< the number of its finding
    survey::Verdict verdict = survey::Verdict::renew;
    bool first = false;  ///< before anyone climbs
    std::string words;
    std::string because;

    bool operator==(const Work&) const = default;
};

struct Made {
    std::string program;          ///< its version, that of what writes the PDF for it, the kind of processor
    std::optional<Digest> build;  ///< of everything that can change a page; 0.1.0 did not write it down
    std::string pictures;         ///< what made the print copies, with versions; 0.1.0 did not write it down
    Digest templates;             ///< of the user's own templates
    UnitSystem units = UnitSystem::metric;
    PaperSize paper = PaperSize::a4;
    std::string language = "en";
    std::optional<Replaced> replaces;
    std::vector<Earlier> since;  ///< the reports that it compares with, oldest first
    std::vector<EarlierPhoto> earlier_photos;
    std::optional<bool> date_typed;          ///< the date of issue was typed in, else by the clock; 0.1.0 did not say
    std::optional<bool> timestamp;           ///< whether the seal was to get one; 0.1.0 did not write it down
    std::optional<Concluded> concluded;      ///< 0.1.0 did not write it down
    std::optional<std::vector<Work>> works;  ///< in the order of the list; 0.1.0 did not write them down
    evidence::PrintCopy logo;                ///< of the letterhead, as printed; empty: none
};

/// One element a photo, with all that the pages depend on; of its pixels as printed their SHA-256.
[[nodiscard]] std::string write_record(const Made& made, const evidence::Evidence& evidence);

/// `evidence` is as it was, its print copies (and the logo) being hollow JPEGs of the right size.
struct Reading {
    Made made;
    evidence::Evidence evidence;
};
/// Nothing if the text is not an issue record.
[[nodiscard]] std::optional<Reading> read_record(std::string_view text);

/// "rigdeed 0.1.0": its program without what else its pages depend on.
[[nodiscard]] std::string program_of(const Made& made);

/// SHA-256 of each picture printed that the record names: what a report's own pictures must be.
[[nodiscard]] std::vector<Digest> printed_pictures(const Reading& reading);

}  // namespace rigdeed::record
