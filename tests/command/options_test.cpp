#include "command/options.hpp"

#include <doctest/doctest.h>

#include <CLI/CLI.hpp>

#include "base/error.hpp"
#include "base/language.hpp"

using namespace rigdeed;

namespace {

/// What an option takes from the command line; nothing if it is refused.
std::optional<std::string> taken(void (*add)(CLI::App&, std::string&, const std::string&), const std::string& words) {
    CLI::App app;
    std::string into;
    add(app, into, "report");
    try {
        app.parse(words);
    } catch (const CLI::ParseError&) { return std::nullopt; }
    return into;
}

}  // namespace

TEST_CASE("a size for the mail is in decimal MB or kB, and nothing else is one") {
    CHECK(command::read_mail_size("") == std::nullopt);
    CHECK(command::read_mail_size("15MB") == 15000000);
    CHECK(command::read_mail_size("15 MB") == 15000000);
    CHECK(command::read_mail_size("900kB") == 900000);
    CHECK(command::read_mail_size("1kB") == 1000);
    CHECK(command::read_mail_size("5.4MB") == 5400000);
    CHECK(command::read_mail_size("0.25 MB") == 250000);
    CHECK(command::read_mail_size("1.005kB") == 1005);
    for (const char* wrong : {"5.MB", ".5MB", "1.2.3MB", "1.0001MB", "0.0MB", "1,5MB", "-1MB"})
        CHECK_THROWS_AS((void)command::read_mail_size(wrong), Error);
    CHECK(command::read_mail_size("100000MB") == 100000000000);
    for (const char* wrong :
         {"15", "0MB", "MB", "15mb", "15KB", "15 GB", "-3MB", "15MBx", "100001MB", "99999999999999999999MB", " 15MB"})
        CHECK_THROWS_AS_MESSAGE((void)command::read_mail_size(wrong), Error, wrong);
}

TEST_CASE("every paper there is can be asked for, and no other") {
    for (const PaperRow& row : papers) {
        const std::string name(row.name);
        CHECK(taken(command::add_paper, "--paper " + name) == name);
        CHECK(read_paper(name) == row.value);
        CHECK(row_of(row.value).name == name);
    }
    CHECK(taken(command::add_paper, "") == "");
    for (const char* wrong : {"A4", "a5", "legal", "lette"}) {
        CHECK_FALSE(taken(command::add_paper, std::string("--paper ") + wrong));
        CHECK_FALSE(read_paper(wrong));
    }
}

TEST_CASE("every language there is can be asked for, and no other") {
    for (const std::string_view language : languages)
        CHECK(taken(command::add_language, "--language " + std::string(language)) == language);
    for (const char* wrong : {"EN", "it", "english"})
        CHECK_FALSE(taken(command::add_language, std::string("--language ") + wrong));
}
