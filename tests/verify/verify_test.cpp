#include "verify/verify.hpp"

#include <doctest/doctest.h>

#include "pdf/sample_pages.hpp"
#include "verify/sample_report.hpp"

using namespace rigdeed;
using sample::sealed_report;
using verify::Outcome;
using verify::Reason;

namespace {

verify::Trust trust_in(const crypto::Signer& signer) { return {signer.certificate().fingerprint, {}}; }
Reason reason_of(std::string_view file) { return verify::verify(file, trust_in(sample::ann())).reason; }

std::string with_line_ends(const std::string& from, std::string_view end) {
    std::string to;
    for (std::size_t i = 0; i < from.size(); ++i) {
        if (from[i] == '\n') to += end;
        else if (from[i] != '\r' || i + 1 >= from.size() || from[i + 1] != '\n') to += from[i];
    }
    return to;
}

std::string latin_1_to_utf8(const std::string& from) {
    std::string to;
    for (const char c : from) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte < 0x80) to += c;
        else to += static_cast<char>(0xC0 | byte >> 6), to += static_cast<char>(0x80 | (byte & 0x3F));
    }
    return to;
}

}  // namespace

TEST_CASE("a report as issued is intact, and whose it is depends on whom one expects") {
    const auto expected = verify::verify(sealed_report(), trust_in(sample::ann()));
    CHECK(expected.outcome == Outcome::as_issued);
    CHECK(expected.exit_code() == ExitCode::done);
    const auto unnamed = verify::verify(sealed_report(), {});
    CHECK(unnamed.outcome == Outcome::signer_unknown);
    CHECK(unnamed.reason == Reason::signer_not_named);
    CHECK(unnamed.exit_code() == ExitCode::signer_unknown);
    const auto by_certificate = verify::verify(sealed_report(), {{}, sample::ann().certificate().pem()});
    CHECK(by_certificate.outcome == Outcome::as_issued);
}

TEST_CASE("the same name on another key is another signer") {
    const std::string forged = sample::resealed(sealed_report(), sample::another_ann());
    const auto verdict = verify::verify(forged, trust_in(sample::ann()));
    CHECK(verdict.signer->name == "Ann Rigger");
    CHECK(verdict.outcome == Outcome::signer_unknown);
    CHECK(verdict.reason == Reason::other_signer);
    CHECK(verify::verify(forged, trust_in(sample::another_ann())).outcome == Outcome::as_issued);
}

TEST_CASE("an expected certificate that cannot be read, or is not the expected one, is an error") {
    CHECK_THROWS_AS((void)verify::verify(sealed_report(), {{}, "no certificate"}), Error);
    const verify::Trust two{sample::another_ann().certificate().fingerprint, sample::ann().certificate().pem()};
    CHECK_THROWS_AS((void)verify::verify(sealed_report(), two), Error);
}

TEST_CASE("a verdict tells who sealed what and when") {
    const auto verdict = verify::verify(sealed_report(), {});
    CHECK(verdict.signer->fingerprint == sample::ann().certificate().fingerprint);
    CHECK(verdict.claims.title == sample::facts().title);
    CHECK(verdict.claims.author == "Ann Rigger");
    CHECK(verdict.claims.signer == "Ann Rigger");
    CHECK(verdict.claims.location == "Falmouth");
    CHECK(verdict.claims.sealed_at == sample::facts().issued);
    CHECK(verdict.claims.pages == 2);
    CHECK(verdict.certificate_valid_then);
    CHECK(verdict.checks.size() == 10);
}

TEST_CASE("the carried files come out as they went in") {
    const auto files = verify::embedded_files(sealed_report());
    REQUIRE(files.size() == 1);
    CHECK(files[0].name == "survey.xml");
    CHECK(files[0].bytes == sample::facts().files[0].bytes);
    CHECK(verify::verify(sealed_report(), {}).files.size() == 1);
    CHECK(verify::embedded_files("no report").empty());
}

