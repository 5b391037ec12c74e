#include <filesystem>
#include <random>

#include "survey/sample.hpp"
#include "survey/write_survey.hpp"

using namespace rigdeed;
using sample::replaced;

namespace {
Problems problems_of(const std::string& text) { return survey::read_survey(text, "s.xml").problems; }
Problem problem_after(const std::string& from, const std::string& to) {
    const Problems problems = problems_of(replaced(sample::complete(), from, to));
    REQUIRE_MESSAGE(problems.size() >= 1, to);
    return problems.front();
}
}  // namespace

TEST_CASE("a survey written is the survey read") {
    for (const auto& entry :
         std::filesystem::recursive_directory_iterator(std::string(RIGDEED_SOURCE_DIR) + "/fixtures")) {
        if (entry.path().filename() != "survey.xml") continue;
        CAPTURE(entry.path().string());
        const survey::Survey first =
            sample::read(sample::text_of(std::filesystem::relative(entry.path(), RIGDEED_SOURCE_DIR).string()));
        const std::string once = survey::write_survey(first);
        const survey::Survey second = sample::read(once);
        CHECK(survey::write_survey(second) == once);
        CHECK(second.fittings.size() == first.fittings.size());
        CHECK(second.number == first.number);
        CHECK(second.yacht.loa == first.yacht.loa);
        CHECK(second.photos.camera_clock == first.photos.camera_clock);
        for (std::size_t i = 0; i < first.fittings.size(); ++i) {
            CHECK(second.fittings[i].seen.size() == first.fittings[i].seen.size());
            CHECK(second.fittings[i].not_seen == first.fittings[i].not_seen);
            CHECK(second.fittings[i].height == first.fittings[i].height);
        }
    }
}

TEST_CASE("each field is read into its place") {
    const survey::Survey survey = sample::read(sample::text_of("fixtures/spellings/survey.xml"));
    CHECK(survey.yacht.loa.quantity.value == doctest::Approx(20.5 * 304.8));
    CHECK(survey.yacht.displacement->quantity.value == doctest::Approx(900));
    CHECK(survey.yacht.rm30->quantity.value == doctest::Approx(2100));
    CHECK(survey.yacht.relies_on_rig);
    CHECK(survey.photos.camera_clock == -3600);
    CHECK(survey.photos.others.at(0).name == "X1.jpg");
    CHECK(survey.stays.at(0).breaking_load->quantity.value == doctest::Approx(3900 * 0.0044482216152605));
    CHECK(survey.replaces == "F-1");
    CHECK(survey.attendance.on == Date{2026, 10, 3});
    CHECK(survey.fittings.at(2).verdict->is == survey::Verdict::watch);
    CHECK(survey.fittings.at(2).in(survey::Way::up)->close == "C3");
}

TEST_CASE("what is told of the rig from before is read, and written as it was") {
    const survey::Survey first = sample::read(sample::text_of("fixtures/spellings/survey.xml"));
    for (const survey::Survey& one : {first, sample::read(survey::write_survey(first))}) {
        CHECK(one.surveyor.indemnity == "500 000 a claim, until 2027-03");
        CHECK(one.attendance.standards == "common practice?");
        CHECK(one.history.sailed->quantity.value == doctest::Approx(4000 / 1.852));
        CHECK(one.history.statement == "never aground?");
        REQUIRE(one.history.surveys.size() == 1);
        CHECK(one.history.surveys.at(0).on.iso() == "2022");
        CHECK(one.history.surveys.at(0).by == "Cal Fenn");
        CHECK(one.history.surveys.at(0).number == "C-7");
        CHECK(one.history.surveys.at(0).left == "lights");
        REQUIRE(one.history.repairs.size() == 1);
        CHECK(one.history.repairs.at(0).done == "shroud renewed");
        REQUIRE(one.history.tensions.size() == 1);
        CHECK(one.history.tensions.at(0).stay == "shroud");
        CHECK(one.history.tensions.at(0).tension.quantity.value == doctest::Approx(120 * 0.00980665));
        CHECK(!one.photos.others.at(0).hull_number);
        CHECK(one.photos.others.at(1).hull_number);
    }
    CHECK(sample::read(sample::complete()).history.line == 0);
}

