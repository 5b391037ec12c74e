#include "pairing/clocks.hpp"

#include <doctest/doctest.h>

#include "pairing/places.hpp"
#include "survey/sample.hpp"

using namespace rigdeed;
using pairing::find_clocks;

namespace {

const Date day{2026, 10, 3};

evidence::Looked photo(const std::string& name, const std::string& camera, int seconds,
                       std::vector<std::string> codes = {}) {
    evidence::Looked one;
    one.photo.name = one.photo.file = name;
    one.photo.state = evidence::State::usable;
    one.photo.facts.camera = camera;
    one.photo.facts.taken = LocalTime{day, {seconds}};
    one.codes = std::move(codes);
    return one;
}

survey::Survey complete() { return sample::read(sample::text_of("fixtures/complete/survey.xml")); }

/// Of the survey's close photos C1, C2, C3, C7 (09:00 to 09:12), by a camera that is slow by so many seconds.
std::vector<evidence::Looked> named(int slow, int every = 0) {
    std::vector<evidence::Looked> all;
    int drift = 0;
    for (const auto& [name, at] : std::map<std::string, int>{{"C1", 540}, {"C2", 544}, {"C3", 548}, {"C7", 552}})
        all.push_back(photo(name, "Second", at * 60 - slow + every * drift++));
    for (int i = 0; i < 9; ++i) all.push_back(photo("M" + std::to_string(i), "Main", 9 * 3600 + i));
    return all;
}

}  // namespace

TEST_CASE("the clock of a second camera is found by photos that the survey names") {
    const auto found = find_clocks(complete(), named(3600), {});
    REQUIRE(found.size() == 1);
    CHECK(found[0].name == "Second");
    CHECK(found[0].clock == 3600);
    CHECK(find_clocks(complete(), named(-5400), {}).at(0).clock == -5400);
    CHECK(find_clocks(complete(), named(120), {}).empty());        // of no account
    CHECK(find_clocks(complete(), named(3600, 400), {}).empty());  // they differ among themselves
    survey::Survey said = complete();
    said.photos.cameras.push_back({0, "Second", 3600});
    CHECK(find_clocks(said, named(3600), {}).empty());
    const std::set<std::pair<std::string, survey::Way>> open{{"plate", survey::Way::up}, {"lashing", survey::Way::up}};
    CHECK(find_clocks(complete(), named(3600), open).empty());  // two are too few
}

TEST_CASE("or by codes that both cameras took") {
    const survey::Survey survey = complete();
    const auto places = pairing::places_of(survey);
    REQUIRE(places.size() >= 2);
    const auto code = [&](std::size_t place) {
        return pairing::code_text(pairing::code_of(survey, places[place], survey::Way::up));
    };
    std::vector<evidence::Looked> all{photo("a", "Main", 32400, {code(0)}), photo("b", "Main", 33000, {code(1)}),
                                      photo("c", "Main", 33600), photo("d", "Second", 28800 + 20, {code(0)})};
    CHECK(find_clocks(survey, all, {}).empty());  // one is too few
    all.push_back(photo("e", "Second", 29400 + 40, {code(1)}));
    const auto found = find_clocks(survey, all, {});
    REQUIRE(found.size() == 1);
    CHECK(std::abs(found[0].clock - 3570) <= 20);
    all.back().codes = {"some other code"};
    CHECK(find_clocks(survey, all, {}).empty());
}
