#include <CLI/CLI.hpp>

#include <algorithm>
#include <ctime>
#include <map>
#include <memory>

#include "base/file.hpp"
#include "base/json.hpp"
#include "base/parallel.hpp"
#include "base/text.hpp"
#include "checking/checking.hpp"
#include "command/command.hpp"
#include "command/describe_verdict.hpp"
#include "command/output.hpp"
#include "crypto/digest.hpp"
#include "crypto/revocation.hpp"
#include "reopen/reopen.hpp"

namespace rigdeed::command {
namespace {

constexpr std::uint64_t largest_photo = 1 << 30;

struct VerifyOptions {
    std::vector<std::string> files;
    std::string certificate;
    std::string fingerprint;
    std::string authorities;
    std::string time_authorities;
    std::string revoked;
    std::string photos;
    std::vector<std::string> since;
    bool seal_only = false;
    bool require_content = false;
    bool page = false;
    std::string output;
    bool force = false;
};

/// A list that is over does not say what was revoked since.
std::vector<std::string> lists_that_are_over(const verify::Trust& trust) {
    std::vector<std::string> remarks;
    for (const crypto::RevocationList& list : crypto::read_revocations(trust.revoked, trust.authorities))
        if (list.next && *list.next < std::time(nullptr))
            remarks.push_back("the list of revoked certificates by " + in_quotes(list.issuer) + " is over since " +
                              utc_text(*list.next) + "; fetch the next one");
    return remarks;
}

constexpr std::size_t fewest_digits = 32;  ///< of a fingerprint: 128 bits, which nobody finds a second key for

/// The digits of a beginning of a fingerprint, filled up with zeros; empty if it is none.
std::string filled_up(std::string_view text) {
    std::string digits;
    for (const char c : lower(text))
        if (c != ' ' && c != ':') digits += c;
    constexpr std::size_t all = 64;
    if (digits.size() < fewest_digits || digits.size() > all) return {};
    return digits + std::string(all - digits.size(), '0');
}

verify::Trust read_trust(const VerifyOptions& options) {
    verify::Trust trust;
    if (!options.fingerprint.empty()) {
        trust.fingerprint = crypto::read_fingerprint(filled_up(options.fingerprint));
        if (!trust.fingerprint)
            throw Error("--fingerprint is not a SHA-256 fingerprint", {},
                        "give all 64 hex digits, or the first 32 at least; blanks and colons do not count");
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
    }
    return trust;
}

/// Those that the system would not let us read are in `unreadable`.
std::vector<verify::FolderFile> hashed_files(const Folder& folder, unsigned jobs,
                                             std::vector<std::string>& unreadable) {
    std::vector<verify::FolderFile> files;
    for (const std::string& file : folder.files()) files.push_back({file, {}});
    std::vector<char> failed(files.size(), 0);
    in_parallel(files.size(), jobs, [&](std::size_t i) {
        const Folder::Reading reading = folder.read(files[i].path, largest_photo);
        // What cannot be read has the digest of nothing, and so is nobody's original.
        if (reading.outcome == Folder::Outcome::read) files[i].sha256 = crypto::sha256(reading.bytes);
        failed[i] = reading.outcome == Folder::Outcome::unreadable ? 1 : 0;
    });
    std::vector<verify::FolderFile> readable;
    for (std::size_t i = 0; i < files.size(); ++i) {
        if (failed[i] != 0) unreadable.push_back(files[i].path);
        else readable.push_back(std::move(files[i]));
    }
    return readable;
}

/// The report that another says it replaces, if it is one of those named: by the digest of its file.
std::string file_of(const std::optional<record::Replaced>& replaced, const std::map<Digest, std::string>& files) {
    const auto found = replaced ? files.find(replaced->sha256) : files.end();
    return found == files.end() ? std::string() : found->second;
}

/// Only where there are several: to see which belong together before the first is told.
std::map<Digest, std::string> digests_of(const std::vector<std::string>& files) {
    std::map<Digest, std::string> digests;
    if (files.size() < 2) return digests;
    for (const std::string& file : files) {
        try {
            digests.emplace(crypto::sha256(read_file(file, verify::largest_report)), file);
        } catch (const Error&) {}  // told where it is examined
    }
    return digests;
}

/// Says of each report what there is to say as soon as it is known.
class Verifier {
 public:
    Verifier(const VerifyOptions& options, const Common& common)
        : options_(options), common_(common), terminal_(common.terminal()), digests_(digests_of(options.files)) {
        opening_.trust = read_trust(options);
        if (!opening_.trust.revoked.empty()) remarks_ = lists_that_are_over(opening_.trust);
        for (const std::string& remark : remarks_) terminal_.note("remark: " + remark);
        opening_.compare = !options.seal_only;
        (void)verify::expected_fingerprint(opening_.trust);
        if (options.photos.empty()) return;
        folder_.emplace(options.photos);
        files_ = hashed_files(*folder_, jobs_, unreadable_);
    }

    ExitCode run() {
        json_.begin_array();
        for (const std::string& file : options_.files) {
            try {
                tell(examine(file));
            } catch (const Error& error) {
                terminal_.error(error);
                code_ = worse(code_, error.code);
            }
        }
        json_.end();
        if (common_.json) terminal_.raw_result(json_.taken() + "\n");
        return code_;
    }