TEST_CASE("a history out of place, of a stay that is not there, or with more than it may hold is refused") {
    const auto with = [](const std::string& history, const std::string& before) {
        return replaced(sample::complete(), before, history + before);
    };
    CHECK(problems_of(with("<history statement=\"none\"/>", "<photos folder")).empty());
    CHECK(!problems_of(with("<history statement=\"none\"/>", "<rig choices")).empty());
    CHECK(!problems_of(with("<history/><history/>", "<photos folder")).empty());
    CHECK(!problems_of(with("<history><tension on=\"2024\" stay=\"none\" value=\"2 kN\"/></history>", "<photos folder"))
               .empty());
    CHECK(!problems_of(with("<history><repair on=\"2024\"/></history>", "<photos folder")).empty());
    std::string many;
    for (int i = 0; i < 501; ++i) many += "<survey on=\"2024\"/>";
    CHECK(!problems_of(with("<history>" + many + "</history>", "<photos folder")).empty());
}

TEST_CASE("what a rig has not, what one pass did not see and why somebody climbed on is read, and written as it was") {
    std::string text = sample::complete();
    text =
        replaced(text, "</rig>",
                 "<absent role=\"lower-shroud\" side=\"starboard\" because=\"one is enough\"/><absent kind=\"toggle\" "
                 "station=\"spreader-2\" mast=\"main\" because=\"none\"/></rig>");
    text = replaced(text, "<seen pass=\"down\" at=\"11:36\"/>",
                    "<not-seen pass=\"down\" reason=\"dark\"/><climbed despite=\"crack\" because=\"two halyards\"/>");
    text = replaced(text, "folder=\"photos\"", "folder=\"photos\" dated=\"2026-10-03 2026-10-04\" because=\"rain\"");
    text = replaced(text, "close=\"C1\"", "close=\"C1\" because=\"a long lens\"");
    const survey::Survey first = sample::read(text);
    const std::string once = survey::write_survey(first);
    for (const survey::Survey& one : {first, sample::read(once)}) {
        CHECK(one.choices->at("shrouds") == "1");
        REQUIRE(one.absent.size() == 9);
        CHECK(one.absent.at(7).role == "lower-shroud");
        CHECK(one.absent.at(7).side == survey::Side::starboard);
        CHECK(one.absent.at(8).station == "spreader-2");
        CHECK(one.fittings.at(2).not_seen_on(survey::Way::down)->reason == "dark");
        CHECK(one.fittings.at(2).not_seen_on(survey::Way::up) == nullptr);
        CHECK(one.fittings.at(2).climbed_despite.at(0).because == "two halyards");
        CHECK(one.photos.dated == std::vector<Date>{{2026, 10, 3}, {2026, 10, 4}});
        CHECK(one.fittings.at(0).seen.at(0).because == "a long lens");
    }
    for (const auto& [from, to] : std::vector<std::pair<std::string, std::string>>{
             {"shrouds=1", "shrouds"},
             {"2026-10-03 2026-10-04", "2026-10-03 later"},
             {" because=\"rain\"", ""},
             {"<not-seen pass=\"down\" reason=\"dark\"/>", "<not-seen pass=\"up\" reason=\"dark\"/>"},
             {"<absent kind=\"light\"", "<absent side=\"port\""},
             {"kind=\"toggle\" station", "kind=\"toggle\" stay=\"shroud\" station"}})
        CHECK(!problems_of(replaced(text, from, to)).empty());
}

TEST_CASE("a value with a question mark behind it is a proposal, a question mark alone a blank") {
    std::string text = replaced(sample::complete(), "loa=\"6.2 m\"", "loa=\"6.2 m ?\"");
    text = replaced(text, "diameter=\"7 mm\"", "diameter=\"7 mm?\"");
    text = replaced(text, "height=\"0.7 m\"", "height=\"0.7 m ?\"");
    text = replaced(text, "name=\"Ada Sorrel\"", "name=\"?\"");
    text = replaced(text, "name=\"Plover\"", "name=\"Why not?\"");
    const survey::Survey survey = sample::read(text);
    using Open = survey::Open;
    const std::vector<Open> open{{0, "surveyor", "name", ""},
                                 {0, "yacht", "loa", "6.2 m"},
                                 {0, "shroud", "diameter", "7 mm"},
                                 {0, "plate", "height", "0.7 m"}};
    CHECK(survey.open == open);
    CHECK(survey.yacht.name == "Why not?");
    CHECK(survey.yacht.loa.text == "6.2 m");
    CHECK(sample::read(survey::write_survey(survey)).open == open);
    CHECK(!problems_of(replaced(text, "on=\"2026-10-03\"", "on=\"?\"")).empty());
}

