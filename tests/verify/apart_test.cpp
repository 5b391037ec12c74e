#include "verify/apart.hpp"

#include <doctest/doctest.h>

#include <csignal>
#include <functional>
#include <new>

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
    const verify::Verdict verdict = verify::verify_apart(sealed_report(), ann()).verdict;
    CHECK(verdict.outcome == verify::Outcome::as_issued);
    CHECK(verify::write_verdict(verdict) == verify::write_verdict(verify::verify(sealed_report(), ann())));
    CHECK(verify::verify_apart(sealed_report() + "\n", ann()).verdict.reason == verify::Reason::bytes_appended);
}

TEST_CASE("a reader that was brought down or killed knows nothing of the file: not examined, never not as issued") {
    for (const int signal : {SIGKILL, SIGSEGV, SIGABRT}) {
        const auto end = [signal](verify::Verdict&) { return ::raise(signal), std::string(); };
        const verify::Verdict verdict = verify::verify_apart(sealed_report(), ann(), end).verdict;
        CHECK(verdict.outcome == verify::Outcome::not_examined);
        CHECK(verdict.reason == verify::Reason::not_examined);
        CHECK(verdict.exit_code() == ExitCode::could_not_run);
        CHECK(verdict.summary.starts_with("the file could not be examined"));
        CHECK(verdict.files.empty());
    }
    const auto greedy = [](verify::Verdict&) -> std::string { throw std::bad_alloc(); };
    CHECK(verify::verify_apart(sealed_report(), ann(), greedy).verdict.exit_code() == ExitCode::could_not_run);
}

TEST_CASE("a reader that was taken over cannot say that a seal holds") {
    const auto lie = [](const std::string& file, const std::function<void(verify::Verdict&)>& change) {
        return verify::verify_apart(file, ann(),
                                    [&](verify::Verdict& verdict) {
                                        verdict = verify::verify(sealed_report(), ann());
                                        change(verdict);
                                        return std::string("x");
                                    })
            .verdict.outcome;
    };
    const auto nothing = [](verify::Verdict&) {};
    CHECK(lie(sealed_report(), nothing) == verify::Outcome::as_issued);
    CHECK(lie(sealed_report() + "\n", nothing) == verify::Outcome::not_examined);
    CHECK(lie(sample::replaced(sealed_report(), "/Reason (", "/Reason ["), nothing) == verify::Outcome::not_examined);
    CHECK(lie("", nothing) == verify::Outcome::not_examined);
    const auto& good = sealed_report();
    CHECK(lie(good, [](auto& v) { v.signer->fingerprint.bytes[0] ^= 1; }) == verify::Outcome::not_examined);
    CHECK(lie(good, [](auto& v) { v.signer = sample::another_ann().certificate(); }) == verify::Outcome::not_examined);
    CHECK(lie(good, [](auto& v) { v.seal->signature[9] ^= 1; }) == verify::Outcome::not_examined);
    CHECK(lie(good, [](auto& v) { v.seal->hole_begin += 2; }) == verify::Outcome::not_examined);
    CHECK(lie(good, [&](auto& v) { v.seal->hole_end = good.size() + 9; }) == verify::Outcome::not_examined);
    CHECK(lie(good, [](auto& v) { v.seal.reset(); }) == verify::Outcome::not_examined);
    // By somebody else's key, where a fingerprint was named.
    const std::string other = sample::resealed(good, sample::another_ann());
    const auto found = verify::verify_apart(other, ann(), [&](verify::Verdict& verdict) {
        verdict.outcome = verify::Outcome::as_issued;
        return std::string();
    });
    CHECK(found.verdict.outcome == verify::Outcome::not_examined);
}

TEST_CASE("what else was found comes out of the child whole") {
    const auto further = [](verify::Verdict&) { return std::string(100'000, 'x') + '\0'; };
    CHECK(verify::verify_apart("no report", ann(), further).more == std::string(100'000, 'x') + '\0');
}

TEST_CASE("an expected certificate that cannot be read is an error outside of the child, too") {
    CHECK_THROWS_AS((void)verify::verify_apart(sealed_report(), {{}, "no certificate"}), Error);
}
