#include "command/describe_verdict.hpp"

namespace rigdeed::command {
namespace {

using verify::PhotoState;
using verify::Verdict;

const char* name_of(PhotoState state) {
    switch (state) {
        case PhotoState::found: return "found";
        case PhotoState::missing: return "missing";
        case PhotoState::altered: return "altered";
        case PhotoState::never_had: return "never-had";
        case PhotoState::unreadable: return "unreadable";
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

const char* name_of(reopen::CopyState state) {
    switch (state) {
        case reopen::CopyState::same: return "same";
        case reopen::CopyState::alike: return "alike";
        case reopen::CopyState::differs: return "differs";
        case reopen::CopyState::not_compared: return "not-compared";
    }
    return "";
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

void describe(const crypto::Timestamp& timestamp, const Verdict& verdict, JsonWriter& json) {
    json.begin_object()
        .field("at", timestamp.at)
        .field("accuracy", timestamp.accuracy)
        .field("remark", verdict.timestamp_remark)
        .field("authority", timestamp.authority.name)
        .field("organisation", timestamp.authority.organisation)
        .field("fingerprint", timestamp.authority.fingerprint.hex())
        .field("vouched-for", verdict.timestamp_vouched_for)
        .end();
}

void describe_replaced(const VerifiedReport& report, JsonWriter& json) {
    if (!report.opened.replaces) {
        json.null();
        return;
    }
    const record::Replaced& old = *report.opened.replaces;
    json.begin_object()
        .field("number", old.number)
        .field("issued", old.issued.iso())
        .field("sha256", old.sha256.hex())
        .field("because", old.because)
        .field("file", report.replaced_file)
        .end();
}

void describe(const std::optional<record::Concluded>& concluded, JsonWriter& json) {
    if (!concluded) {
        json.null();
        return;
    }
    json.begin_object()
        .field("complete", concluded->complete)
        .field("answer", concluded->answer)
        .field("do-not-climb", concluded->do_not_climb);
    json.key("verdicts").begin_object();
    for (std::size_t i = 0; i < concluded->verdicts.size(); ++i)
        json.field(survey::name_of(static_cast<survey::Verdict>(i)), concluded->verdicts[i]);
    json.end().end();
}

void describe_survey(const reopen::SealedReport& report, JsonWriter& json) {
    if (!report.said) {
        json.null();
        return;
    }
    json.begin_object()
        .field("number", report.said->number)
        .field("yacht", report.said->yacht)
        .field("hin", report.said->hin)
        .field("attended", report.said->attended.iso())
        .field("surveyor", report.said->surveyor)
        .end();
}

void describe_rules(const reopen::SealedReport& report, JsonWriter& json) {
    json.begin_object().key("own").begin_array();
    for (const std::string& name : report.own_rules) json.value(name);
    json.end().key("milder").begin_array();
    for (const report::Softened& one : report.softened)
        json.begin_object()
            .field("fitting", one.fitting)
            .field("own", survey::name_of(one.by_own))
            .field("program", survey::name_of(one.by_program))
            .field("bar-lifted", one.bar_lifted)
            .end();
    json.end().end();
}

void describe_checks(const Verdict& verdict, JsonWriter& json) {
    json.begin_array();
    for (const verify::Check& check : verdict.checks)
        json.begin_object()
            .field("number", check.number)
            .field("name", check.name)
            .field("passed", check.passed)
            .field("what", check.what)
            .end();
    json.end();
}

}  // namespace

void describe(const VerifiedReport& report, JsonWriter& json) {
    const reopen::SealedReport& opened = report.opened;
    const Verdict& verdict = opened.verdict;
    json.begin_object()
        .field("file", opened.file)
        .field("exit-code", static_cast<int>(exit_code(report)))
        .field("examined", verdict.outcome != verify::Outcome::not_examined)
        .field("intact", verdict.intact());
    json.field("as-issued", verdict.outcome == verify::Outcome::as_issued).field("summary", verdict.summary);
    json.key("signer");
    if (verdict.signer) describe(verdict, *verdict.signer, json);
    else json.null();
    json.field("title", verdict.claims.title);
    json.key("survey");
    describe_survey(opened, json);
    json.key("reported");
    describe(opened.reported, json);
    json.key("judged");
    describe(opened.judged, json);
    json.field("not-judged", opened.not_judged).key("rules");
    describe_rules(opened, json);
    json.key("sealed-at");
    if (verdict.claims.sealed_at) json.value(*verdict.claims.sealed_at);
    else json.null();
    json.key("date-typed");
    if (opened.date_typed) json.value(*opened.date_typed);
    else json.null();
    json.key("timestamp");
    if (verdict.timestamp) describe(*verdict.timestamp, verdict, json);
    else json.null();
    json.key("content").begin_object().field("state", name_of(verdict.content));
    json.field("remark", verdict.content_remark).end();
    json.key("checks");
    describe_checks(verdict, json);
    json.key("since");
    describe(report.earlier, json);
    json.key("replaces");
    describe_replaced(report, json);
    json.key("photos");
    if (report.photos) describe(*report.photos, json);
    else json.null();
    json.key("remarks").begin_array();
    for (const std::string& remark : report.remarks) json.value(remark);
    json.end();
    json.key("pictures").begin_array();
    for (const reopen::CopyFinding& copy : report.copies)
        json.begin_object()
            .field("photo", copy.photo)
            .field("state", name_of(copy.state))
            .field("remark", copy.remark)
            .end();
    json.end();
    json.end();
}

}  // namespace rigdeed::command
