#include "completeness/completeness.hpp"

#include <algorithm>
#include <functional>
#include <set>

#include "completeness/remarks.hpp"
#include "survey/sample.hpp"

using namespace rigdeed;
using namespace rigdeed::sample;
using completeness::Note;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

/// Photos as a good camera makes them, taken at the times the fitting says.
evidence::Evidence good_photos(const survey::Survey& survey) {
    evidence::Evidence all;
    unsigned char serial = 0;
    for (const std::string& name : evidence::photo_names(survey)) {
        evidence::Photo photo;
        photo.name = name;
        photo.file = name + ".jpg";
        photo.refuse({});
        photo.size = 1000;
        photo.sha256.bytes[0] = ++serial;
        photo.width = 4000;
        photo.height = 3000;
        photo.facts.taken = LocalTime{survey.attendance.on, {(name.ends_with("-d") ? 12 : 9) * 3600}};
        photo.facts.flash = evidence::Flash{0x19};
        photo.facts.focal_35mm = 26;
        photo.facts.distance = Millimetres{90};
        photo.facts.camera = "Testcam One";
        all.add(photo);
    }
    return all;
}

std::vector<std::string> codes(const std::vector<Note>& notes) {
    std::vector<std::string> all;
    for (const Note& note : notes) all.push_back(note.code);
    return all;
}

/// Remarks after something was changed about the close photo of the way up.
std::vector<std::string> remarks_after(const std::function<void(evidence::Photo&)>& change,
                                       const trade::Trade& trade = the_trade()) {
    const survey::Survey survey = with(stay("s"), fitting("f", "light", "", "mast"));
    evidence::Evidence photos = good_photos(survey);
    change(
        *std::find_if(photos.photos.begin(), photos.photos.end(), [](const auto& one) { return one.name == "f-u"; }));
    return codes(completeness::check_completeness({survey, photos, trade}).remarks);
}

using Codes = std::vector<std::string>;

}  // namespace

TEST_CASE("good photos bring no remark") {
    CHECK(remarks_after([](evidence::Photo&) {}).empty());
}

TEST_CASE("each oddity of a photo is one remark") {
    CHECK(remarks_after([](auto& p) { p.facts.taken.reset(); }) == Codes{"no-camera-time"});
    CHECK(remarks_after([](auto& p) { p.facts.flash = evidence::Flash{0x10}; }) == Codes{"flash-off"});
    CHECK(remarks_after([](auto& p) { p.facts.flash.reset(); }) == Codes{"flash-not-recorded"});
    CHECK(remarks_after([](auto& p) { p.facts.distance = Millimetres{300}; }) == Codes{"scale-too-coarse"});
    CHECK(remarks_after([](auto& p) { p.facts.distance.reset(); }) == Codes{"scale-too-coarse"});
    CHECK(remarks_after([](auto& p) { p.facts.taken->time.seconds += 3600; }) == Codes{"outside-pass"});
    CHECK(remarks_after([](auto& p) { p.facts.taken->date.day = 2; }) == Codes{"outside-pass", "close-before-far"});
    CHECK(remarks_after([](auto& p) { p.facts.taken->time.seconds -= 60; }) == Codes{"close-before-far"});
    CHECK(remarks_after([](auto& p) { p.facts.changed = LocalTime{{2026, 10, 9}, {0}}; }) == Codes{"edited-later"});
    CHECK(remarks_after([](auto& p) {
              p.facts.camera = "Other";
              p.facts.taken->time.seconds += 14 * 60;
          }).empty());
    CHECK(remarks_after([](auto& p) {
              p.facts.camera = "Other";
              p.facts.taken->time.seconds += 20 * 60;
          }) == Codes{"outside-pass", "clocks-disagree"});
}

TEST_CASE(
    "a hairline of 0.1 mm needs 3 pixels: 96 mm at 26 mm focal length and 4000 pixels (photogrammetry, 3 px from "
    "memory)") {
    CHECK(remarks_after([](auto& p) { p.facts.distance = Millimetres{96}; }).empty());
    CHECK(remarks_after([](auto& p) { p.facts.distance = Millimetres{97}; }) == Codes{"scale-too-coarse"});
}

TEST_CASE("what counts as a hairline stands in one table, for remarks as for calculations") {
    trade::Trade own = the_trade();
    for (trade::Constant& constant : own.tables.constants)
        if (constant.id == "hairline") constant.value = 0.2;
    CHECK(remarks_after([](auto& p) { p.facts.distance = Millimetres{190}; }, own).empty());
    CHECK(remarks_after([](auto& p) { p.facts.distance = Millimetres{194}; }, own) == Codes{"scale-too-coarse"});
}