TEST_CASE("a mark is read as fractions of the photo's width") {
    const auto text = replaced(sample::complete(), "<seen pass=\"up\" at=\"09:00\" far=\"F1\" close=\"C1\"/>",
                               "<seen pass=\"up\" at=\"09:00\" far=\"F1\" close=\"C1\"><sign code=\"crack\" "
                               "mark=\"0.42 0.55 0.08\" count=\"2\" length=\"6 mm\">Two  fine\n lines.</sign></seen>");
    const survey::Survey survey = sample::read(text);
    const survey::Sign& sign = survey.fittings.at(0).seen.at(0).signs.at(0);
    CHECK(sign.mark == survey::Mark{0.42, 0.55, 0.08});
    CHECK(sign.count == 2);
    CHECK(sign.words == "Two fine lines.");
    for (const char* mark :
         {"0.42 0.55", "0.42,0.55,0.08", "1.4 0.5 0.1", "0.4 0.5 0", "a b c", "0.4 0.5 0.1 0.1", "-0.1 0.5 0.1"})
        CHECK(!problems_of(replaced(text, "0.42 0.55 0.08", mark)).empty());
}

TEST_CASE("wires are numbered 1 to 12, each once, and as many as were counted") {
    const auto text = replaced(sample::complete(), "<seen pass=\"up\" at=\"09:00\" far=\"F1\" close=\"C1\"/>",
                               "<seen pass=\"up\" at=\"09:00\" far=\"F1\" close=\"C1\"><sign code=\"crack\" "
                               "count=\"2\" wires=\"5 4\">two</sign></seen>");
    CHECK(sample::read(text).fittings.at(0).seen.at(0).signs.at(0).wires == std::vector<int>{4, 5});
    CHECK(sample::read(survey::write_survey(sample::read(text))).fittings.at(0).seen.at(0).signs.at(0).wires ==
          std::vector<int>{4, 5});
    for (const char* wires : {"0 4", "4 13", "4 4", "4,5", "four five", "", "-4 5", "4", "4 5 6"})
        CHECK_MESSAGE(!problems_of(replaced(text, "wires=\"5 4\"", "wires=\"" + std::string(wires) + "\"")).empty(),
                      wires);
}

TEST_CASE("a problem names line, value and what to write instead") {
    const Problem comma = problem_after("height=\"0.9 m\"", "height=\"0,9 m\"");
    CHECK(comma.at.text() == "s.xml:23");
    CHECK(comma.what ==
          "fitting \"lashing\": height \"0,9 m\" is not a length: the decimal sign is a point, not a comma");
    CHECK(comma.hint == "write \"0.9 m\"");
    CHECK(problem_after("mast=\"wood\"", "masd=\"wood\"").hint.find("mast") != std::string::npos);
    CHECK(problem_after("role=\"owner\"", "role=\"Owner\"").hint.find("buyer, owner") != std::string::npos);
}

TEST_CASE("all problems of a file come in one run, in the order of their lines") {
    auto text = replaced(sample::complete(), "loa=\"6.2 m\"", "loa=\"6.2\"");
    text = replaced(text, "at=\"09:04\"", "at=\"9.04\"");
    text = replaced(text, "id=\"rope\"", "id=\"Hound\"");
    text = replaced(text, "close=\"C1\"", "close=\"a\\b\"");
    const Problems problems = problems_of(text);
    CHECK(problems.size() == 4);
    for (std::size_t i = 1; i < problems.size(); ++i) CHECK(problems[i - 1].at.line <= problems[i].at.line);
}

TEST_CASE("ids that differ only in case are the same") {
    CHECK(problem_after("id=\"rope\"", "id=\"HOUND\"").what.find("stands already") != std::string::npos);
}

TEST_CASE("contradictions within a fitting are refused") {
    CHECK(problem_after("<seen pass=\"down\" at=\"11:36\"/>", "<seen pass=\"up\" at=\"11:36\"/>")
              .what.find("stands twice") != std::string::npos);
    CHECK(problem_after("<seen pass=\"down\" at=\"11:36\"/>", "<not-seen reason=\"x\"/>").what.find("contradict") !=
          std::string::npos);
    CHECK(problem_after("kind=\"thimble\" stay=\"shroud\"", "kind=\"thimble\" stay=\"shroud\" side=\"port\"")
              .what.find("side and stay") != std::string::npos);
    CHECK(problem_after("fitted=\"2024-04\"", "").what.find("belong together") != std::string::npos);
    CHECK(problem_after("climbed=\"yes\"", "climbed=\"stopped\"").what.find("because is missing") != std::string::npos);
}

TEST_CASE("numbers out of any sense are refused") {
    CHECK(problem_after("loa=\"6.2 m\"", "loa=\"6.2 mm\"").what.find("out of range") != std::string::npos);
    CHECK(problem_after("diameter=\"7 mm\"", "diameter=\"7 m\"").what.find("out of range") != std::string::npos);
    CHECK(problem_after("built=\"1999\"", "built=\"99\"").what.find("whole number") != std::string::npos);
}

