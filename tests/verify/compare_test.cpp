// Content against data: a report that its own signer sealed, but whose pages do not say what its survey says.
#include "verify/compare.hpp"

#include <doctest/doctest.h>

#include "base/build.hpp"
#include "pipeline.hpp"
#include "verify/sample_report.hpp"

using namespace rigdeed;
using sample::replaced;
using sample::resealed;
using verify::Content;

namespace {

constexpr std::int64_t autumn = 1'791'158'400;

const trade::Trade& the_trade() {
    static const trade::Trade trade = trade::load_trade();
    return trade;
}

TradeIn in_any_language(const trade::Trade& trade) {
    return [trade](const std::string&) { return trade; };
}

std::string issued(const std::string& fixture) {
    InspectOptions options;
    options.for_print = true;
    auto inspected = inspect(RIGDEED_SOURCE_DIR "/fixtures/" + fixture + "/survey.xml", the_trade(), options);
    const IssueOptions issuing{autumn, &sample::ann(), {}, {}};
    return seal_report(lay_out(std::move(inspected), the_trade(), issuing), issuing);
}

const std::string& complete() {
    static const std::string report = issued("complete");
    return report;
}

MadeAnew anew(const verify::Verdict& verdict) {
    std::string_view survey, record;
    for (const verify::CarriedFile& file : verdict.files) {
        if (file.name == "survey.xml") survey = as_text(file.bytes);
        if (file.name == "issue.xml") record = as_text(file.bytes);
    }
    return make_anew({survey, record, *verdict.signer, *verdict.claims.sealed_at}, in_any_language(the_trade()));
}

// As the program does it.
verify::Verdict judged(const std::string& report) {
    verify::Verdict verdict = verify::verify(report, {sample::ann().certificate().fingerprint, {}});
    CAPTURE(verdict.summary);
    CAPTURE(verdict.checks.back().what);
    REQUIRE(verdict.intact());
    const MadeAnew made = anew(verdict);
    if (!made.cannot.empty()) verify::leave_content_open(verdict, made.cannot);
    else verify::judge_content(verdict, verify::first_difference(report, made.pdf));
    return verdict;
}

}  // namespace

TEST_CASE("the pages of a report are those its own survey makes, whatever kind of survey") {
    for (const char* fixture : {"complete", "unstepped", "stopped", "spellings", "worked", "gaps/photo-missing",
                                "gaps/photo-unused", "gaps/photo-unreadable", "gaps/close-twice"}) {
        if (!std::filesystem::exists(std::string(RIGDEED_SOURCE_DIR "/fixtures/") + fixture)) continue;
        CAPTURE(fixture);
        const verify::Verdict verdict = judged(issued(fixture));
        CHECK(verdict.content == Content::agrees);
        CHECK(verdict.outcome == verify::Outcome::as_issued);
        CHECK(verdict.checks.back().passed);
    }
}

TEST_CASE("a report whose signer changed what it says is found by its own survey") {
    const std::string& good = complete();
    const auto next = [&](std::size_t at) { return good.find("R ", at) + 2; };
    const std::size_t kids = next(good.find("/Kids [ ")), first = next(kids), second = next(first);
    std::string turned = good;  // two pages exchanged
    turned.replace(kids, second - kids, good.substr(first, second - first) + good.substr(kids, first - kids));
    const std::string forgeries[]{resealed(replaced(good, "/Reason (Issue", "/Reason (Re-issue")),
                                  resealed(replaced(good, "/Border [ 0 0 0 ]", "/Border [ 0 0 9 ]")), resealed(turned)};
    for (const std::string& forged : forgeries) {
        const verify::Verdict verdict = judged(forged);
        CHECK(verdict.content == Content::differs);
        CHECK(verdict.outcome == verify::Outcome::not_as_issued);
        CHECK(verdict.reason == verify::Reason::content_differs);
        CHECK(verdict.exit_code() == ExitCode::not_as_issued);
        CHECK(verdict.files.empty());
        CHECK_FALSE(verdict.checks.back().passed);
    }
    CHECK(judged(forgeries[0]).summary == "title, author, date or place are not those of the survey in the report");
}

