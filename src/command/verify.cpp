#include <CLI/CLI.hpp>

#include <ctime>
#include <map>
#include <memory>

#include "base/file.hpp"
#include "base/json.hpp"
#include "base/language.hpp"
#include "base/text.hpp"
#include "command/command.hpp"
#include "command/describe_verdict.hpp"
#include "command/sealed.hpp"
#include "crypto/digest.hpp"
#include "crypto/revocation.hpp"
#include "pipeline.hpp"
#include "verify/apart.hpp"
#include "verify/compare.hpp"

namespace rigdeed::command {
namespace {

constexpr std::uint64_t largest_report = 2'000'000'000;
constexpr std::uint64_t largest_photo = 1 << 30;

struct VerifyOptions {
    std::vector<std::string> files;
    std::string certificate;
    std::string fingerprint;
    std::string authorities;
    std::string time_authorities;
    std::string revoked;
    std::string photos;
    bool seal_only = false;
};

/// A list that is over does not say what was revoked since.
void note_lists_that_are_over(const verify::Trust& trust, const Terminal& terminal) {
    for (const crypto::RevocationList& list : crypto::read_revocations(trust.revoked, trust.authorities))
        if (list.next && *list.next < std::time(nullptr))
            terminal.note("remark: the list of revoked certificates by " + in_quotes(list.issuer) + " is over since " +
                          utc_text(*list.next) + "; fetch the next one");
}

verify::Trust read_trust(const VerifyOptions& options, const Terminal& terminal) {
    verify::Trust trust;
    if (!options.fingerprint.empty()) {
        trust.fingerprint = crypto::read_fingerprint(options.fingerprint);
        if (!trust.fingerprint)
            throw Error("--fingerprint is not a SHA-256 fingerprint", {},
                        "give all 64 hex digits; blanks and colons do not count");
    }
    if (!options.certificate.empty()) {
        const Bytes bytes = read_file(options.certificate, 1024 * 1024);
        trust.certificate = std::string(as_text(bytes));
    }
    if (!options.authorities.empty()) {
        const Bytes bytes = read_file(options.authorities, 1024 * 1024);
        trust.authorities = std::string(as_text(bytes));
    }
    if (!options.time_authorities.empty()) {
        const Bytes bytes = read_file(options.time_authorities, 1024 * 1024);
        trust.time_authorities = std::string(as_text(bytes));
    }
    if (!options.revoked.empty()) {
        if (options.authorities.empty())
            throw Error("--crl without --trust", {}, "name the authority whose list it is: --trust root.pem");
        trust.revoked = std::string(as_text(read_file(options.revoked, 64 << 20)));
        note_lists_that_are_over(trust, terminal);
    }
    return trust;
}

std::vector<verify::FolderFile> hashed_files(const std::string& path) {
    const Folder folder(path);
    std::vector<verify::FolderFile> files;
    for (const std::string& file : folder.files()) {
        const Folder::Reading reading = folder.read(file, largest_photo);
        // What cannot be read has the digest of nothing, and so is nobody's original.
        files.push_back({file, reading.outcome == Folder::Outcome::read ? crypto::sha256(reading.bytes) : Digest{}});
    }
    return files;
}

/// Content against data: the pages are made anew from the survey in the report.
void compare_content(std::string_view bytes, verify::Verdict& verdict, const TradeIn& trade) {
    if (!verdict.claims.sealed_at) return verify::leave_content_open(verdict, "it does not say when it was sealed");
    const MadeAnew anew = make_anew(
        {carried(verdict, "survey.xml"), carried(verdict, "issue.xml"), *verdict.signer, *verdict.claims.sealed_at},
        trade);
    if (!anew.cannot.empty()) return verify::leave_content_open(verdict, anew.cannot);
    verify::judge_content(verdict, verify::first_difference(bytes, anew.pdf));
}

/// Examined apart from everything else of the program, with limits.
VerifiedReport examine(const std::string& file, const VerifyOptions& options, const verify::Trust& trust,
                       const TradeIn& trade) {
    const Bytes bytes = read_file(file, largest_report);
    const auto further = [&](verify::Verdict& verdict) {
        if (options.seal_only) verify::leave_content_open(verdict, "--seal-only was given");
        else compare_content(as_text(bytes), verdict, trade);
    };
    VerifiedReport report{file, verify::verify_apart(as_text(bytes), trust, further), {}, {}, {}, {}};
    if (options.files.size() > 1) report.sha256 = crypto::sha256(bytes);
    if (const auto record = record::read_record(carried(report.verdict, "issue.xml")))
        report.replaces = record->made.replaces;
    return report;
}

void examine_photos(VerifiedReport& report, const std::vector<verify::FolderFile>& folder) {
    report.photos = verify::compare_photos(carried(report.verdict, "photos.xml"), folder);
}

/// Which of the reports is the one that another says it replaces: by the digest of its file.
void link(std::vector<VerifiedReport>& reports) {
    for (VerifiedReport& one : reports)
        for (const VerifiedReport& other : reports)
            if (one.replaces && one.replaces->sha256 == other.sha256) one.replaced_file = other.file;
}

ExitCode verify_all(const VerifyOptions& options, const Common& common) {
    const Terminal terminal = common.terminal();
    const verify::Trust trust = read_trust(options, terminal);
    // All of them now: where reports are examined, no file can be opened.
    std::map<std::string, trade::Trade, std::less<>> trades;
    if (!options.seal_only)
        for (const std::string_view language : languages) trades.emplace(language, common.trade(language));
    const TradeIn trade = [&](const std::string& language) { return trades.at(language); };
    std::optional<std::vector<verify::FolderFile>> folder;
    if (!options.photos.empty()) folder = hashed_files(options.photos);
    ExitCode code = ExitCode::done;
    std::vector<VerifiedReport> reports;
    for (const std::string& file : options.files) {
        try {
            reports.push_back(examine(file, options, trust, trade));
            if (folder && reports.back().verdict.intact()) examine_photos(reports.back(), *folder);
        } catch (const Error& error) {
            terminal.error(error);
            code = worse(code, error.code);
        }
    }
    link(reports);
    JsonWriter json;
    json.begin_array();
    for (const VerifiedReport& report : reports) {
        if (common.json) describe(report, json);
        else describe(report, terminal);
        code = worse(code, exit_code(report));
    }
    json.end();
    if (common.json) terminal.raw_result(json.text());
    return code;
}

}  // namespace

void add_verify(CLI::App& app, Common& common, ExitCode& code) {
    auto options = std::make_shared<VerifyOptions>();
    CLI::App* command = app.add_subcommand("verify", "Is a report as issued, and by whom?");
    command->add_option("PDF", options->files, "Sealed reports")->required()->type_name("FILE");
    command
        ->add_option("--fingerprint", options->fingerprint, "SHA-256 fingerprint of the expected signer's certificate")
        ->type_name("HEX");
    command->add_option("--signer-cert", options->certificate, "The expected signer's certificate (PEM or DER)")
        ->type_name("FILE");
    command
        ->add_option("--trust", options->authorities,
                     "Certificates of authorities (PEM): one of them must vouch for the signer at the time of sealing")
        ->type_name("FILE");
    command
        ->add_option("--trust-time", options->time_authorities,
                     "Certificates of authorities (PEM) that may vouch for its timestamp, beside those of --trust")
        ->type_name("FILE");
    command
        ->add_option("--crl", options->revoked,
                     "Lists of revoked certificates of the authorities of --trust (PEM or DER)")
        ->type_name("FILE");
    command
        ->add_option("--photos", options->photos,
                     "Folder with the original photos: are they those of the report? By content, whatever their names")
        ->type_name("DIR");
    command->add_flag("--seal-only", options->seal_only,
                      "Quicker: leave it open whether the pages say what the survey in the report says");
    command->callback([options, &common, &code] { code = verify_all(*options, common); });
}

}  // namespace rigdeed::command
