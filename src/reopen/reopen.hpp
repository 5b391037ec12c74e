#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.hpp"
#include "record/record.hpp"
#include "report/compose.hpp"
#include "verify/photos.hpp"
#include "verify/verify.hpp"

/// The one way in which a sealed report is opened, for whatever is wanted of it. All of it is taken apart in a child
/// process that has nothing of the outside; out of that come plain facts.
namespace rigdeed::reopen {

/// What its survey says, and what the rules make of it.
struct Said {
    std::string number;
    std::string yacht;
    std::string hin;  ///< may be empty
    Date attended;
    std::string surveyor;
};

/// A photo as the report's pages show it, by its record.
struct PrintedPhoto {
    std::string name;
    Digest original;                   ///< SHA-256 of the photo's file
    int long_side = 0;                 ///< pixels of the picture; 0: it is not printed
    Digest print;                      ///< SHA-256 of the picture
    std::optional<survey::Mark> mark;  ///< the square beside it shows this; none: there is no square
    int wanted = 0;                    ///< pixels across that were enough for it
    Digest detail;                     ///< SHA-256 of the square
};

struct SealedReport {
    std::string file;
    Digest sha256;  ///< of the file
    verify::Verdict verdict;

    // Of an intact report:
    bool follow_up = false;                     ///< it answers a report: what it says is of the works
    std::optional<Said> said;                   ///< none: the survey in it cannot be read by this program
    std::optional<record::Concluded> reported;  ///< by the report; 0.1.0 did not write it down
    std::optional<record::Concluded> judged;    ///< by the rules of this program, from the survey in it
    std::string not_judged;                     ///< why it cannot be; empty if it can
    std::vector<std::string> own_rules;         ///< names of the surveyor's own templates that are rules or words
    std::vector<report::Softened> softened;     ///< what comes off milder by them, in the report's language
    std::optional<record::Replaced> replaces;
    std::vector<record::Work> works;              ///< what its list asks for; of a follow-up, what remains
    std::optional<Date> look_again;               ///< by when what is watched is looked at, by our rules
    std::vector<record::Earlier> since;           ///< the reports that it compares with, oldest first
    std::optional<bool> date_typed;               ///< the date of issue was typed in, else by the clock
    std::vector<verify::RegisteredPhoto> photos;  ///< of the register
    bool has_register = false;                    ///< it could be read
    std::vector<PrintedPhoto> printed;            ///< 0.1.0 did not name its pictures: empty
    bool same_copies = false;                     ///< this program makes the same bytes of the same photo

    [[nodiscard]] std::string_view carried(std::string_view name) const;  ///< empty if there is none of that name
};

struct Opening {
    verify::Trust trust;
    bool compare = true;              ///< make the pages anew
    bool carried_unverified = false;  ///< also what a report carries that is not as issued, or a preview
};

/// Throws Error if the file cannot be read or a certificate of `trust` is none; whatever is in the file is no error.
[[nodiscard]] SealedReport open_report(const std::filesystem::path& file, const Opening& opening);
/// The same of bytes.
[[nodiscard]] SealedReport open_bytes(std::string_view bytes, const Opening& opening);

}  // namespace rigdeed::reopen