TEST_CASE("a page of another report is told by its number") {
    const std::string other = issued("spellings");
    CHECK(verify::first_difference(complete(), complete()).empty());
    CHECK(verify::first_difference(complete(), other) == "page 1 does not say what the survey in the report says");
    CHECK_FALSE(verify::first_difference(complete(), "").empty());
    CHECK_FALSE(verify::first_difference(complete(), other.substr(1)).empty());
}

TEST_CASE("another program or other templates leave the content open, and the report as issued") {
    verify::Verdict verdict = verify::verify(complete(), {sample::ann().certificate().fingerprint, {}});
    std::string record;
    for (const verify::CarriedFile& file : verdict.files)
        if (file.name == "issue.xml") record = as_text(file.bytes);
    trade::Trade own = the_trade();
    own.own_templates = "kinds/deck.xml";
    CHECK(make_anew({"", record, *verdict.signer, 0}, in_any_language(own)).cannot ==
          "it was made with other templates");
    const auto cannot = [&](const std::string& other_record) {
        return make_anew({"", other_record, *verdict.signer, 0}, in_any_language(own)).cannot;
    };
    const std::string here = "rigdeed " + std::string(version());
    CHECK(cannot(replaced(record, "program=\"rigdeed ", "program=\"rigdeed 9."))
              .starts_with("it was made by rigdeed 9."));
    CHECK(cannot(replaced(record, ", libharu ", ", libharu 9."))
              .starts_with("it was made by \"" + here + ", libharu 9."));
    CHECK(cannot(replaced(record, std::string(build_digest()), std::string(64, '0'))) ==
          "it was made by another build of " + here);
    CHECK(cannot(replaced(record, " build=\"" + std::string(build_digest()) + "\"", "")) ==
          "it was made by another build of " + here);
    CHECK(make_anew({"", "", *verdict.signer, 0}, in_any_language(own)).cannot ==
          "it carries no record of how it was made");
    CHECK(make_anew({"<no-survey/>", record, *verdict.signer, 0}, in_any_language(the_trade())).pdf.empty());
    verify::leave_content_open(verdict, "it was made with other templates");
    CHECK(verdict.content == Content::not_compared);
    CHECK(verdict.exit_code() == ExitCode::done);
}

TEST_CASE("an issue record reads back as it was written, and from nothing else") {
    InspectOptions options;
    options.for_print = true;
    const auto inspected = inspect(RIGDEED_SOURCE_DIR "/fixtures/worked/survey.xml", the_trade(), options);
    record::Made made{.program = "rigdeed & Co, \"1\"",
                      .build = sample::another_ann().certificate().fingerprint,
                      .templates = sample::ann().certificate().fingerprint,
                      .units = UnitSystem::both,
                      .paper = PaperSize::a4,
                      .language = "fr",
                      .replaces = {}};
    made.replaces = record::Replaced{"2025-1", {2025, 2, 28}, made.templates, "a <stay> was \"wrong\""};
    const std::string text = record::write_record(made, inspected->evidence);
    const auto again = record::read_record(text);
    REQUIRE(again);
    CHECK(again->made == made);
    CHECK(again->evidence.photos.size() == inspected->evidence.photos.size());
    CHECK(record::write_record(again->made, again->evidence) == text);
    CHECK_FALSE(record::read_record(""));
    for (const auto& [from, to] :
         {std::pair{"<issue ", "<issued "}, std::pair{"units=\"both\"", "units=\"other\""},
          std::pair{"language=\"fr\"", "language=\"xx\""}, std::pair{"2025-02-28", "2025-02-29"},
          std::pair{"state=\"usable\"", "state=\"good\""}, std::pair{"sha256=\"", "sha256=\"1"},
          std::pair{" bytes=\"", " bytes=\"x"}, std::pair{" print=\"", " print=\"0 "},
          std::pair{"<photo ", "<picture "}}) {
        CAPTURE(to);
        CHECK_FALSE(record::read_record(replaced(text, from, to)));
    }
}
