#include "command/issue_wishes.hpp"

#include <CLI/CLI.hpp>

#include "base/error.hpp"
#include "base/http.hpp"
#include "base/text.hpp"
#include "command/options.hpp"
#include "pdf/font_metrics.hpp"

namespace rigdeed::command {
namespace {

void check_timestamp(const IssueWishes& options) {
    if (options.timestamp.empty() && options.timestamp_optional)
        throw Error("--timestamp-optional without --timestamp", {}, "name the server: --timestamp http://…");
    if (options.timestamp.empty() && !options.time_authorities.empty())
        throw Error("--trust-time without --timestamp", {}, "name the server: --timestamp http://…");
    if (!options.timestamp.empty() && options.preview)
        throw Error("an unsigned preview has nothing to timestamp", {}, "leave --timestamp or --preview away");
    if (!options.timestamp.empty()) (void)read_http_url(options.timestamp);
}

void check_replacing(const IssueWishes& options) {
    if (options.replaces.empty() != options.because.empty())
        throw Error("--replaces and --because go together", {}, "say which report is replaced, and why");
    if (!options.replaces.empty() && options.files.size() > 1)
        throw Error("several surveys cannot replace one report", {}, "issue them one by one");
    if (!options.since.empty() && options.files.size() > 1)
        throw Error("several surveys cannot be compared with the same reports", {}, "issue them one by one");
    if (options.because.size() > 300 || options.because != squeezed(options.because) || !decode_utf8(options.because) ||
        !pdf::font_metrics()->missing(options.because).empty())
        throw Error("--because is not one line of text that can be printed, of at most 300 bytes");
}

}  // namespace

void check_wishes(const IssueWishes& options) {
    check_replacing(options);
    check_timestamp(options);
}

void add_options(CLI::App& command, IssueWishes& options) {
    command.add_option("SURVEY", options.files, "Survey files, or works files")->required()->type_name("FILE");
    command.add_option("-o,--output", options.output, "The report to write, or a folder for it")
        ->required()
        ->type_name("PDF|DIR");
    command.add_option("--signer", options.signer, "Signing identity (PKCS#12, or PEM with key and certificate)")
        ->type_name("FILE");
    command
        .add_option("--passphrase-file", options.passphrase_file,
                    "File whose first line is the passphrase; else RIGDEED_PASSPHRASE, else a prompt")
        ->type_name("FILE");
    command.add_option("--issued-on", options.issued_on, "Date of issue; by default today, or SOURCE_DATE_EPOCH")
        ->type_name("YYYY-MM-DD");
    add_paper(command, options.paper, "report");
    add_language(command, options.language, "report");
    command
        .add_option("--mail-size", options.mail_size,
                    "Largest size of the report; photos of no sign give way, those of signs never")
        ->type_name("15MB");
    command.add_option("--replaces", options.replaces, "The sealed report that this one takes the place of")
        ->type_name("PDF");
    command
        .add_option("--replaced-signer", options.replaced_signer,
                    "SHA-256 fingerprint of the signer of that report, if it is another than this one's")
        ->type_name("HEX");
    command.add_option("--because", options.because, "Why it does")->type_name("TEXT");
    auto* since = command
                      .add_option("--since", options.since,
                                  "Sealed reports of this rig from before: what has changed goes into the report")
                      ->type_name("PDF");
    command.add_flag("--other-yacht", options.other_yacht, "Compare although hull number or name differ")->needs(since);
    command
        .add_option("--timestamp", options.timestamp, "Server of an authority whose timestamp the seal gets (RFC 3161)")
        ->type_name("http://…");
    command
        .add_option("--trust-time", options.time_authorities,
                    "Certificates (PEM) of the authorities that may give it; by another the report is not issued")
        ->type_name("FILE");
    command.add_flag("--timestamp-optional", options.timestamp_optional,
                     "Without an answer from it, issue all the same");
    command.add_flag("--force", options.force, "Overwrite a file of that name, unless it is a sealed report");
    command.add_flag("--on-behalf", options.on_behalf,
                     "The certificate is of another than the surveyor, who seals on his behalf");
    command.add_flag("--with-gaps", options.with_gaps,
                     "Issue an incomplete survey all the same, marked so on every page");
    command.add_flag("--preview", options.preview, "An unsigned look, marked PREVIEW on every page");
}

}  // namespace rigdeed::command
