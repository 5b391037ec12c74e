#include <CLI/CLI.hpp>

#include <memory>

#include "base/date.hpp"
#include "base/file.hpp"
#include "base/json.hpp"
#include "command/command.hpp"
#include "command/describe_verdict.hpp"
#include "command/options.hpp"
#include "command/output.hpp"
#include "crypto/signer.hpp"

namespace rigdeed::command {
namespace {

struct SignerOptions {
    std::string file;
    std::string certificate;
    std::string passphrase_file;
    std::string curve;
    crypto::NewSigner wanted;
};

/// What is written must not cost an identity, a passphrase, or whatever else is there.
void check_outputs(const SignerOptions& options) {
    if (options.certificate.empty()) return;
    refuse_source(options.certificate, {options.file, options.passphrase_file}, "the certificate");
    refuse_any_existing(options.certificate);
}

void show(const crypto::Signer& signer, const SignerOptions& options, const Common& common) {
    const Terminal terminal = common.terminal();
    const crypto::CertificateFacts& facts = signer.certificate();
    const std::string from = local_from_seconds(facts.not_before).date.iso();
    const std::string until = local_from_seconds(facts.not_after).date.iso();
    if (!options.certificate.empty()) write_file(options.certificate, facts.pem());
    if (common.json) {
        JsonWriter json;
        json.begin_object()
            .field("file", options.file)
            .field("name", facts.name)
            .field("organisation", facts.organisation);
        json.field("valid-from", from).field("valid-until", until).field("fingerprint", facts.fingerprint.hex());
        json.key("chain").begin_array();
        for (const crypto::CertificateFacts& one : signer.chain())
            json.begin_object().field("name", one.name).field("fingerprint", one.fingerprint.hex()).end();
        json.end().end();
        return terminal.raw_result(json.text());
    }
    terminal.result("signer      " + facts.name + (facts.organisation.empty() ? "" : ", " + facts.organisation));
    terminal.result("valid       " + from + " to " + until);
    if (!signer.chain().empty()) terminal.result("by          " + chain_text(signer.chain()));
    terminal.result("fingerprint " + facts.fingerprint.hex());
    terminal.result("            " + facts.fingerprint.grouped());
}

void make(SignerOptions& options, const Common& common) {
    refuse_source(options.file, {options.passphrase_file}, "the signing identity");
    refuse_any_existing(options.file);
    check_outputs(options);
    if (options.curve == "p256") options.wanted.key = crypto::NewKey::p256;
    options.wanted.valid_from = issue_moment({});
    const std::string passphrase =
        read_passphrase(options.passphrase_file, "new passphrase for " + options.file + ": ", true);
    const Bytes bytes = crypto::make_signer(options.wanted, passphrase);
    write_file(options.file, as_text(bytes), Readers::owner);
    show(crypto::load_signer(as_text(bytes), passphrase), options, common);
    common.terminal().note("keep " + options.file +
                           " and its passphrase; give the fingerprint to clients by letter or letterhead");
}

void show_file(const SignerOptions& options, const Common& common) {
    check_outputs(options);
    const Bytes bytes = read_file(options.file, largest_signer);
    show(crypto::load_signer(as_text(bytes),
                             read_passphrase(options.passphrase_file, "passphrase of " + options.file + ": ", false)),
         options, common);
}

}  // namespace

void add_signer(CLI::App& app, Common& common, ExitCode&) {
    auto options = std::make_shared<SignerOptions>();
    CLI::App* command = app.add_subcommand("signer", "Make or show a signing identity");
    command->require_subcommand(1);
    const auto shared = [&](CLI::App* one) {
        one->add_option("FILE", options->file, "Signing identity (PKCS#12, or PEM with key and certificate)")
            ->required()
            ->type_name("FILE");
        one->add_option("--passphrase-file", options->passphrase_file,
                        "File whose first line is the passphrase; else RIGDEED_PASSPHRASE, else a prompt")
            ->type_name("FILE");
        one->add_option("--certificate", options->certificate, "Write the certificate here (PEM), to hand to clients")
            ->type_name("FILE");
    };
    CLI::App* fresh = command->add_subcommand("new", "Make one");
    shared(fresh);
    fresh->add_option("--name", options->wanted.name, "Name of the surveyor")->required();
    fresh->add_option("--firm", options->wanted.organisation, "Firm");
    fresh->add_option("--country", options->wanted.country, "Two letters (ISO 3166)");
    fresh->add_option("--years", options->wanted.valid_years, "Years of validity")->check(CLI::Range(1, 30));
    fresh->add_option("--curve", options->curve, "p256: a key on that curve; by default RSA of 3072 bits")
        ->check(CLI::IsMember({"p256"}));
    fresh->callback([options, &common] { make(*options, common); });
    CLI::App* known = command->add_subcommand("show", "Show one");
    shared(known);
    known->callback([options, &common] { show_file(*options, common); });
}

}  // namespace rigdeed::command
