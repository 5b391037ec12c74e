#include "command/describe_verdict.hpp"

#include <ctime>

#include "base/date.hpp"
#include "base/text.hpp"
#include "command/command.hpp"

namespace rigdeed::command {
namespace {

using verify::PhotoState;
using verify::Verdict;

// Names and titles are whatever somebody put into a file: nothing in them may steer the terminal.
std::string harmless(const std::string& text) {
    const std::string quoted = in_quotes(text);
    return quoted == "\"" + text + "\"" ? text : quoted;
}

std::string sealed_text(const Verdict& verdict) {
    if (!verdict.claims.sealed_at) return "at no stated time";
    return utc_text(*verdict.claims.sealed_at) + " by the signer's clock";
}

std::string timestamp_text(const Verdict& verdict) {
    return "timestamp: sealed before " + utc_text(verdict.timestamp->at) + ", by the word of " +
           in_quotes(verdict.timestamp->authority.name) +
           (verdict.timestamp_vouched_for ? ", for which an authority named vouches"
                                          : "; no authority named with --trust-time vouches for it");
}

// What the timestamp is good for, once the signer's certificate or the timestamp authority's own is over.
void describe_expiry(const Verdict& verdict, const Terminal& terminal) {
    const std::int64_t now = std::time(nullptr);
    const crypto::CertificateFacts& signer = *verdict.signer;
    if (now > signer.not_after && verdict.certificate_valid_then) {
        const std::string expired = "the signer's certificate expired on " + utc_text(signer.not_after);
        if (verdict.timestamp_vouched_for)
            terminal.result("  " + expired + "; the seal is still good: the timestamp shows that it is older");
        else
            terminal.result("  remark: " + expired + "; that the seal is older only the signer's clock says" +
                            (verdict.timestamp ? ", and a timestamp that is not vouched for" : ""));
    }
    if (verdict.timestamp_vouched_for && now > verdict.timestamp->authority.not_after)
        terminal.result("  remark: the timestamp authority's own certificate expired on " +
                        utc_text(verdict.timestamp->authority.not_after));
    if (!verdict.certificate_valid_then)
        terminal.result("  remark: at that time the signer's certificate was not valid");
}

std::string headline(const Verdict& verdict) {
    const std::string name = verdict.signer ? verdict.signer->name : std::string("nobody");
    switch (verdict.outcome) {
        case verify::Outcome::as_issued: return "as issued by " + harmless(name);
        case verify::Outcome::signer_unknown:
            return "intact, sealed by " + in_quotes(name) + "; that it is really theirs is not shown";
        case verify::Outcome::not_as_issued: return "NOT AS ISSUED";
    }
    return {};
}

void describe_intact(const Verdict& verdict, const Terminal& terminal) {
    terminal.result("  " + harmless(verdict.claims.title) + ", " + counted(verdict.claims.pages, "page") + ", " +
                    std::to_string(verdict.checks.size()) + " checks");
    terminal.result("  sealed " + sealed_text(verdict));
    if (verdict.timestamp) terminal.result("  " + timestamp_text(verdict));
    if (!verdict.chain.empty())
        terminal.result("  the signer's certificate is by " + chain_text(verdict.chain) +
                        (verdict.signer_vouched_for ? ", for which an authority named vouches"
                                                    : "; no authority named with --trust vouches for it"));
    describe_expiry(verdict, terminal);
    terminal.result("  fingerprint " + verdict.signer->fingerprint.hex());
    if (verdict.content == verify::Content::agrees) terminal.result("  its pages say what the survey in it says");
    if (!verdict.content_remark.empty())
        terminal.result("  remark: its pages were not made anew: " + verdict.content_remark);
    if (!verdict.signer->may_sign) terminal.result("  remark: the signer's certificate is not for signatures");
    if (verdict.outcome == verify::Outcome::signer_unknown)
        terminal.result(
            "  ask the surveyor for the fingerprint, by another way than the one that brought the report, and give it "
            "with --fingerprint");
}

const char* name_of(PhotoState state) {
    switch (state) {
        case PhotoState::found: return "found";
        case PhotoState::missing: return "missing";
        case PhotoState::altered: return "altered";
        case PhotoState::never_had: return "never-had";
    }
    return "";
}

const char* name_of(verify::Content content) {
    switch (content) {
        case verify::Content::not_compared: return "not-compared";
        case verify::Content::agrees: return "agrees";
        case verify::Content::differs: return "differs";
    }
    return "";
}

std::string words_for(const verify::PhotoFinding& photo) {
    switch (photo.state) {
        case PhotoState::found:
            return photo.found_as == photo.file ? std::string()
                                                : harmless(photo.file) + ": found as " + harmless(photo.found_as);
        case PhotoState::missing: return harmless(photo.file) + ": MISSING";
        case PhotoState::altered: return harmless(photo.file) + ": ALTERED, its content is not what was reported";
        case PhotoState::never_had: return harmless(photo.file) + ": the report was issued without it";
    }
    return {};
}

void describe(const verify::PhotosFinding& photos, const Terminal& terminal) {
    using Emphasis = Terminal::Emphasis;
    if (!photos.fault.empty()) return terminal.result("  " + terminal.emphasised(photos.fault, Emphasis::bad));
    std::string sum = "photos: " + std::to_string(photos.count(PhotoState::found)) + " of " +
                      std::to_string(photos.photos.size() - photos.count(PhotoState::never_had)) + " are the originals";
    if (const std::size_t altered = photos.count(PhotoState::altered); altered > 0)
        sum += ", " + std::to_string(altered) + " altered";
    if (const std::size_t missing = photos.count(PhotoState::missing); missing > 0)
        sum += ", " + std::to_string(missing) + " missing";
    terminal.result("  " + terminal.emphasised(sum, photos.all_found() ? Emphasis::good : Emphasis::bad));
    for (const verify::PhotoFinding& photo : photos.photos)
        if (const std::string words = words_for(photo); !words.empty()) terminal.result("    " + words);
    for (const std::string& file : photos.unknown)
        terminal.result("    " + harmless(file) + ": not in the report's register");
}

void describe(const verify::PhotosFinding& photos, JsonWriter& json) {
    json.begin_object().field("all-found", photos.all_found()).field("fault", photos.fault);
    json.key("photos").begin_array();
    for (const verify::PhotoFinding& photo : photos.photos)
        json.begin_object()
            .field("file", photo.file)
            .field("state", name_of(photo.state))
            .field("found-as", photo.found_as)
            .end();
    json.end().key("unknown").begin_array();
    for (const std::string& file : photos.unknown) json.value(file);
    json.end().end();
}

void describe(const Verdict& verdict, const crypto::CertificateFacts& signer, JsonWriter& json) {
    json.begin_object()
        .field("name", signer.name)
        .field("organisation", signer.organisation)
        .field("fingerprint", signer.fingerprint.hex())
        .field("valid-then", verdict.certificate_valid_then)
        .field("valid-until", signer.not_after)
        .field("may-sign", signer.may_sign)
        .field("vouched-for", verdict.signer_vouched_for)
        .key("chain")
        .begin_array();
    for (const crypto::CertificateFacts& one : verdict.chain)
        json.begin_object().field("name", one.name).field("fingerprint", one.fingerprint.hex()).end();
    json.end().end();
}

void describe(const crypto::Timestamp& timestamp, bool vouched_for, JsonWriter& json) {
    json.begin_object()
        .field("at", timestamp.at)
        .field("authority", timestamp.authority.name)
        .field("organisation", timestamp.authority.organisation)
        .field("fingerprint", timestamp.authority.fingerprint.hex())
        .field("vouched-for", vouched_for)
        .end();
}

void describe_replaced(const VerifiedReport& report, const Terminal& terminal) {
    const record::Replaced& old = *report.replaces;
    terminal.result("  replaces survey " + harmless(old.number) + ", issued on " + old.issued.text() + ", SHA-256 " +
                    old.sha256.hex() + ": " + harmless(old.because));
    if (!report.replaced_file.empty()) terminal.result("    that is " + report.replaced_file + ", byte for byte");
}

void describe_replaced(const VerifiedReport& report, JsonWriter& json) {
    const record::Replaced& old = *report.replaces;
    json.begin_object()
        .field("number", old.number)
        .field("issued", old.issued.iso())
        .field("sha256", old.sha256.hex())
        .field("because", old.because)
        .field("file", report.replaced_file)
        .end();
}

}  // namespace

std::string utc_text(std::int64_t seconds) {
    const LocalTime when = local_from_seconds(seconds);
    return when.date.text() + ", " + when.time.hh_mm() + " UTC";
}

std::string chain_text(const std::vector<crypto::CertificateFacts>& chain) {
    std::vector<std::string> names;
    for (const crypto::CertificateFacts& one : chain) names.push_back(in_quotes(one.name));
    return join(names, ", by ");
}

ExitCode exit_code(const VerifiedReport& report) {
    const ExitCode code = report.verdict.exit_code();
    return report.photos && !report.photos->all_found() ? worse(code, ExitCode::not_as_issued) : code;
}

void describe(const VerifiedReport& report, const Terminal& terminal) {
    using Emphasis = Terminal::Emphasis;
    const Verdict& verdict = report.verdict;
    const auto emphasis = verdict.outcome == verify::Outcome::as_issued ? Emphasis::good
                          : verdict.intact()                            ? Emphasis::strong
                                                                        : Emphasis::bad;
    terminal.result(report.file + ": " + terminal.emphasised(headline(verdict), emphasis));
    if (!verdict.summary.empty()) terminal.result("  " + verdict.summary);
    for (const verify::Check& check : verdict.checks)
        if (!check.passed && !verdict.intact())
            terminal.result("  check " + std::to_string(check.number) + ", " + check.name + ": " + check.what);
    if (verdict.intact()) describe_intact(verdict, terminal);
    if (report.replaces) describe_replaced(report, terminal);
    if (report.photos) describe(*report.photos, terminal);
}

void describe(const VerifiedReport& report, JsonWriter& json) {
    const Verdict& verdict = report.verdict;
    json.begin_object()
        .field("file", report.file)
        .field("exit-code", static_cast<int>(exit_code(report)))
        .field("intact", verdict.intact());
    json.field("as-issued", verdict.outcome == verify::Outcome::as_issued).field("summary", verdict.summary);
    json.key("signer");
    if (verdict.signer) describe(verdict, *verdict.signer, json);
    else json.null();
    json.field("title", verdict.claims.title);
    json.key("sealed-at");
    if (verdict.claims.sealed_at) json.value(*verdict.claims.sealed_at);
    else json.null();
    json.key("timestamp");
    if (verdict.timestamp) describe(*verdict.timestamp, verdict.timestamp_vouched_for, json);
    else json.null();
    json.key("content").begin_object().field("state", name_of(verdict.content));
    json.field("remark", verdict.content_remark).end();
    json.key("checks").begin_array();
    for (const verify::Check& check : verdict.checks)
        json.begin_object()
            .field("number", check.number)
            .field("name", check.name)
            .field("passed", check.passed)
            .field("what", check.what)
            .end();
    json.end().key("replaces");
    if (report.replaces) describe_replaced(report, json);
    else json.null();
    json.key("photos");
    if (report.photos) describe(*report.photos, json);
    else json.null();
    json.end();
}

}  // namespace rigdeed::command
