#include <doctest/doctest.h>

#include "evidence/sample_photo.hpp"
#include "report/composed.hpp"
#include "survey/temporary_survey.hpp"

using namespace rigdeed;

namespace {

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

/// The exhibits of a report, in order.
std::vector<document::Exhibit> exhibits_of(const sample::TemporarySurvey& survey, const trade::Trade& trade) {
    return sample::blocks_of<document::Exhibit>(sample::composed(survey.file(), trade).report);
}

std::string survey_of(const std::string& kind, const std::string& signs, const std::string& stays = "") {
    return "<rig-survey xmlns=\"urn:rigdeed:survey:1\" number=\"E\" purpose=\"periodic\"><surveyor name=\"S\"/><client "
           "name=\"C\" role=\"owner\"/>"
           "<yacht name=\"Y\" rig=\"cat\" mast=\"aluminium\" loa=\"9 m\"/><attendance on=\"2026-10-03\" place=\"P\" "
           "climbed=\"yes\"/><photos folder=\"photos\"/><rig>" +
           stays + "</rig><fittings><fitting id=\"f\" kind=\"" + kind +
           "\" station=\"mast\" height=\"8 m\"><seen pass=\"up\" at=\"09:00\" far=\"F\" close=\"C\">" + signs +
           "</seen><seen pass=\"down\" at=\"12:00\"/></fitting></fittings></rig-survey>";
}

sample::TemporarySurvey& with_photos(sample::TemporarySurvey& survey) {
    survey.photo("F", sample::marked_jpeg(640, 480));
    survey.photo("C", sample::marked_jpeg(800, 600));
    return survey;
}

}  // namespace

TEST_CASE("every mark on a close photo is ringed, and that of the worst sign is the one enlarged") {
    sample::TemporarySurvey survey(
        survey_of("wiring", "<sign code=\"chafed\" mark=\"0.3 0.3 0.1\"/><sign code=\"bare\" mark=\"0.7 0.4 0.05\"/>"));
    const auto exhibits = exhibits_of(with_photos(survey), the_trade());
    REQUIRE(exhibits.size() == 1);
    REQUIRE(exhibits[0].rings.size() == 2);
    CHECK(exhibits[0].rings[0].x == doctest::Approx(0.7));
    CHECK(exhibits[0].rings[1].x == doctest::Approx(0.3));
    REQUIRE(exhibits[0].detail);
    CHECK(exhibits[0].detail->width == 80);  // 2 x 0.05 of 800, each of the original pixels
    CHECK(exhibits[0].photos.size() == 2);
}

TEST_CASE(
    "a measure stands where it was taken: on the photo from end to end, on the drawing at its part, else in words") {
    const std::string on_photo = survey_of("mast-wall", "<sign code=\"dent\" mark=\"0.3 0.3 0.1\"/>");
    const std::string measures =
        "</seen><seen pass=\"down\" at=\"12:00\"/><measured what=\"dent-depth\" value=\"3 mm\" from=\"C\" "
        "along=\"0.2 0.3 0.4 0.3\"/><measured what=\"wall\" value=\"2.5 mm\"/><measured what=\"bow\" value=\"7 mm\"/>";
    std::string text = on_photo;
    const std::string down = "</seen><seen pass=\"down\" at=\"12:00\"/>";
    text.replace(text.find(down), down.size(), measures);
    text.replace(text.find("<photos folder=\"photos\"/>"), 25,
                 "<photos folder=\"photos\"><scale photo=\"C\" along=\"0.1 0.1 0.5 0.1\" length=\"6 mm\" of=\"a "
                 "rule\"/></photos>");
    sample::TemporarySurvey survey(text);
    const auto report = sample::composed(with_photos(survey).file(), the_trade()).report;
    const auto exhibits = sample::blocks_of<document::Exhibit>(report);
    REQUIRE(exhibits.size() == 1);
    REQUIRE(exhibits[0].pointers.size() == 1);
    CHECK(exhibits[0].pointers[0].photo == 1);
    CHECK(exhibits[0].pointers[0].to_x == doctest::Approx(0.4));
    CHECK(exhibits[0].pointers[0].words.find("3") == 0);
    REQUIRE(exhibits[0].schematic);
    std::string drawn, facts;
    for (const auto& item : exhibits[0].schematic->items)
        if (const auto* label = std::get_if<drawing::Label>(&item)) drawn += label->text + "|";
    for (const document::Facts& one : sample::blocks_of<document::Facts>(report))
        for (const document::Facts::Fact& fact : one.facts)
            for (const std::string& line : fact.lines) facts += line + "|";
    CHECK(drawn.find("2.5") != std::string::npos);
    CHECK(facts.find("2.5") == std::string::npos);
    CHECK(facts.find("7") != std::string::npos);  // of a bow nobody knows the one place
    CHECK(exhibits[0].schematic->alternative.find("wall thickness") != std::string::npos);
}

