#include "survey/photo_lines.hpp"

#include <cmath>

#include "survey/sample.hpp"

using namespace rigdeed;
using namespace rigdeed::survey;
using sample::replaced;

namespace {

std::string problem_of(const std::string& from, const std::string& to) {
    const auto reading = read_survey(replaced(sample::text_of("fixtures/spellings/survey.xml"), from, to), "s.xml");
    CHECK(!reading.survey);
    REQUIRE(!reading.problems.empty());
    return reading.problems.front().what;
}

bool says(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

const std::string hole = R"(value="8.5 mm" from="C3" along="0.2 0.125 0.468 0.125")";
const std::string scale = R"(<scale photo="C3" length="5/16 in" of="shackle pin" along="0.25 0.5 0.5 0.5"/>)";

}  // namespace

TEST_CASE("lines on a photo are four numbers, or eight") {
    CHECK(read_photo_lines("0.1 0.2 0.3 0.4")->size() == 2);
    CHECK(read_photo_lines(" 0.1 0.2\n0.3 1.9  0 0 1 2 ")->size() == 4);
    for (const char* bad : {"", "0.1 0.2 0.3", "0.1 0.2 0.3 0.4 0.5", "0.1 0.2 0.1 0.2", "0.1 0.2 1.1 0.2", "0 2.1 0 1",
                            "-0.1 0 1 1", "nan 0 1 1", "1e-1 0 1 1", "0,1 0 1 1", "0 0 1 1 0 0 0 0", "a b c d"})
        CHECK_MESSAGE(!read_photo_lines(bad), bad);
}

TEST_CASE("a length is to the scale's as their lines are, an angle lies between two lines from where they meet") {
    const PhotoScale eight{0, "A", {{8}, "8 mm"}, "strand", {{0.1, 0.1}, {0.1, 0.3}}};
    CHECK(measured_length({{0.5, 0.5}, {0.8, 0.9}}, eight).value == doctest::Approx(20));
    CHECK(angle_between({{0.5, 0.5}, {0.9, 0.5}, {0.5, 0.5}, {0.5, 0.1}}).value == doctest::Approx(90));
    CHECK(angle_between({{0.5, 0.5}, {0.9, 0.5}, {0.5, 0.5}, {0.1, 0.5}}).value == doctest::Approx(180));
    for (int turned = 0; turned < 360; turned += 7)
        for (int apart = 1; apart < 180; apart += 13) {
            const auto at = [](int degrees) {
                const double radians = degrees * 3.14159265358979 / 180;
                return PhotoPoint{0.5 + 0.3 * std::cos(radians), 0.5 + 0.3 * std::sin(radians)};
            };
            const PhotoPoint middle{0.5, 0.5};
            CHECK(angle_between({middle, at(turned), middle, at(turned + apart)}).value == doctest::Approx(apart));
            CHECK(angle_between({middle, at(turned + apart), middle, at(turned)}).value == doctest::Approx(apart));
        }
}

TEST_CASE("shorter lines and fewer pixels are less certain") {
    const PhotoScale near{0, "A", {{8}, "8 mm"}, "strand", {{0.1, 0.1}, {0.1, 0.3}}};
    // Two pixels at each end of 200 and of 500: 8 mm / 200 px, a line of 20 mm.
    const double by_hand = 20 * std::hypot(2 * std::sqrt(2.0) / 500, 2 * std::sqrt(2.0) / 200);
    CHECK(uncertainty_of(20, {{0.5, 0.5}, {0.8, 0.9}}, &near, 1000) == doctest::Approx(by_hand));
    CHECK(uncertainty_of(20, {{0.5, 0.5}, {0.8, 0.9}}, &near, 500) == doctest::Approx(2 * by_hand));
    const PhotoLines legs{{0.5, 0.5}, {0.8, 0.9}, {0.5, 0.5}, {0.2, 0.9}};
    CHECK(uncertainty_of(70, legs, nullptr, 1000) ==
          doctest::Approx(2 * std::sqrt(2.0) / 500 * std::sqrt(2.0) * 57.29578));
}

TEST_CASE("what was measured on a photo follows from its lines, on a photo of the fitting that has a scale") {
    const Survey survey = sample::read(sample::text_of("fixtures/spellings/survey.xml"));
    REQUIRE(survey.photos.scale_of("C3") != nullptr);
    CHECK(survey.photos.scale_of("C3")->of == "shackle pin");
    CHECK(survey.photos.scale_of("F1") == nullptr);
    CHECK(says(problem_of(hole, R"(value="9.5 mm" from="C3" along="0.2 0.125 0.468 0.125")"), "does not follow"));
    CHECK(says(problem_of(hole, R"(value="8.5 mm" from="C1" along="0.2 0.125 0.468 0.125")"), "none of its photos"));
    CHECK(says(problem_of(hole, R"(value="8.5 mm" from="C3")"), "belong together"));
    CHECK(says(problem_of(hole, R"(value="8.5 mm" along="0.2 0.125 0.468 0.125")"), "belong together"));
    CHECK(
        says(problem_of(hole, R"(value="8.5 kN" from="C3" along="0.2 0.125 0.468 0.125")"), "only lengths and angles"));
    CHECK(says(problem_of(hole, R"(value="8.5 mm" from="C3" along="0.2 0.125 0.468 0.125 0 0 1 1")"), "two lines"));
    CHECK(says(problem_of(hole, R"(value="90°" from="C3" along="0.2 0.125 0.468 0.125")"), "one line"));
    CHECK(says(problem_of(hole, R"(value="8.5 mm" from="../C3" along="0.2 0.125 0.468 0.125")"), "leads out"));
    CHECK(says(problem_of(scale, ""), "without a scale"));
    CHECK(says(problem_of(scale, scale + scale), "a second scale"));
    CHECK(says(problem_of(R"(along="0.25 0.5 0.5 0.5"/>)", R"(along="0.25 0.5 0.5 0.5 0 0 1 1"/>)"), "two lines"));
    CHECK(says(problem_of(R"(length="5/16 in" of)", R"(length="8" of)"), "8"));
}
