#include "survey/open_times.hpp"

#include <doctest/doctest.h>

#include "survey/read_survey.hpp"
#include "survey/sample.hpp"

using namespace rigdeed;

TEST_CASE("a look without a time is wrong, but for pairing, which is told of it") {
    std::string text = sample::text_of("fixtures/complete/survey.xml");
    const std::size_t at = text.find(" at=\"", text.find("<seen "));
    text.erase(at, text.find('"', at + 5) + 1 - at);
    const auto strict = survey::read_survey(text, "s.xml");
    CHECK_FALSE(strict.survey);
    REQUIRE(strict.problems.size() == 1);
    CHECK(strict.problems[0].hint.find("rigdeed pair --write") != std::string::npos);
    const auto put_in = survey::with_times_put_in(text, "s.xml");
    CHECK(put_in.open.size() == 1);
    CHECK(survey::read_survey(put_in.text, "s.xml").survey);
}

TEST_CASE("where all times are written nothing is put in") {
    const std::string text = sample::text_of("fixtures/complete/survey.xml");
    const auto put_in = survey::with_times_put_in(text, "s.xml");
    CHECK(put_in.text == text);
    CHECK(put_in.open.empty());
    CHECK(survey::with_times_put_in("no XML", "s.xml").text == "no XML");
}
