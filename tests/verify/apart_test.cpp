#include "verify/apart.hpp"

#include <doctest/doctest.h>

#include <csignal>

#include "verify/sample_report.hpp"

using namespace rigdeed;
using sample::sealed_report;

namespace {

const verify::Trust& ann() {
    static const verify::Trust trust{sample::ann().certificate().fingerprint, {}};
    return trust;
}

}  // namespace

TEST_CASE("a verdict reads back as it was written, and from nothing else") {
    for (const std::string& file : {sealed_report(), std::string("no report"), sealed_report() + "\n"}) {
        const verify::Verdict verdict = verify::verify(file, ann());
        const std::string bytes = verify::write_verdict(verdict);
        const auto again = verify::read_verdict(bytes);
        REQUIRE(again);
        CHECK(verify::write_verdict(*again) == bytes);
        CHECK(again->outcome == verdict.outcome);
        CHECK(again->summary == verdict.summary);
        CHECK(again->checks.size() == verdict.checks.size());
        CHECK(again->files.size() == verdict.files.size());
        for (std::size_t size = 0; size < bytes.size(); ++size)
            REQUIRE_FALSE(verify::read_verdict(std::string_view(bytes).substr(0, size)));
        CHECK_FALSE(verify::read_verdict(bytes + '\0'));
        CHECK_FALSE(verify::read_verdict("\xFF" + bytes.substr(1)));
    }
}

TEST_CASE("a report examined apart gets the same verdict") {
    const verify::Verdict verdict = verify::verify_apart(sealed_report(), ann());
    CHECK(verdict.outcome == verify::Outcome::as_issued);
    CHECK(verify::write_verdict(verdict) == verify::write_verdict(verify::verify(sealed_report(), ann())));
    CHECK(verify::verify_apart(sealed_report() + "\n", ann()).reason == verify::Reason::bytes_appended);
}

TEST_CASE("a file that brings its reader down is not as issued, and no more than that") {
    const auto crash = [](verify::Verdict&) { ::raise(SIGKILL); };
    const verify::Verdict verdict = verify::verify_apart(sealed_report(), ann(), crash);
    CHECK(verdict.outcome == verify::Outcome::not_as_issued);
    CHECK(verdict.reason == verify::Reason::not_examined);
    CHECK(verdict.exit_code() == ExitCode::not_as_issued);
    CHECK(verdict.summary.starts_with("the file could not be examined"));
    CHECK(verdict.files.empty());
}

TEST_CASE("what is done to an intact report is not done to another") {
    const auto crash = [](verify::Verdict&) { ::raise(SIGKILL); };
    CHECK(verify::verify_apart("no report", ann(), crash).reason == verify::Reason::not_a_pdf);
}

TEST_CASE("an expected certificate that cannot be read is an error outside of the child, too") {
    CHECK_THROWS_AS((void)verify::verify_apart(sealed_report(), {{}, "no certificate"}), Error);
}