TEST_CASE("every requirement has a code of its own, and a fixture for each gap") {
    std::set<std::string> known;
    for (const auto* rows : {&completeness::gap_requirements(), &completeness::remark_requirements()})
        for (const auto& row : *rows) CHECK(known.insert(std::string(row.code)).second);
    for (const auto& row : completeness::gap_requirements())
        CHECK_MESSAGE(!text_of("fixtures/gaps/" + std::string(row.code) + "/survey.xml").empty(), row.code);
}

TEST_CASE("a sign aloft that bars climbing is told as seen from there, whoever went on above it") {
    const auto gaps_for = [](const std::string& later) {
        const std::string nest =
            "<fitting id=\"n\" kind=\"nest\" station=\"mast\" height=\"5 m\"><seen pass=\"up\" at=\"09:30\" far=\"F\" "
            "close=\"N\">" +
            sign("insects") + "</seen><seen pass=\"down\" at=\"12:00\"/></fitting>";
        const std::string light =
            "<fitting id=\"l\" kind=\"light\" station=\"masthead\" height=\"12 m\"><seen pass=\"up\" at=\"" + later +
            "\" far=\"F\" close=\"L\"/><seen pass=\"down\" at=\"11:00\"/></fitting>";
        const survey::Survey survey = with(stay("s"), nest + light);
        return codes(completeness::check_completeness({survey, good_photos(survey), the_trade()}).gaps);
    };
    const Codes after = gaps_for("09:40");
    CHECK(std::count(after.begin(), after.end(), "climbed-despite-bar") == 0);
    const Codes before = gaps_for("09:20");
    CHECK(std::count(before.begin(), before.end(), "climbed-despite-bar") == 0);
}

TEST_CASE("unstepped, the rules of climbing do not apply") {
    const survey::Survey survey =
        with(stay("s"), fitting("f", "chainplate", "s", "deck", sign("crack")) + fitting("g", "light", "", "mast"),
             "climbed=\"no\" because=\"on trestles\"");
    const Codes gaps = codes(completeness::check_completeness({survey, good_photos(survey), the_trade()}).gaps);
    CHECK(std::count(gaps.begin(), gaps.end(), "climbed-despite-bar") == 0);
}

TEST_CASE("a stay of the plan that is not there is a gap, for each and for what a choice must fill") {
    const auto missing = [](const std::string& rig, const std::string& stays, const std::string& choices = {}) {
        const std::string absent_or_not = replaced(sample::complete(), "rig=\"cat\"", "rig=\"" + rig + "\"");
        const survey::Survey survey =
            sample::read(replaced(absent_or_not, "<rig choices=\"shrouds=1\">",
                                  (choices.empty() ? "<rig>" : "<rig choices=\"" + choices + "\">") + stays));
        std::vector<std::string> whats;
        for (const Note& note : completeness::check_completeness({survey, {}, the_trade(), {}}).gaps)
            if (note.code == "stay-missing") whats.push_back(note.what);
        return whats;
    };
    const auto wire = [](const std::string& id, const std::string& role, const std::string& side) {
        return "<stay id=\"" + id + "\" role=\"" + role + "\" side=\"" + side +
               "\" make=\"1x19\" alloy=\"316\" diameter=\"8 mm\"/>";
    };
    CHECK(missing("cat", "").empty());
    const std::string head =
        wire("f", "forestay", "centre") + wire("cp", "cap-shroud", "port") + wire("cs", "cap-shroud", "starboard");
    CHECK(missing("masthead-sloop", head + wire("b", "backstay", "centre")).empty());
    CHECK(
        missing("masthead-sloop", head + wire("bp", "backstay", "port") + wire("bs", "backstay", "starboard")).empty());
    CHECK(missing("masthead-sloop", head + wire("bp", "backstay", "port")).size() == 1);
    CHECK(missing("masthead-sloop", head) ==
          Codes{"the rig plan \"masthead sloop\" has a backstay, the survey has not"});
    CHECK(missing("masthead-sloop", "").size() == 4);  // forestay, two caps, backstay; of the lowers one is absent
    CHECK(missing("masthead-sloop", head + wire("b", "backstay", "centre"), "spreaders=2").size() == 2);
}

TEST_CASE("hull numbers by 33 CFR 181.25 and ISO 10087") {
    CHECK(completeness::has_hin_form("GB-ABC00042-A3-99"));
    CHECK(completeness::has_hin_form("ABC00042A399"));
    CHECK(!completeness::has_hin_form("ABC0004OA399"));  // O is no digit and not allowed among letters
    CHECK(!completeness::has_hin_form("ABC00042M399"));  // months run from A to L
    CHECK(!completeness::has_hin_form("1234"));
}