TEST_CASE("photo names never lead out of the photo folder") {
    for (const char* name : {"../C2", "/C2", "a/../b", "a//b", "./a", "a/.", "..", "a\\b", "a/ b"})
        CHECK_MESSAGE(
            !problems_of(replaced(sample::complete(), "close=\"C2\"", "close=\"" + std::string(name) + "\"")).empty(),
            name);
    CHECK(problems_of(replaced(sample::complete(), "close=\"C2\"", "close=\"deck/C2\"")).empty());
}

TEST_CASE("cut anywhere, a survey is refused and nothing breaks") {
    const std::string text = sample::complete();
    for (std::size_t length = 0; length + 2 < text.size(); length += 7)
        CHECK(!problems_of(text.substr(0, length)).empty());
}

TEST_CASE("a survey with anything changed in it is refused, or reads back as it was written") {
    const std::string text = sample::text_of("fixtures/spellings/survey.xml");
    std::mt19937 random(20261003);
    const auto below = [&](std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
    std::size_t accepted = 0;
    for (int round = 0; round < 3000; ++round) {
        std::string changed = text;
        for (std::size_t k = below(3) + 1; k > 0; --k) {
            const std::size_t at = below(changed.size());
            switch (below(4)) {
                case 0: changed[at] = static_cast<char>(below(256)); break;
                case 1: changed.erase(at, below(20) + 1); break;
                case 2: changed.insert(at, text.substr(below(text.size()), below(40))); break;
                default: changed.insert(at, 1, "<>&\"'/= \0\xFF"[below(10)]); break;
            }
        }
        const auto reading = survey::read_survey(changed, "s.xml");
        CHECK(reading.survey.has_value() == reading.problems.empty());
        if (!reading.survey) continue;
        ++accepted;
        const std::string once = survey::write_survey(*reading.survey);
        CHECK(survey::write_survey(sample::read(once)) == once);
    }
    CHECK(accepted > 10);
}

TEST_CASE("more stays, fittings or photos than a rig has are not read") {
    std::string fittings, stays, others;
    for (int i = 0; i < 10001; ++i) {
        const std::string n = std::to_string(i);
        if (i < 5001) fittings += "<fitting id=\"f" + n + "\" kind=\"mast-step\" station=\"deck\" height=\"1 m\"/>";
        if (i < 1001) stays += sample::stay("s" + n);
        others += "<other name=\"o" + n + "\" shows=\"x\"/>";
    }
    const std::string text = sample::complete();
    const auto swollen = [&](const std::string& before, const std::string& more) {
        const Problems problems = problems_of(replaced(text, before, more + before));
        REQUIRE(problems.size() >= 1);
        return problems.front().what;
    };
    CHECK(swollen("</fittings>", fittings).find("<fitting>; 5000 are the most") != std::string::npos);
    CHECK(swollen("</rig>", stays).find("<stay>; 1000 are the most") != std::string::npos);
    const std::string photos = "<photos folder=\"photos\"";
    CHECK(problem_after(photos + "/>", photos + ">" + others + "</photos>").what ==
          "<photos>: it holds 10001 <other>; 10000 are the most");
}

TEST_CASE("an end of a stay stands once; what it is made of is read, with the gauge's table and the heel test") {
    const std::string text = sample::text_of("fixtures/spellings/survey.xml");
    const survey::Survey survey = sample::read(text);
    const survey::StayEnd* bottom = survey.stays.at(0).end(survey::EndAt::bottom);
    REQUIRE(bottom != nullptr);
    CHECK(bottom->terminal == "spliced-eye");
    CHECK(bottom->form == survey::Form::loop);
    CHECK(bottom->hand == survey::Hand::left);
    CHECK(bottom->pin->quantity.value == doctest::Approx(9.525));
    CHECK(bottom->toggle == false);
    CHECK(survey.stays.at(0).end(survey::EndAt::top)->form == survey::Form::eye);
    REQUIRE(survey.gauge.size() == 2);
    CHECK(survey.gauge.at(0).reading == 32.5);
    CHECK(survey.gauge.at(1).reading == -1);
    CHECK(survey.yacht.heel_angle->quantity.value == 2.5);
    const auto twice = survey::read_survey(sample::replaced(text, "<end at=\"top\"", "<end at=\"bottom\""), "s.xml");
    REQUIRE(twice.problems.size() == 1);
    CHECK(twice.problems.at(0).what.find("stands already in line") != std::string::npos);
}
