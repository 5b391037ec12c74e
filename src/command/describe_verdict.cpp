#include "command/describe_verdict.hpp"

#include <algorithm>
#include <ctime>

#include "base/build.hpp"
#include "base/date.hpp"
#include "base/text.hpp"
#include "command/command.hpp"
#include "trade/load_wording.hpp"

namespace rigdeed::command {
namespace {

using Emphasis = Terminal::Emphasis;
using reopen::CopyState;
using verify::PhotoState;
using verify::Reason;
using verify::Verdict;

// Names and titles are whatever somebody put into a file: nothing in them may steer the terminal.
std::string harmless(const std::string& text) {
    const std::string quoted = in_quotes(text);
    return quoted == "\"" + text + "\"" ? text : quoted;
}

// The same for a sentence of any length: cut is only what is no word.
std::string shown_whole(const std::string& sentence) {
    std::vector<std::string> words = split(sentence, ' ');
    for (std::string& word : words) word = shown(word);
    return join(words, " ");
}

std::string signer_name(const Verdict& verdict) {
    return verdict.signer ? verdict.signer->name : std::string("nobody");
}

// What holds comes after what does not: a forger must not get a good word into the first line.
std::string unknown_signer(const Verdict& verdict) {
    const std::string name = in_quotes(signer_name(verdict));
    switch (verdict.reason) {
        case Reason::other_signer: return "NOT by the signer you named, but by another who calls himself " + name;
        case Reason::certificate_expired:
            return "SIGNER NOT CONFIRMED: the certificate of " + name + " had expired when it was sealed";
        case Reason::not_vouched_for: return "SIGNER NOT CONFIRMED: no authority that you named vouches for " + name;
        default: return "SIGNER NOT CONFIRMED: anyone can make a certificate with this name, " + name;
    }
}

std::string headline(const Verdict& verdict) {
    switch (verdict.outcome) {
        case verify::Outcome::as_issued: return "as issued by " + harmless(signer_name(verdict));
        case verify::Outcome::signer_unknown: return unknown_signer(verdict);
        case verify::Outcome::not_as_issued: return "NOT AS ISSUED";
        case verify::Outcome::not_examined: return "COULD NOT BE EXAMINED";
    }
    return {};
}

std::string sealed_text(const VerifiedReport& report) {
    const auto& typed = report.opened.date_typed;
    return utc_text(*report.opened.verdict.claims.sealed_at) +
           (typed && *typed ? ", a date that was typed in" : " by the signer's clock");
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

// "not to be sailed …; climbing barred; 3 renew, 1 rectify"
std::string concluded_text(const record::Concluded& concluded) {
    static const trade::Wording wording = trade::load_wording();
    const std::string key = "answer." + concluded.answer;
    std::string text = wording.has(key) ? wording(key) : harmless(concluded.answer);
    while (text.ends_with('.')) text.pop_back();
    if (!concluded.complete) text = "incomplete survey; " + text;
    text += concluded.do_not_climb ? "; do not climb" : "";
    std::vector<std::string> counts;
    for (std::size_t i = concluded.verdicts.size(); i-- > 0;)
        if (concluded.verdicts[i] > 0)
            counts.push_back(std::to_string(concluded.verdicts[i]) + " " +
                             survey::name_of(static_cast<survey::Verdict>(i)));
    return counts.empty() ? text : text + " (" + join(counts, ", ") + ")";  // a follow-up with nothing left has none
}

// The report's own answer, and that of the rules of this program.
void describe_answer(const reopen::SealedReport& report, const Terminal& terminal) {
    const std::string ours = "by the rules of rigdeed " + std::string(version());
    if (report.reported)
        terminal.result(std::string(report.follow_up ? "  it says: " : "  the report says: ") +
                        concluded_text(*report.reported));
    if (report.judged && report.reported && *report.judged == *report.reported)
        terminal.result("  " + ours + ": the same");
    else if (report.judged)
        terminal.result("  " + terminal.emphasised(ours + ": " + concluded_text(*report.judged), Emphasis::strong));
    else if (!report.not_judged.empty())
        terminal.result("  " + ours + " it cannot be judged: " + shown(report.not_judged));
}

void describe_rules(const reopen::SealedReport& report, const Terminal& terminal) {
    if (report.own_rules.empty()) return;
    std::vector<std::string> names;
    for (const std::string& name : report.own_rules) names.push_back(harmless(name));
    terminal.result("  " + terminal.emphasised("by rules or words of the surveyor's own", Emphasis::bad) + ": " +
                    join(names, ", "));
    for (const report::Softened& one : report.softened)
        terminal.result("    milder than by the program's: " + harmless(one.fitting) + ", " +
                        survey::name_of(one.by_own) + " for " + survey::name_of(one.by_program) +
                        (one.bar_lifted ? ", no bar to climbing" : ""));
}

void describe_survey(const reopen::SealedReport& report, const Terminal& terminal) {
    if (!report.said) return terminal.result("  " + harmless(report.verdict.claims.title));
    const reopen::Said& said = *report.said;
    if (report.follow_up) {
        terminal.result("  works " + harmless(said.number) + " on " + harmless(said.yacht) +
                        (said.hin.empty() ? "" : ", " + harmless(said.hin)) + ", the last on " + said.attended.text() +
                        ", " + counted(report.verdict.claims.pages, "page"));
        if (said.surveyor != signer_name(report.verdict))
            terminal.result("  remark: the works are by " + in_quotes(said.surveyor) + ", the certificate is of " +
                            in_quotes(signer_name(report.verdict)));
        return;
    }
    terminal.result("  survey " + harmless(said.number) + " of " + harmless(said.yacht) +
                    (said.hin.empty() ? "" : ", " + harmless(said.hin)) + ", attended on " + said.attended.text() +
                    ", " + counted(report.verdict.claims.pages, "page"));
    if (said.surveyor != signer_name(report.verdict))
        terminal.result("  remark: the cover names " + in_quotes(said.surveyor) + ", the certificate " +
                        in_quotes(signer_name(report.verdict)));
}

void describe_content(const Verdict& verdict, const Terminal& terminal) {
    if (verdict.content == verify::Content::agrees) terminal.result("  its pages say what the survey in it says");
    if (!verdict.content_remark.empty())
        terminal.result("  remark: its pages were not made anew: " + verdict.content_remark);
}

void describe_signer(const Verdict& verdict, const Terminal& terminal) {
    if (!verdict.chain.empty())
        terminal.result("  the signer's certificate is by " + chain_text(verdict.chain) +
                        (verdict.signer_vouched_for ? ", for which an authority named vouches"
                                                    : "; no authority named with --trust vouches for it"));
    else if (verdict.signer_vouched_for) terminal.result("  an authority named vouches for the signer's certificate");
    describe_expiry(verdict, terminal);
    terminal.result("  fingerprint " + verdict.signer->fingerprint.hex());
    if (!verdict.signer->may_sign) terminal.result("  remark: the signer's certificate is not for signatures");
}

void describe_intact(const VerifiedReport& report, const Terminal& terminal) {
    const Verdict& verdict = report.opened.verdict;
    describe_rules(report.opened, terminal);
    describe_survey(report.opened, terminal);
    describe_answer(report.opened, terminal);
    terminal.result("  sealed " + sealed_text(report) + "; unchanged since, " + std::to_string(verdict.checks.size()) +
                    " checks");
    if (verdict.timestamp) terminal.result("  " + timestamp_text(verdict));
    if (!verdict.timestamp_remark.empty()) terminal.result("  remark: of the timestamp, " + verdict.timestamp_remark);
    describe_signer(verdict, terminal);
    describe_content(verdict, terminal);
    if (verdict.outcome == verify::Outcome::signer_unknown)
        terminal.result(
            "  ask the surveyor for the fingerprint, by another way than the one that brought the report, and give it "
            "with --fingerprint");
}

std::string words_for(const verify::PhotoFinding& photo) {
    switch (photo.state) {
        case PhotoState::found:
            return photo.found_as == photo.file ? std::string()
                                                : harmless(photo.file) + ": found as " + harmless(photo.found_as);
        case PhotoState::missing: return harmless(photo.file) + ": MISSING";
        case PhotoState::altered: return harmless(photo.file) + ": ALTERED, its content is not what was reported";
        case PhotoState::unreadable: return harmless(photo.file) + ": COULD NOT BE READ, by the system's word";
        case PhotoState::never_had: return harmless(photo.file) + ": the report was issued without it";
    }
    return {};
}

void describe(const verify::PhotosFinding& photos, const Terminal& terminal) {
    if (!photos.fault.empty()) return terminal.result("  " + terminal.emphasised(photos.fault, Emphasis::bad));
    std::string sum = "photos: " + std::to_string(photos.count(PhotoState::found)) + " of " +
                      std::to_string(photos.photos.size() - photos.count(PhotoState::never_had)) + " are the originals";
    if (const std::size_t altered = photos.count(PhotoState::altered); altered > 0)
        sum += ", " + std::to_string(altered) + " altered";
    if (const std::size_t missing = photos.count(PhotoState::missing); missing > 0)
        sum += ", " + std::to_string(missing) + " missing";
    if (const std::size_t unreadable = photos.count(PhotoState::unreadable); unreadable > 0)
        sum += ", " + std::to_string(unreadable) + " not readable";
    terminal.result("  " + terminal.emphasised(sum, photos.all_found() ? Emphasis::good : Emphasis::bad));
    for (const verify::PhotoFinding& photo : photos.photos)
        if (const std::string words = words_for(photo); !words.empty()) terminal.result("    " + words);
    for (const std::string& file : photos.unknown)
        terminal.result("    " + harmless(file) + ": not in the report's register");
}

// What the report shows of the originals.
void describe_copies(const std::vector<reopen::CopyFinding>& copies, const Terminal& terminal) {
    const auto count = [&](CopyState state) {
        return static_cast<std::size_t>(
            std::count_if(copies.begin(), copies.end(), [&](const auto& copy) { return copy.state == state; }));
    };
    if (copies.empty()) return;
    std::string sum = "pictures: " + std::to_string(count(CopyState::same) + count(CopyState::alike)) + " of " +
                      std::to_string(copies.size()) + " show what their originals show";
    if (const std::size_t alike = count(CopyState::alike); alike > 0)
        sum += ", " + std::to_string(alike) + " of them within the tolerance of another version's making";
    const std::size_t differing = count(CopyState::differs);
    if (differing > 0) sum += ", " + std::to_string(differing) + " DIFFER";
    terminal.result("  " + terminal.emphasised(sum, differing > 0 ? Emphasis::bad : Emphasis::good));
    for (const reopen::CopyFinding& copy : copies) {
        if (copy.state == CopyState::differs)
            terminal.result("    " + harmless(copy.photo) +
                            ": its picture in the report is NOT WHAT THE ORIGINAL SHOWS");
        if (copy.state == CopyState::not_compared)
            terminal.result("    " + harmless(copy.photo) + ": not compared, " + harmless(copy.remark));
    }
}

void describe_replaced(const VerifiedReport& report, const Terminal& terminal) {
    const record::Replaced& old = *report.opened.replaces;
    terminal.result("  replaces survey " + harmless(old.number) + ", issued on " + old.issued.text() + ", SHA-256 " +
                    old.sha256.hex() + ": " + harmless(old.because));
    if (!report.replaced_file.empty())
        terminal.result("    that is " + harmless(report.replaced_file) + ", byte for byte");
}

Emphasis emphasis_of(const Verdict& verdict) {
    if (verdict.outcome == verify::Outcome::as_issued) return Emphasis::good;
    return verdict.intact() && verdict.reason != Reason::other_signer ? Emphasis::strong : Emphasis::bad;
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
    const Verdict& verdict = report.opened.verdict;
    ExitCode code = verdict.exit_code();
    if (report.content_required && verdict.intact() && verdict.content != verify::Content::agrees)
        code = worse(code, ExitCode::signer_unknown);
    const bool shows_another = std::any_of(report.copies.begin(), report.copies.end(),
                                           [](const auto& copy) { return copy.state == CopyState::differs; });
    if (shows_another || report.earlier.fault()) code = worse(code, ExitCode::not_as_issued);
    if (report.photos && !report.photos->all_found()) {
        // Of what the system would not let us read nothing is known, and nothing is said.
        const verify::PhotosFinding& photos = *report.photos;
        const bool unknown = photos.fault.empty() && photos.count(PhotoState::unreadable) > 0 &&
                             photos.count(PhotoState::altered) + photos.count(PhotoState::missing) == 0;
        code = worse(code, unknown ? ExitCode::could_not_run : ExitCode::not_as_issued);
    }
    return code;
}

void describe(const VerifiedReport& report, const Terminal& terminal) {
    const Verdict& verdict = report.opened.verdict;
    terminal.result(harmless(report.opened.file) + ": " + terminal.emphasised(headline(verdict), emphasis_of(verdict)));
    if (!verdict.intact() || verdict.reason == Reason::not_vouched_for)
        terminal.result("  " + shown_whole(verdict.summary));
    for (const verify::Check& check : verdict.checks)
        if (!check.passed && !verdict.intact())
            terminal.result("  check " + std::to_string(check.number) + ", " + check.name + ": " + check.what);
    if (verdict.intact()) describe_intact(report, terminal);
    if (report.opened.replaces && verdict.intact()) describe_replaced(report, terminal);
    if (verdict.intact()) describe(report.earlier, report.opened.follow_up, terminal);
    if (report.photos) describe(*report.photos, terminal);
    describe_copies(report.copies, terminal);
}

}  // namespace rigdeed::command
