#include "verify/verify.hpp"

#include <ctime>
#include <exception>
#include <functional>

#include "base/date.hpp"
#include "crypto/authority.hpp"
#include "crypto/revocation.hpp"
#include "verify/accident.hpp"
#include "verify/carried.hpp"
#include "verify/document.hpp"
#include "verify/schema.hpp"
#include "verify/seal_rules.hpp"
#include "verify/sums.hpp"

namespace rigdeed::verify {
namespace {

// What one examination has found so far; each rule builds on what those before it found.
struct Examination {
    std::string_view bytes;
    const Sums* sums = nullptr;
    Table table;
    Document document;
    Roles roles;
    Seal seal;
    Verdict verdict;
};

std::string text_under(const Dict* dict, std::string_view key) {
    const auto* text = dict == nullptr ? nullptr : get<Text>(*dict, key);
    return text == nullptr ? "" : utf8_of(*text);
}

// D:20261003091400+00'00'
std::optional<std::int64_t> seconds_of(const std::string& date) {
    if (date.size() != 23 || date.substr(0, 2) != "D:" || date.substr(16) != "+00'00'") return std::nullopt;
    const auto number = [&](std::size_t at, std::size_t count) {
        return read_digits(date.substr(at, count)).value_or(-1);
    };
    const LocalTime utc{{number(2, 4), number(6, 2), number(8, 2)},
                        {number(10, 2) * 3600 + number(12, 2) * 60 + number(14, 2)}};
    const bool plausible = exists(utc.date) && number(10, 2) >= 0 && number(10, 2) < 24 && number(12, 2) >= 0 &&
                           number(12, 2) < 60 && number(14, 2) >= 0 && number(14, 2) < 60;
    return plausible ? std::optional(seconds_since_epoch(utc)) : std::nullopt;
}

std::string check_start(Examination& e) {
    // not reached: a file of more than a gigabyte
    if (e.bytes.size() > largest_report) return "the file is too large to be a report";
    return e.bytes.substr(0, file_start.size()) == file_start ? "" : "the file does not start as a report does";
}

std::string check_table(Examination& e) { return read_table(e.bytes, e.table); }
std::string check_objects(Examination& e) { return read_objects(e.bytes, std::move(e.table), e.document); }

std::string check_kinds(Examination& e) {
    e.roles = assign_roles(e.document);
    return e.roles.fault.empty() ? check_page_list(e.document, e.roles) : e.roles.fault;
}

std::string check_seal(Examination& e) {
    std::string fault = find_seal(e.document, e.roles, e.seal);
    if (fault.empty() && !seconds_of(text_under(e.seal.dictionary, "M")))
        fault = "the seal does not say when it was made";
    return fault;
}
std::string check_range(Examination& e) { return check_byte_range(e.document, e.seal); }
std::string check_room(Examination& e) { return check_padding(e.seal); }

std::string check_signed(Examination& e) {
    crypto::CmsFinding finding =
        e.sums != nullptr ? check_signature(*e.sums, e.seal) : check_signature(Sums(e.bytes), e.seal);
    e.verdict.signer = std::move(finding.certificate);
    e.verdict.chain = std::move(finding.chain);
    e.verdict.timestamp = std::move(finding.timestamp);
    e.verdict.seal =
        SealParts{e.seal.hole_begin, e.seal.hole_end, std::move(finding.signature), std::move(finding.token)};
    return finding.fault == crypto::CmsFault::none ? "" : finding.what;
}

std::string check_files(Examination& e) { return read_carried(e.document, e.roles, e.verdict.files); }

struct Rule {
    const char* name;
    std::string (*check)(Examination&);
};

// In this order; the first that fails ends the examination. docs and tests know them by these names.
constexpr Rule rules[]{
    {"starts as a report", check_start},
    {"one cross-reference table", check_table},
    {"every object in its place", check_objects},
    {"only objects of a report", check_kinds},
    {"one seal, for the whole document", check_seal},
    {"the seal covers every byte", check_range},
    {"nothing beside the signature", check_room},
    {"the signature fits the content", check_signed},
    {"the carried files agree", check_files},
};

Claims claims_of(const Examination& e) {
    const Dict* info = e.document.dict(e.document.trailer, "Info");
    const Dict* seal = e.seal.dictionary;
    Claims claims;
    claims.title = text_under(info, "Title");
    claims.author = text_under(info, "Author");
    claims.subject = text_under(info, "Subject");
    claims.signer = text_under(seal, "Name");
    claims.reason = text_under(seal, "Reason");
    claims.location = text_under(seal, "Location");
    claims.sealed_at = seconds_of(text_under(seal, "M"));
    claims.pages = with_role(e.roles, Role::page).size();
    return claims;
}

bool all_rules_kept(Examination& e) {
    int number = 0;
    for (const Rule& rule : rules) {
        std::string fault;
        try {
            fault = rule.check(e);
        } catch (const std::exception&) {  // memory, or a fault of ours: nothing is known of the file
            e.verdict.outcome = Outcome::not_examined;
            fault = "reading it failed";
        }
        e.verdict.checks.push_back({++number, rule.name, fault.empty(), fault});
        if (!fault.empty()) return false;
    }
    return true;
}

struct SignerFinding {
    Reason reason;
    std::string what;
};

constexpr std::int64_t minute = 60, day = 86400;

// An hour that may be off by an hour, or has not come yet, shows nothing.
std::string clock_fault(const crypto::Timestamp& stamp) {
    if (stamp.accuracy > minute)
        return "by its own word the authority's clock may be off by " + std::to_string(stamp.accuracy) + " seconds";
    return stamp.at > std::time(nullptr) + day ? "its time has not come yet" : "";
}

// Why no authority named vouches for the time; empty if one does.
std::string time_fault(const Verdict& verdict, const Trust& trust) {
    const auto& stamp = verdict.timestamp;
    const std::string named = trust.authorities + "\n" + trust.time_authorities;
    if (!stamp || (trust.authorities.empty() && trust.time_authorities.empty())) return "none was named";
    if (std::string fault = clock_fault(*stamp); !fault.empty()) return fault;
    std::string fault = crypto::authority_fault(stamp->authority, {}, named, stamp->at);
    if (fault.empty() && !trust.revoked.empty())
        return crypto::clock_revocation_fault(stamp->authority, named, trust.revoked, stamp->at);
    return fault.empty() ? fault : std::string("no authority named vouches for it");
}

// A seal cannot be younger than what stamps it: then the time that it states itself is wrong.
std::string timestamp_remark(const Verdict& verdict) {
    if (!verdict.timestamp) return {};
    if (std::string fault = clock_fault(*verdict.timestamp); !fault.empty()) return fault;
    constexpr std::int64_t slack = 5 * minute;
    return verdict.claims.sealed_at && *verdict.claims.sealed_at > verdict.timestamp->at + slack
               ? "it is older than the date that the report gives itself"
               : "";
}

// When the seal was there. Nothing signs the timestamp, so anyone could put one of an authority of their own there: it
// moves the time only if an authority named vouches for it. Else it is the time that the seal covers.
std::optional<std::int64_t> moment_of(const Verdict& verdict) {
    return verdict.timestamp_vouched_for ? verdict.timestamp->at : verdict.claims.sealed_at;
}

// Of the fingerprint and the authorities each must hold that is named, and one must be.
SignerFinding find_signer(const Verdict& verdict, const std::optional<Digest>& expected, const Trust& trust) {
    if (!expected && trust.authorities.empty()) return {Reason::signer_not_named, "no expected signer was named"};
    if (expected && verdict.signer->fingerprint != *expected)
        return {Reason::other_signer, "sealed by another than the expected signer"};
    if (const auto then = moment_of(verdict); then && *then > verdict.signer->not_after)
        return {Reason::certificate_expired, "the signer's certificate had expired when it was sealed"};
    if (trust.authorities.empty()) return {Reason::none, ""};
    const auto moment = moment_of(verdict);
    if (!moment) return {Reason::not_vouched_for, "the report does not say when it was sealed"};
    std::string fault = crypto::signer_fault(*verdict.signer, verdict.chain, trust.authorities, *moment);
    if (fault.empty() && !trust.revoked.empty())
        fault = crypto::revocation_fault(*verdict.signer, verdict.chain, trust.authorities, trust.revoked,
                                         {*moment, verdict.timestamp_vouched_for});
    return {fault.empty() ? Reason::none : Reason::not_vouched_for, std::move(fault)};
}

void judge_signer(Verdict& verdict, const std::optional<Digest>& expected, const Trust& trust) {
    const auto [reason, what] = find_signer(verdict, expected, trust);
    const bool is_expected = reason == Reason::none;
    verdict.checks.push_back(
        {static_cast<int>(verdict.checks.size()) + 1, "sealed by the expected signer", is_expected, what});
    verdict.outcome = is_expected ? Outcome::as_issued : Outcome::signer_unknown;
    verdict.reason = reason;
    verdict.signer_vouched_for = is_expected && !trust.authorities.empty();
    verdict.summary = !is_expected ? "intact, but " + what
                      : expected   ? "as issued by the expected signer"
                                   : "as issued by a signer that an authority named vouches for";
}

}  // namespace

ExitCode Verdict::exit_code() const {
    // not reached: every outcome has its case
    switch (outcome) {
        case Outcome::as_issued: return ExitCode::done;
        case Outcome::signer_unknown: return ExitCode::signer_unknown;
        case Outcome::not_as_issued: return ExitCode::not_as_issued;
        case Outcome::not_examined: return ExitCode::could_not_run;
    }
    return ExitCode::not_as_issued;
}

std::optional<Digest> expected_fingerprint(const Trust& trust) {
    for (const std::string* named : {&trust.authorities, &trust.time_authorities})
        if (!named->empty()) crypto::check_authorities(*named);
    if (!trust.revoked.empty()) (void)crypto::read_revocations(trust.revoked, trust.authorities);
    if (trust.certificate.empty()) return trust.fingerprint;
    const auto certificate = crypto::read_certificate(trust.certificate);
    if (!certificate) throw Error("the expected signer's certificate cannot be read", {}, "it must be PEM or DER");
    if (trust.fingerprint && *trust.fingerprint != certificate->fingerprint)
        throw Error("the expected certificate does not have the expected fingerprint");
    return certificate->fingerprint;
}

Verdict verify(std::string_view file, const Trust& trust, const Sums* sums) {
    const std::optional<Digest> expected = expected_fingerprint(trust);
    Examination e;
    e.bytes = file;
    e.sums = sums;
    const bool kept = all_rules_kept(e);
    e.verdict.claims = claims_of(e);
    // not reached: whose signature fits has a certificate
    if (kept && e.verdict.signer) {
        e.verdict.timestamp_remark = timestamp_remark(e.verdict);
        const std::string fault = time_fault(e.verdict, trust);
        e.verdict.timestamp_vouched_for = fault.empty();
        if (e.verdict.timestamp_remark.empty() && fault.find("revoked") != std::string::npos)
            e.verdict.timestamp_remark = fault;
        const auto then = moment_of(e.verdict);
        e.verdict.certificate_valid_then = then && e.verdict.signer->valid_at(*then);
        judge_signer(e.verdict, expected, trust);
        for (const std::size_t number : with_role(e.roles, Role::image))
            if (const auto& stream = e.document.objects[number].stream) e.verdict.pictures.push_back(*stream);
        return std::move(e.verdict);
    }
    e.verdict.files.clear();
    e.verdict.seal.reset();
    if (e.verdict.outcome == Outcome::not_examined) {
        e.verdict.reason = Reason::not_examined;
        e.verdict.summary = "the file could not be examined: reading it failed";
        return std::move(e.verdict);
    }
    Accident accident = likely_accident(file);
    e.verdict.reason = accident.reason;
    e.verdict.summary = std::move(accident.words);
    return std::move(e.verdict);
}

std::vector<CarriedFile> embedded_files(std::string_view file) {
    Examination e;
    e.bytes = file;
    for (const auto check : {check_start, check_table, check_objects, check_kinds, check_files})
        if (!check(e).empty()) return {};
    return std::move(e.verdict.files);
}

}  // namespace rigdeed::verify
