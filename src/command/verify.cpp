#include <CLI/CLI.hpp>

#include <memory>

#include "base/date.hpp"
#include "base/file.hpp"
#include "base/json.hpp"
#include "base/text.hpp"
#include "command/command.hpp"
#include "verify/verify.hpp"

namespace rigdeed::command {
namespace {

constexpr std::uint64_t largest_report = 2'000'000'000;

struct VerifyOptions {
    std::vector<std::string> files;
    std::string certificate;
    std::string fingerprint;
};

verify::Trust read_trust(const VerifyOptions& options) {
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
    return trust;
}

std::string sealed_text(const verify::Verdict& verdict) {
    if (!verdict.claims.sealed_at) return "at no stated time";
    const LocalTime when = local_from_seconds(*verdict.claims.sealed_at);
    return when.date.text() + ", " + when.time.hh_mm() + " UTC by the signer's clock";
}

std::string headline(const verify::Verdict& verdict) {
    const std::string name = verdict.signer ? verdict.signer->name : std::string("nobody");
    switch (verdict.outcome) {
        case verify::Outcome::as_issued: return "as issued by " + name;
        case verify::Outcome::signer_unknown:
            return "intact, sealed by " + in_quotes(name) + "; that it is really theirs is not shown";
        case verify::Outcome::not_as_issued: return "NOT AS ISSUED";
    }
    return {};
}

void describe(const std::string& file, const verify::Verdict& verdict, const Terminal& terminal) {
    using Emphasis = Terminal::Emphasis;
    const auto emphasis = verdict.outcome == verify::Outcome::as_issued ? Emphasis::good
                          : verdict.intact()                            ? Emphasis::strong
                                                                        : Emphasis::bad;
    terminal.result(file + ": " + terminal.emphasised(headline(verdict), emphasis));
    if (!verdict.summary.empty()) terminal.result("  " + verdict.summary);
    for (const verify::Check& check : verdict.checks)
        if (!check.passed && !verdict.intact())
            terminal.result("  check " + std::to_string(check.number) + ", " + check.name + ": " + check.what);
    if (!verdict.intact()) return;
    terminal.result("  " + verdict.claims.title + ", " + counted(verdict.claims.pages, "page") + ", " +
                    std::to_string(verdict.checks.size()) + " checks");
    terminal.result("  sealed " + sealed_text(verdict));
    terminal.result("  fingerprint " + verdict.signer->fingerprint.hex());
    if (!verdict.certificate_valid_then)
        terminal.result("  remark: at that time the signer's certificate was not valid");
    if (verdict.outcome == verify::Outcome::signer_unknown)
        terminal.result(
            "  ask the surveyor for the fingerprint, by another way than the one that brought the report, and give it "
            "with --fingerprint");
}

void describe(const std::string& file, const verify::Verdict& verdict, JsonWriter& json) {
    json.begin_object()
        .field("file", file)
        .field("exit-code", static_cast<int>(verdict.exit_code()))
        .field("intact", verdict.intact());
    json.field("as-issued", verdict.outcome == verify::Outcome::as_issued).field("summary", verdict.summary);
    json.key("signer");
    if (verdict.signer)
        json.begin_object()
            .field("name", verdict.signer->name)
            .field("organisation", verdict.signer->organisation)
            .field("fingerprint", verdict.signer->fingerprint.hex())
            .field("valid-then", verdict.certificate_valid_then)
            .end();
    else json.null();
    json.field("title", verdict.claims.title);
    json.key("sealed-at");
    if (verdict.claims.sealed_at) json.value(*verdict.claims.sealed_at);
    else json.null();
    json.key("checks").begin_array();
    for (const verify::Check& check : verdict.checks)
        json.begin_object()
            .field("number", check.number)
            .field("name", check.name)
            .field("passed", check.passed)
            .field("what", check.what)
            .end();
    json.end().end();
}

ExitCode verify_all(const VerifyOptions& options, const Common& common) {
    const Terminal terminal = common.terminal();
    const verify::Trust trust = read_trust(options);
    ExitCode code = ExitCode::done;
    JsonWriter json;
    json.begin_array();
    for (const std::string& file : options.files) {
        try {
            const Bytes bytes = read_file(file, largest_report);
            const verify::Verdict verdict = verify::verify(as_text(bytes), trust);
            if (common.json) describe(file, verdict, json);
            else describe(file, verdict, terminal);
            code = worse(code, verdict.exit_code());
        } catch (const Error& error) {
            terminal.error(error);
            code = worse(code, error.code);
        }
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
    command->callback([options, &common, &code] { code = verify_all(*options, common); });
}

}  // namespace rigdeed::command
