// A report against one made anew, object by object; and the record that makes it possible.
#include "verify/compare.hpp"

#include <doctest/doctest.h>

#include "base/hollow_jpeg.hpp"
#include "pipeline.hpp"
#include "reopen/issued_sample.hpp"
#include "verify/sample_report.hpp"

using namespace rigdeed;
using sample::replaced;
using verify::Content;

TEST_CASE("a page of another report is told by its number") {
    const std::string &one = sample::issued(), other = sample::issued_from("spellings");
    CHECK(verify::first_difference(one, one).empty());
    CHECK(verify::first_difference(one, other) == "page 1 does not say what the survey in the report says");
    CHECK_FALSE(verify::first_difference(one, "").empty());
    CHECK_FALSE(verify::first_difference(one, other.substr(1)).empty());
}

TEST_CASE("a content left open leaves the report as issued") {
    verify::Verdict verdict = verify::verify(sample::issued(), {sample::ann().certificate().fingerprint, {}});
    verify::leave_content_open(verdict, "it was made by another");
    CHECK(verdict.content == Content::not_compared);
    CHECK(verdict.exit_code() == ExitCode::done);
    CHECK(verdict.content_remark == "it was made by another");
}

TEST_CASE("the pictures of an intact report are told, those of another file not") {
    const std::string& issued = sample::issued();
    CHECK(verify::picture_contents(issued).size() > 4);
    CHECK(verify::verify(issued, {}).pictures == verify::picture_contents(issued));
    CHECK(verify::verify(issued + "\n", {}).pictures.empty());
    CHECK(verify::picture_contents("%PDF-1.7").empty());
}

TEST_CASE("an issue record reads back as it was written, and from nothing else") {
    InspectOptions options;
    options.for_print = true;
    const auto inspected =
        inspect(RIGDEED_SOURCE_DIR "/fixtures/worked/survey.xml", sample::the_trade(), options).inspected;
    record::Made made;
    made.program = "rigdeed & Co, \"1\"";
    made.build = sample::another_ann().certificate().fingerprint;
    made.templates = sample::ann().certificate().fingerprint;
    made.units = UnitSystem::both;
    made.language = "fr";
    made.replaces = record::Replaced{"2025-1", {2025, 2, 28}, made.templates, "a <stay> was \"wrong\""};
    made.date_typed = true;
    made.timestamp = false;
    made.concluded = record::Concluded{true, "after-work", false, {1, 2, 3, 4, 5}};
    made.works = {{1, survey::Verdict::renew, true, "Renew \"it\"", "worn & bent"},
                  {2, survey::Verdict::watch, false, "Look again", ""}};
    made.logo = inspected->evidence.photos.front().print;
    const std::string text = record::write_record(made, inspected->evidence);
    const auto again = record::read_record(text);
    REQUIRE(again);
    CHECK(again->made.replaces == made.replaces);
    CHECK(again->made.concluded == made.concluded);
    CHECK(again->made.works == made.works);
    CHECK(again->made.date_typed == made.date_typed);
    CHECK(again->made.timestamp == made.timestamp);
    CHECK(again->evidence.photos.size() == inspected->evidence.photos.size());
    CHECK(record::write_record(again->made, again->evidence) == text);
    CHECK(record::printed_pictures(*again).size() >= 2);
    CHECK_FALSE(record::read_record(""));
    for (const auto& [from, to] :
         {std::pair{"<issue ", "<issued "}, std::pair{"units=\"both\"", "units=\"other\""},
          std::pair{"language=\"fr\"", "language=\"xx\""}, std::pair{"2025-02-28", "2025-02-29"},
          std::pair{"state=\"usable\"", "state=\"good\""}, std::pair{"sha256=\"", "sha256=\"1"},
          std::pair{" bytes=\"", " bytes=\"x"}, std::pair{" print=\"", " print=\"0 "},
          std::pair{"<photo ", "<picture "}, std::pair{"verdicts=\"1 2", "verdicts=\"1"},
          std::pair{"climbing=\"free\"", "climbing=\"perhaps\""}, std::pair{"timestamp=\"no\"", "timestamp=\"none\""},
          std::pair{" print-sha256=\"", " print-sha256=\"0"}, std::pair{"complete=\"yes\" ", ""},
          std::pair{"works=\"2\"", "works=\"3\""}, std::pair{" works=\"2\"", ""}, std::pair{"item=\"1\"", "item=\"0\""},
          std::pair{"verdict=\"watch\"", "verdict=\"fine\""}, std::pair{"first=\"no\"", "first=\"perhaps\""}}) {
        CAPTURE(to);
        CHECK_FALSE(record::read_record(replaced(text, from, to)));
    }
}

TEST_CASE("a hollow picture names the one that it stands for, and is told from a real one") {
    const Digest digest = sample::ann().certificate().fingerprint;
    const Bytes hollow = hollow_jpeg(1000, 750, 3, digest);
    CHECK(is_hollow_jpeg(as_text(hollow)));
    CHECK(stands_for(as_text(hollow)) == digest);
    CHECK(is_hollow_jpeg(as_text(hollow_jpeg(1, 65535, 1, {}))));
    CHECK_FALSE(stands_for(as_text(hollow_jpeg(1, 65535, 1, {}))));
    CHECK_FALSE(is_hollow_jpeg(""));
    for (std::size_t size = 0; size < hollow.size(); ++size)
        CHECK_FALSE(is_hollow_jpeg(as_text(hollow).substr(0, size)));
}
