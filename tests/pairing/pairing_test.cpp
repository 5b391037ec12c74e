#include "pairing/pairing.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "pairing/climb_simulator.hpp"
#include "pairing/places.hpp"
#include "pairing/survey_pairing.hpp"
#include "survey/sample.hpp"

using namespace rigdeed;
using namespace rigdeed::pairing;

namespace {

// Nothing left out, nothing out of turn.
sample::Noise none() {
    sample::Noise noise;
    noise.skips = noise.only_looked = noise.close_first = noise.burst = noise.stray = noise.swapped = 0;
    noise.blurred_view = 0.5;
    return noise;
}

bool is_right(const Proposal& told, const sample::Truth& truth) {
    return told.view == truth.view && told.pass == truth.pass &&
           std::all_of(told.fittings.begin(), told.fittings.end(), [&](std::size_t fitting) {
               return std::find(truth.fittings.begin(), truth.fittings.end(), fitting) != truth.fittings.end();
           });
}

}  // namespace

TEST_CASE("a climb without a slip, with every code, is paired without one") {
    const sample::Climb climb = sample::climb({4, 3, 1, 2}, none(), 0, 1, 3);
    const auto told = pair_photos(climb.facts);
    std::size_t sure = 0;
    for (std::size_t i = 0; i < told.size(); ++i) {
        CAPTURE(i);
        if (climb.facts.photos[i].code) continue;
        CHECK(is_right(told[i], climb.truth[i]));
        sure += told[i].sure ? 1 : 0;
    }
    CHECK(sure * 2 > told.size());
}

TEST_CASE("what the survey names is believed and never moved, and anchors the rest") {
    sample::Climb climb = sample::climb({4, 3, 1, 2}, none(), 0, 0, 4);
    // The first close photo is named for another fitting than it shows.
    std::size_t photo = 0;
    while (climb.truth[photo].view != View::close) ++photo;
    Look& look = climb.facts.fittings[5].down;
    look.close = photo;
    look.named_close = true;
    climb.facts.photos.back().other = true;
    const auto told = pair_photos(climb.facts);
    CHECK(told[photo].named);
    CHECK(told[photo].view == View::close);
    CHECK(told[photo].pass == Way::down);
    CHECK(told[photo].fittings == std::vector<std::size_t>{5});
    CHECK(told.back().view == View::other);
    CHECK(told.back().named);
    for (std::size_t i = 0; i < told.size(); ++i)
        if (i != photo && told[i].view == View::close && told[i].pass == Way::down)
            CHECK(told[i].fittings != std::vector<std::size_t>{5});
}

TEST_CASE("without anything to go by hardly anything is sure") {
    const sample::Climb climb = sample::climb({6, 5, 6, 3, 2, 4, 5, 2, 3}, sample::rough(), 0, 0, 5);
    const auto told = pair_photos(climb.facts);
    const auto sure = std::count_if(told.begin(), told.end(), [](const Proposal& one) { return one.sure; });
    CHECK(sure * 5 < static_cast<std::ptrdiff_t>(told.size()));
}

TEST_CASE("no photos, or no fittings, are no trouble") {
    CHECK(pair_photos({}).empty());
    Facts facts;
    facts.photos.resize(3);
    CHECK(pair_photos(facts).size() == 3);
    facts.photos.clear();
    facts.fittings.resize(3);
    CHECK(pair_photos(facts).empty());
}

TEST_CASE("codes are read as they are written, and nothing else is") {
    const survey::Survey survey = sample::read(sample::text_of("fixtures/complete/survey.xml"));
    const std::vector<Place> places = places_of(survey);
    std::size_t fittings = 0;
    for (const Place& place : places) {
        fittings += place.fittings.size();
        for (const Way pass : {Way::up, Way::down}) {
            const Code code = code_of(survey, place, pass);
            CHECK(code_text(code).size() == 13);
            CHECK(read_code(code_text(code)) == code);
        }
    }
    CHECK(fittings == survey.fittings.size());
    for (const char* text : {"", "RD0000000000X", "RD000000000U", "RX0000000000U", "rd0000000000u", "RD00000-0000U"})
        CHECK_FALSE(read_code(text));
}

TEST_CASE("a code stays what it is when fittings are added or the file is put in another order") {
    survey::Survey survey = sample::read(sample::text_of("fixtures/complete/survey.xml"));
    const std::vector<Place> before = places_of(survey);
    std::reverse(survey.fittings.begin(), survey.fittings.end());
    std::vector<std::string> ids, ids_after;
    for (const Place& place : before) ids.push_back(place.id);
    for (const Place& place : places_of(survey)) ids_after.push_back(place.id);
    std::sort(ids.begin(), ids.end());
    std::sort(ids_after.begin(), ids_after.end());
    CHECK(ids == ids_after);
}
