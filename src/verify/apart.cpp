// What comes out of the child is read as strictly as the file was. That the seal holds is seen once more outside, on
// the bytes that were hashed here: a child that was taken over could say anything else, but not that.
#include "verify/apart.hpp"

#include "base/archive.hpp"
#include "crypto/cms.hpp"
#include "crypto/digest.hpp"
#include "verify/sums.hpp"

namespace rigdeed::verify {
namespace {

template <class Archive>
void certificate(Archive& a, crypto::CertificateFacts& facts) {
    for (std::string* text : {&facts.name, &facts.organisation, &facts.country}) a.text(*text);
    a.whole(facts.not_before, any_number);
    a.whole(facts.not_after, any_number);
    a.whole(facts.self_made, 1);
    a.whole(facts.may_sign, 1);
    digest_field(a, facts.fingerprint);
    a.block(facts.der);
}

template <class Archive>
void fields(Archive& a, Verdict& verdict) {
    a.whole(verdict.outcome, static_cast<std::uint64_t>(Outcome::as_issued));
    a.whole(verdict.reason, static_cast<std::uint64_t>(last_reason));
    a.text(verdict.summary);
    a.list(verdict.checks, [&](Check& check) {
        a.whole(check.number, 1000);
        a.text(check.name);
        a.whole(check.passed, 1);
        a.text(check.what);
    });
    a.maybe(verdict.signer, [&](crypto::CertificateFacts& facts) { certificate(a, facts); });
    a.list(verdict.chain, [&](crypto::CertificateFacts& facts) { certificate(a, facts); });
    a.whole(verdict.signer_vouched_for, 1);
    a.maybe(verdict.seal, [&](SealParts& seal) {
        a.whole(seal.hole_begin, any_number);
        a.whole(seal.hole_end, any_number);
        a.block(seal.signature);
        a.block(seal.token);
    });
    a.maybe(verdict.timestamp, [&](crypto::Timestamp& timestamp) {
        a.whole(timestamp.at, any_number);
        a.whole(timestamp.accuracy, any_number);
        certificate(a, timestamp.authority);
    });
    a.whole(verdict.timestamp_vouched_for, 1);
    a.text(verdict.timestamp_remark);
    a.whole(verdict.certificate_valid_then, 1);
    Claims& claims = verdict.claims;
    for (std::string* text :
         {&claims.title, &claims.author, &claims.subject, &claims.signer, &claims.reason, &claims.location})
        a.text(*text);
    a.maybe(claims.sealed_at, [&](std::int64_t& seconds) { a.whole(seconds, any_number); });
    a.whole(claims.pages, any_number);
    a.whole(verdict.content, static_cast<std::uint64_t>(Content::differs));
    a.text(verdict.content_remark);
    a.list(verdict.files, [&](CarriedFile& file) {
        a.text(file.name);
        a.block(file.bytes);
    });
}

Verdict unexamined(const std::string& fault) {
    Verdict verdict;
    verdict.outcome = Outcome::not_examined;
    verdict.reason = Reason::not_examined;
    verdict.summary = "the file could not be examined: " + fault;
    return verdict;
}

// The bytes that these digits are, up to the zeros that fill the room; nothing if they are not all lower-case digits.
std::optional<std::string> der_of(std::string_view digits) {
    const auto value = [](char c) { return c >= '0' && c <= '9' ? c - '0' : c >= 'a' && c <= 'f' ? c - 'a' + 10 : -1; };
    std::string bytes;
    for (std::size_t i = 0; i + 1 < digits.size(); i += 2) {
        const int high = value(digits[i]), low = value(digits[i + 1]);
        if (high < 0 || low < 0) return std::nullopt;
        bytes += static_cast<char>(high << 4 | low);
    }
    if (bytes.size() < 4) return std::nullopt;
    const auto byte = [&](std::size_t i) { return static_cast<std::size_t>(static_cast<unsigned char>(bytes[i])); };
    const std::size_t size = 4 + (byte(2) << 8 | byte(3));
    if (size > bytes.size() || bytes.find_first_not_of('\0', size) != std::string::npos) return std::nullopt;
    return bytes.substr(0, size);
}

bool seal_holds(std::string_view file, const Sums& sums, const Verdict& verdict,
                const std::optional<Digest>& expected) {
    const auto& seal = verdict.seal;
    if (!seal || !verdict.signer || seal->hole_begin > file.size() || seal->hole_end > file.size() ||
        seal->hole_begin + 2 > seal->hole_end)
        return false;
    const std::string_view hole = file.substr(seal->hole_begin, seal->hole_end - seal->hole_begin);
    const auto der = der_of(hole.substr(1, hole.size() - 2));
    if (hole.front() != '<' || hole.back() != '>' || !der) return false;
    const Digest sealed = sums.without(seal->hole_begin, seal->hole_end);
    std::vector<Bytes> certificates{verdict.signer->der};
    for (const crypto::CertificateFacts& one : verdict.chain) certificates.push_back(one.der);
    const bool named = !expected || verdict.outcome != Outcome::as_issued || verdict.signer->fingerprint == *expected;
    return named && crypto::sha256(verdict.signer->der) == verdict.signer->fingerprint &&
           crypto::is_cms_of(*der, sealed, certificates, as_text(seal->signature), as_text(seal->token));
}

}  // namespace

std::string write_verdict(const Verdict& verdict) {
    Verdict copy = verdict;
    ArchiveWriter writer;
    fields(writer, copy);
    return std::move(writer.bytes);
}

std::optional<Verdict> read_verdict(std::string_view bytes) {
    ArchiveReader reader(bytes);
    Verdict verdict;
    fields(reader, verdict);
    return reader.ended_well() ? std::optional(std::move(verdict)) : std::nullopt;
}

Apart verify_apart(std::string_view file, const Trust& trust, const Further& further, const ChildLimits& limits,
                   const Sums* known) {
    const std::optional<Digest> expected = expected_fingerprint(trust);
    const std::optional<Sums> made = known == nullptr ? std::optional<Sums>(file) : std::nullopt;
    const Sums& sums = made ? *made : *known;  // for the child, too: it has them before anything is read
    const ChildResult child = in_child(
        [&] {
            Verdict verdict = verify(file, trust, &sums);
            std::string more = further ? further(verdict) : std::string();
            std::string first = write_verdict(verdict);
            ArchiveWriter writer;
            writer.text(first);
            writer.text(more);
            return std::move(writer.bytes);
        },
        limits);
    if (!child.ended_well) return {unexamined(child.fault), {}, sums.whole()};
    ArchiveReader reader(child.bytes);
    auto verdict = read_verdict(reader.piece());
    Apart apart{{}, std::string(reader.piece()), sums.whole()};
    if (!verdict || !reader.ended_well()) return {unexamined("what was read of it makes no sense"), {}, sums.whole()};
    if (verdict->intact() && !seal_holds(file, sums, *verdict, expected))
        return {unexamined("what its reader says of the seal does not hold"), {}, sums.whole()};
    apart.verdict = *std::move(verdict);
    return apart;
}

}  // namespace rigdeed::verify