TEST_CASE("a report by an EC signer is as issued") {
    const Bytes file = sample::ec_file(sample::Curve::p256);
    const crypto::Signer eve = crypto::load_signer(as_text(file), sample::passphrase);
    CHECK(verify::verify(sample::resealed(sealed_report(), eve), trust_in(eve)).outcome == Outcome::as_issued);
}

TEST_CASE("a report with every kind of item is as issued") {
    pdf::DocumentFacts facts = sample::facts();
    facts.files.push_back({"photos.xml", "text/xml", "The photo register", "Data", Bytes(300'000, 'x')});
    facts.signature->location.clear();
    const std::string sealed = sample::resealed(pdf::render_pdf(sample::full_pages(), facts).bytes);
    const auto verdict = verify::verify(sealed, trust_in(sample::ann()));
    CHECK(verdict.summary == "as issued by the expected signer");
    CHECK(verdict.files.size() == 2);
}

TEST_CASE("common accidents are told apart") {
    const std::string& good = sealed_report();
    CHECK(reason_of("") == Reason::empty);
    CHECK(reason_of("hello") == Reason::not_a_pdf);
    CHECK(reason_of("%PDF-1.4\n%\xE2\xE3\n1 0 obj\n<< >>\nendobj\n%%EOF\n") == Reason::not_a_report);
    CHECK(reason_of(with_line_ends(good, "\r\n")) == Reason::line_ends);
    CHECK(reason_of(with_line_ends(good, "\n")) == Reason::line_ends);
    CHECK(reason_of(latin_1_to_utf8(good)) == Reason::text_conversion);
    CHECK(reason_of(good.substr(0, good.size() / 2)) == Reason::cut_short);
    CHECK(reason_of(good.substr(0, good.size() - 1)) == Reason::cut_short);
    CHECK(reason_of("junk\n" + good) == Reason::bytes_before);
    CHECK(reason_of(good + "\n") == Reason::bytes_appended);
    CHECK(reason_of(sample::replaced(good, "/Count 2", "/Count 3")) == Reason::changed_inside);
}

TEST_CASE("a preview is known for what it is, and still gives its files back") {
    pdf::DocumentFacts facts = sample::facts();
    facts.signature.reset();
    const std::string preview = pdf::render_pdf(sample::small_pages(), facts).bytes;
    CHECK(reason_of(preview) == Reason::unsigned_preview);
    CHECK(verify::verify(preview, {}).exit_code() == ExitCode::not_as_issued);
    CHECK(verify::embedded_files(preview).size() == 1);
}

TEST_CASE("a certificate that had run out at the time of sealing confirms nobody, and is no forgery") {
    const std::string late = sample::resealed(sample::replaced(sealed_report(), "/M (D:2026", "/M (D:2046"));
    const auto verdict = verify::verify(late, trust_in(sample::ann()));
    CHECK(verdict.outcome == Outcome::signer_unknown);
    CHECK(verdict.reason == Reason::certificate_expired);
    CHECK(verdict.exit_code() == ExitCode::signer_unknown);
    CHECK_FALSE(verdict.certificate_valid_then);
}

TEST_CASE("an authority that does not vouch for the signer leaves the report intact; one without a time is none") {
    const std::string another = sample::another_ann().certificate().pem();
    const auto foreign = verify::verify(sealed_report(), {{}, {}, another});
    CHECK(foreign.outcome == Outcome::signer_unknown);
    CHECK(foreign.reason == Reason::not_vouched_for);
    CHECK(foreign.summary == "intact, but the signer's certificate is not by one of the authorities named");
    const std::string timeless = sample::resealed(sample::replaced(sealed_report(), "/M (D:2026", "/M (X:2026"));
    CHECK(verify::verify(timeless, {{}, {}, another}).checks.back().what == "the seal does not say when it was made");
    const auto other = verify::verify(sealed_report(), {sample::another_ann().certificate().fingerprint, {}, another});
    CHECK(other.reason == Reason::other_signer);
    CHECK_THROWS_AS((void)verify::verify(sealed_report(), {{}, {}, "no certificate"}), Error);
}