TEST_CASE("a mark of what is no finding is not ringed") {
    sample::TemporarySurvey survey(
        survey_of("light", "<sign code=\"algae\" mark=\"0.3 0.3 0.1\"/><sign code=\"loose\"/>"));
    const auto exhibits = exhibits_of(with_photos(survey), the_trade());
    REQUIRE(exhibits.size() == 1);
    CHECK(exhibits[0].rings.empty());
    CHECK(!exhibits[0].detail);
}

TEST_CASE("a kind of one's own whose drawing we have not keeps its photos, ring and enlargement") {
    trade::Trade own = the_trade();
    for (trade::Kind& kind : own.kinds)
        if (kind.id == "light") kind.schematic = "a-drawing-of-my-own";
    sample::TemporarySurvey survey(survey_of("light", "<sign code=\"loose\" mark=\"0.3 0.3 0.1\"/>"));
    const auto exhibits = exhibits_of(with_photos(survey), own);
    REQUIRE(exhibits.size() == 1);
    CHECK(exhibits[0].rings.size() == 1);
    CHECK(exhibits[0].detail);
    CHECK(exhibits[0].schematic);
}

TEST_CASE("a toggle that a stay is said to be without is drawn, with its place") {
    sample::TemporarySurvey survey(
        survey_of("light", "",
                  "<stay id=\"s\" role=\"cap-shroud\" side=\"port\" make=\"1x19\" alloy=\"316\" diameter=\"8 "
                  "mm\"><without fitting=\"toggle\" because=\"never had one\"/></stay>"));
    const auto exhibits = exhibits_of(with_photos(survey), the_trade());
    REQUIRE(exhibits.size() == 1);
    CHECK(exhibits[0].schematic);
    CHECK(exhibits[0].photos.empty());
    CHECK(!exhibits[0].where.items.empty());
}

TEST_CASE("a ring stands on the far photo where the survey says that the fitting is, and nowhere else") {
    const std::string plain = survey_of("light", "<sign code=\"loose\"/>");
    std::string ringed = plain;
    const auto at = ringed.find("far=\"F\"");
    REQUIRE(at != std::string::npos);
    ringed.insert(at, "on-far=\"0.25 0.5 0.1\" ");
    {
        sample::TemporarySurvey without(plain);
        const auto exhibits = exhibits_of(with_photos(without), the_trade());
        REQUIRE(exhibits.at(0).photos.size() == 2);
        for (const document::Picture& photo : exhibits[0].photos) CHECK(!photo.ring);
    }
    sample::TemporarySurvey with(ringed);
    const auto photos = exhibits_of(with_photos(with), the_trade()).at(0).photos;
    REQUIRE(photos.size() == 2);
    REQUIRE(photos[0].ring);
    CHECK(*photos[0].ring == survey::Mark{0.25, 0.5, 0.1});
    CHECK(!photos[1].ring);
}
