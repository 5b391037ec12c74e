#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.hpp"
#include "base/error.hpp"
#include "crypto/certificate.hpp"
#include "crypto/timestamp.hpp"

/// Reads a sealed report anew, knowing nothing of the code that wrote it, and accepts only the one form reports have.
namespace rigdeed::verify {

inline constexpr std::uint64_t largest_report = std::uint64_t{1} << 30;  ///< bytes; nothing larger is one

/// Whose seal is expected. With neither given, a report can be intact, but its signer stays unknown.
struct Trust {
    std::optional<Digest> fingerprint;  ///< SHA-256 of the signer's certificate
    std::string certificate;            ///< or the certificate itself, PEM or DER bytes
    std::string authorities;            ///< or who vouches for it: certificates in PEM
    std::string time_authorities;       ///< who vouches for its timestamp: the same, and these, in PEM
    std::string revoked;                ///< what authorities took back: lists of revoked certificates, PEM or DER
};

/// One rule that a report must keep; the list of them stands in verify.cpp.
struct Check {
    int number = 0;
    std::string name;
    bool passed = false;
    std::string what;  ///< what was found, one sentence without a full stop; empty if passed
};

enum class Outcome {
    not_examined,    ///< reading it came to no end, or brought the reader down: nothing is known of it
    not_as_issued,   ///< altered, forged, damaged, or not one of ours
    signer_unknown,  ///< intact, but not shown to be by the expected signer
    as_issued,       ///< intact, and sealed by the expected signer
};

/// What became of a file that is not as issued, as far as can be told.
enum class Reason {
    none,
    empty,
    not_a_pdf,
    not_a_report,     ///< a PDF, but not one of ours
    line_ends,        ///< converted in transport
    text_conversion,  ///< treated as text in transport
    cut_short,
    bytes_before,
    bytes_appended,
    unsigned_preview,
    changed_inside,
    timestamp_changed,    ///< it has a timestamp and was sealed to have none, or the other way round
    content_differs,      ///< sealed so, but its pages do not say what its survey says
    not_examined,         ///< reading it came to no end
    certificate_expired,  ///< intact, but the certificate had expired when it was sealed
    not_vouched_for,      ///< intact, but no authority named vouches for the signer
    other_signer,         ///< intact, by another than expected
    signer_not_named,     ///< intact, none was expected
};
inline constexpr Reason last_reason = Reason::signer_not_named;

/// A file carried inside the report.
struct CarriedFile {
    std::string name;
    Bytes bytes;
};

/// What the report says of itself; claims, worth what the seal is worth.
struct Claims {
    std::string title;
    std::string author;
    std::string subject;
    std::string signer;  ///< as the signature names it; CertificateFacts has the name that counts
    std::string reason;
    std::string location;
    std::optional<std::int64_t> sealed_at;  ///< seconds since 1970-01-01 UTC
    std::size_t pages = 0;
};

/// What a seal is made of, and where: enough for whoever has the file to see for himself that it holds.
struct SealParts {
    std::size_t hole_begin = 0;  ///< of "<"
    std::size_t hole_end = 0;    ///< after ">"
    Bytes signature;
    Bytes token;  ///< of its timestamp; may be empty
};

/// Whether a report's pages are those that its own survey makes.
enum class Content { not_compared, agrees, differs };

struct Verdict {
    Outcome outcome = Outcome::not_as_issued;
    Reason reason = Reason::changed_inside;
    std::string summary;                             ///< the reason in plain words
    std::vector<Check> checks;                       ///< in order, up to and with the first that failed
    std::optional<crypto::CertificateFacts> signer;  ///< as far as it could be read
    std::vector<crypto::CertificateFacts>
        chain;                        ///< from the signer's issuer upwards; whoever they say, until vouched for
    bool signer_vouched_for = false;  ///< by an authority named in Trust
    std::optional<SealParts> seal;    ///< of an intact report
    std::optional<crypto::Timestamp> timestamp;  ///< of the seal; its authority is whoever it says, until vouched for
    std::string timestamp_remark;                ///< what is odd about its time; empty if nothing is
    bool timestamp_vouched_for = false;          ///< by an authority named in Trust
    bool certificate_valid_then = false;         ///< at the time of a timestamp vouched for, else the claimed
    Claims claims;
    Content content = Content::not_compared;
    std::string content_remark;      ///< why they were not compared, if it was tried
    std::vector<CarriedFile> files;  ///< only of an intact report
    /// The same: what stands in its pictures, within the file that was examined. It stays in the process that did.
    std::vector<std::string_view> pictures;

    [[nodiscard]] bool intact() const { return outcome >= Outcome::signer_unknown; }
    [[nodiscard]] ExitCode exit_code() const;
};

class Sums;

/// Never throws on hostile bytes. A certificate in `trust` that cannot be read throws Error. `sums` of the file, if
/// they are there already.
[[nodiscard]] Verdict verify(std::string_view file, const Trust& trust, const Sums* sums = nullptr);

/// The fingerprint that `trust` asks for, if it does. Throws Error if a certificate in it cannot be read.
[[nodiscard]] std::optional<Digest> expected_fingerprint(const Trust& trust);

/// The files carried in a report, whoever sealed it and also in an unsigned preview; none if it cannot be read.
[[nodiscard]] std::vector<CarriedFile> embedded_files(std::string_view file);

}  // namespace rigdeed::verify