 private:
    VerifiedReport examine(const std::string& file) const {
        VerifiedReport report{
            reopen::open_report(file, opening_for(file)), {}, {}, {}, {}, remarks_, options_.require_content};
        if (report.opened.verdict.intact()) report.earlier = find_earlier(report.opened, options_.since);
        report.replaced_file = file_of(report.opened.replaces, digests_);
        if (!folder_ || !report.opened.verdict.intact()) return report;
        report.photos = verify::compare_photos(report.opened.photos, files_);
        for (verify::PhotoFinding& photo : report.photos->photos)
            if (photo.state == verify::PhotoState::missing &&
                std::find(unreadable_.begin(), unreadable_.end(), photo.file) != unreadable_.end())
                photo.state = verify::PhotoState::unreadable;
        if (!report.opened.has_register) report.photos->fault = "the report's photo register cannot be read";
        else report.copies = compare_copies(report.opened);
        return report;
    }

    /// Where only the beginning of the fingerprint was given, that of the signer is the one expected if it begins so.
    reopen::Opening opening_for(const std::string& file) const {
        std::string digits;
        for (const char c : lower(options_.fingerprint))
            if (c != ' ' && c != ':') digits += c;
        reopen::Opening opening = opening_;
        if (digits.empty() || digits.size() == 64) return opening;
        opening.compare = false;
        const reopen::SealedReport seen = reopen::open_report(file, opening);
        opening.compare = opening_.compare;
        if (seen.verdict.signer && seen.verdict.signer->fingerprint.hex().starts_with(digits))
            opening.trust.fingerprint = seen.verdict.signer->fingerprint;
        return opening;
    }

    std::vector<reopen::CopyFinding> compare_copies(const reopen::SealedReport& report) const {
        const Bytes bytes = read_file(report.file, verify::largest_report);
        if (crypto::sha256(bytes) != report.sha256)
            throw Error("the report changed while it was examined", report.file, "verify it again");
        std::vector<reopen::Original> originals;
        for (const verify::FolderFile& file : files_) originals.push_back({file.sha256, file.path});
        return reopen::compare_copies(report, as_text(bytes), *folder_, originals, jobs_, store_.get());
    }

    void tell(const VerifiedReport& report) {
        code_ = worse(code_, exit_code(report));
        if (common_.json) {
            describe(report, json_);
            terminal_.raw_result(json_.taken());
        } else {
            describe(report, terminal_);
        }
        terminal_.finish();
    }

    const VerifyOptions& options_;
    const Common& common_;
    std::unique_ptr<evidence::CopyStore> store_ = common_.store();
    Terminal terminal_;
    std::map<Digest, std::string> digests_;
    reopen::Opening opening_;
    unsigned jobs_ = common_.threads();
    std::vector<std::string> remarks_;
    std::optional<Folder> folder_;
    std::vector<verify::FolderFile> files_;
    std::vector<std::string> unreadable_;
    ExitCode code_ = ExitCode::done;
    JsonWriter json_;
};

/// The page that does without this program. One of ours may be made anew; it holds nothing of anybody's.
ExitCode write_page(const VerifyOptions& options, const Common& common) {
    const std::filesystem::path path = options.output.empty() ? "check.html" : options.output;
    if (path.has_parent_path() && !std::filesystem::is_directory(path.parent_path()))
        throw Error("there is no such folder", path.parent_path().string(), "make it first, or choose another");
    if (!is_page(path)) refuse_existing(path, options.force);
    write_file(path, checking::compose());
    const Terminal terminal = common.terminal();
    terminal.result(path.string());
    terminal.note("open it in any browser, and give it a report and the signer's fingerprint");
    return ExitCode::done;
}

ExitCode run(const VerifyOptions& options, const Common& common) {
    if (options.page) return write_page(options, common);
    if (options.files.empty()) throw CLI::RequiredError("PDF");
    return Verifier(options, common).run();
}

}  // namespace

void add_verify(CLI::App& app, Common& common, ExitCode& code) {
    auto options = std::make_shared<VerifyOptions>();
    CLI::App* command = app.add_subcommand("verify", "Is a report as issued, and by whom?");
    auto* files = command->add_option("PDF", options->files, "Sealed reports")->type_name("FILE");
    command
        ->add_option("--fingerprint", options->fingerprint,
                     "SHA-256 fingerprint of the expected signer's certificate, or its first 32 digits or more")
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
                     "Folder with the original photos: are they those of the report, by content, whatever their names, "
                     "and do they show what its pictures show?")
        ->type_name("DIR");
    command
        ->add_option("--since", options->since,
                     "The sealed reports of before: are they the very ones that this one compares with?")
        ->type_name("PDF");
    command
        ->add_option("--report", options->since, "The sealed report: is it the very one that this follow-up answers?")
        ->type_name("PDF");
    command->add_flag("--seal-only", options->seal_only,
                      "Quicker: leave it open whether the pages say what the survey in the report says");
    command->add_flag("--require-content", options->require_content,
                      "Exit code 5 where it is left open, because this program cannot make the pages anew");
    auto* page = command->add_flag("--page", options->page,
                                   "Write a page by which any browser checks reports, without this program");
    page->excludes(files);
    command->add_option("-o,--output", options->output, "The page; by default check.html")
        ->type_name("HTML")
        ->needs(page);
    command->add_flag("--force", options->force, "Overwrite a file that is no such page")->needs(page);
    command->callback([options, &common, &code] { code = run(*options, common); });
}

}  // namespace rigdeed::command
