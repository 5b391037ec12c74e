#include "command/command.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cstdlib>

#include "base/scratch.hpp"

using namespace rigdeed;
using command::worse;

namespace {

/// A variable of the environment, put back at the end.
class Variable {
 public:
    Variable(const char* name, const char* value) : name_(name) {
        if (const char* set = std::getenv(name)) before_ = set;
        if (value != nullptr) ::setenv(name, value, 1);
        else ::unsetenv(name);
    }
    ~Variable() {
        if (before_) ::setenv(name_, before_->c_str(), 1);
        else ::unsetenv(name_);
    }
    Variable(const Variable&) = delete;
    Variable& operator=(const Variable&) = delete;

 private:
    const char* name_;
    std::optional<std::string> before_;
};

}  // namespace

TEST_CASE("of two outcomes the worse counts: a bug, could not run, not as issued, incomplete, unknown signer, done") {
    constexpr std::array order{ExitCode::bug,        ExitCode::could_not_run,  ExitCode::not_as_issued,
                               ExitCode::incomplete, ExitCode::signer_unknown, ExitCode::done};
    for (std::size_t a = 0; a < order.size(); ++a)
        for (std::size_t b = 0; b < order.size(); ++b) CHECK(worse(order[a], order[b]) == order[std::min(a, b)]);
}

TEST_CASE("the moment of issue is the date typed, else SOURCE_DATE_EPOCH, else now") {
    const Variable epoch("SOURCE_DATE_EPOCH", "1790000000");
    CHECK(command::issue_moment("1970-01-02") == 86400);
    CHECK(command::issue_moment("2026-10-05") == 1791158400);
    CHECK(command::issue_moment("") == 1790000000);
    CHECK(command::is_moment_typed("2026-10-05"));
    CHECK(command::is_moment_typed(""));
    for (const char* wrong : {"2026-02-29", "2026-10-5", "5.10.2026", "today"})
        CHECK_THROWS_AS_MESSAGE((void)command::issue_moment(wrong), Error, wrong);
    {
        const Variable unset("SOURCE_DATE_EPOCH", nullptr);
        CHECK(command::issue_moment("") > 1700000000);
        CHECK(command::is_moment_typed("1970-01-02"));
        CHECK_FALSE(command::is_moment_typed(""));
    }
    for (const char* wrong : {"-1", "12a", "soon", "253402300800"}) {
        const Variable set("SOURCE_DATE_EPOCH", wrong);
        CHECK_THROWS_AS_MESSAGE((void)command::issue_moment(""), Error, wrong);
    }
}

TEST_CASE("a passphrase is the first line of its file, else RIGDEED_PASSPHRASE") {
    const Variable variable("RIGDEED_PASSPHRASE", "from there");
    const sample::Scratch scratch;
    scratch.put("words", "secret words \r\nsecond line\n");
    const std::string file = scratch.path / "words";
    CHECK(command::read_passphrase(file, "", false) == "secret words ");
    CHECK(command::read_passphrase("", "", false) == "from there");
    CHECK_THROWS_AS((void)command::read_passphrase(scratch.path / "none", "", false), Error);
}

TEST_CASE("units are asked for by name, and by default not at all") {
    command::Common common;
    CHECK_FALSE(common.unit_system());
    common.units = "us";
    CHECK(common.unit_system() == UnitSystem::us);
    common.units = "both";
    CHECK(common.unit_system() == UnitSystem::both);
    common.jobs = 3;
    CHECK(common.threads() == 3);
    common.jobs = 0;
    CHECK(common.threads() >= 1);
}
