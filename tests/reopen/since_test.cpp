// Reports that compare with those before them: what travels in them, and what its signer could change of it.
#include <doctest/doctest.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>

#include "base/error.hpp"
#include "base/file.hpp"
#include "command/describe_earlier.hpp"
#include "command/predecessors.hpp"
#include "crypto/digest.hpp"
#include "pipeline.hpp"
#include "reopen/forger.hpp"
#include "reopen/issued_sample.hpp"
#include "reopen/pictures.hpp"
#include "reopen/reopen.hpp"
#include "survey/read_survey.hpp"
#include "temporary.hpp"
#include "verify/sample_report.hpp"

using namespace rigdeed;
using command::EarlierFinding;
using reopen::SealedReport;
using sample::carried_in;
using sample::replaced;
using sample::with_carried;
using verify::Content;

namespace {

constexpr const char* fixture = RIGDEED_SOURCE_DIR "/fixtures/complete/survey.xml";
constexpr std::int64_t a_year = 365 * 24 * 3600;

std::string text_of(const char* file) { return std::string(as_text(read_file(file, 1 << 20))); }

/// The fixture with a crack in its chainplate, as of the year before.
std::string last_year() {
    std::string text = replaced(text_of(fixture), "number=\"F-1\"", "number=\"F-0\"");
    text = replaced(text, "on=\"2026-10-03\"", "on=\"2025-10-03\"");
    return replaced(text, "far=\"F1\" close=\"C1\"/>",
                    "far=\"F1\" close=\"C1\"><sign code=\"crack\" where=\"pin hole\">A line.</sign></seen>");
}

std::string issue(const std::string& text, std::int64_t at, const command::Before* before,
                  const trade::Trade& trade = sample::the_trade()) {
    InspectOptions options;
    options.for_print = true;
    options.text = text;
    auto inspected = inspect(fixture, trade, options).inspected;
    REQUIRE(inspected);
    IssueOptions issuing;
    issuing.issued_at = at;
    issuing.signer = &sample::ann();
    if (before != nullptr) issuing.since = before->reports, issuing.earlier_picture = before->finder();
    return seal_report(lay_out(std::move(inspected), trade, issuing), issuing);
}

/// A file that is there as long as this.
struct OnDisk {
    explicit OnDisk(std::string_view bytes, const char* name) : path(sample::temporary(name).string()) {
        write_file(path, bytes);
    }
    OnDisk(const OnDisk&) = delete;
    OnDisk& operator=(const OnDisk&) = delete;
    ~OnDisk() { std::remove(path.c_str()); }
    std::string path;
};

const std::string& old_report() {
    static const std::string report = issue(last_year(), sample::autumn - a_year, nullptr);
    return report;
}

command::Before read(const std::string& file) {
    const auto survey = survey::read_survey(text_of(fixture), fixture).survey;
    return command::read_before({file}, *survey, false, sample::autumn, command::Terminal(true));
}

const std::string& new_report() {
    static const std::string report = [] {
        const OnDisk old(old_report(), "rigdeed-since-old.pdf");
        const command::Before before = read(old.path);
        return issue(text_of(fixture), sample::autumn, &before);
    }();
    return report;
}

SealedReport opened(const std::string& report) {
    reopen::Opening opening;
    opening.trust.fingerprint = sample::ann().certificate().fingerprint;
    SealedReport found = reopen::open_bytes(report, opening);
    sample::keep(report, found.verdict);
    return found;
}

command::EarlierReports earlier_of(const std::string& report, const std::string& old) {
    const OnDisk file(old, "rigdeed-since-named.pdf");
    return command::find_earlier(opened(report), {file.path});
}

}  // namespace

TEST_CASE("a report since another names it, carries what it said, shows its picture, and its pages can be made anew") {
    const SealedReport found = opened(new_report());
    CHECK(found.verdict.content == Content::agrees);
    REQUIRE(found.since.size() == 1);
    CHECK(found.since.front().number == "F-0");
    CHECK(found.since.front().sha256 == crypto::sha256(old_report()));
    CHECK(found.since.front().fingerprint == sample::ann().certificate().fingerprint);
    CHECK(found.carried("before.xml") == years::write_before({{last_year(), carried_in(old_report(), "issue.xml")}}));
    const auto then = reopen::pictures_in(old_report()), now = reopen::pictures_in(new_report());
    const auto record = record::read_record(found.carried("issue.xml"));
    REQUIRE(record);
    REQUIRE(record->made.earlier_photos.size() == 1);
    const record::EarlierPhoto& photo = record->made.earlier_photos.front();
    CHECK(photo.name == "C1");
    REQUIRE(then.contains(photo.sha256));
    REQUIRE(now.contains(photo.sha256));
    CHECK(then.at(photo.sha256) == now.at(photo.sha256));
}

TEST_CASE("a report that compares with none carries and says nothing of it") {
    CHECK(opened(sample::issued()).since.empty());
    CHECK(opened(sample::issued()).carried("before.xml").empty());
    CHECK(carried_in(sample::issued(), "issue.xml").find("<since") == std::string::npos);
}

TEST_CASE("the survey of before exchanged: the pages show it, and with pages made to match the old report does") {
    const std::string milder =
        replaced(carried_in(new_report(), "before.xml"), "code=&quot;crack&quot;", "code=&quot;algae&quot;");
    const SealedReport differing = opened(with_carried(new_report(), "before.xml", milder));
    CHECK(differing.verdict.content == Content::differs);
    CHECK(differing.verdict.exit_code() == ExitCode::not_as_issued);
    // Its own signer could make a whole report on a predecessor that never said so.
    const OnDisk old(old_report(), "rigdeed-since-forged.pdf");
    command::Before before = read(old.path);
    before.reports.front().carried.survey_file = replaced(last_year(), "code=\"crack\"", "code=\"algae\"");
    const std::string forged = issue(text_of(fixture), sample::autumn, &before);
    CHECK(opened(forged).verdict.content == Content::agrees);
    const command::EarlierReports told = earlier_of(forged, old_report());
    REQUIRE(told.papers.size() == 1);
    CHECK(told.papers.front().state == EarlierFinding::State::differs);
    CHECK(told.fault());
    const command::EarlierReports right = earlier_of(new_report(), old_report());
    CHECK(right.papers.front().state == EarlierFinding::State::same);
    CHECK_FALSE(right.fault());
}

TEST_CASE("the report of before exchanged, changed or left out is told") {
    std::string changed = old_report();
    changed[changed.size() / 2] ^= 1;
    for (const std::string& other : {changed, sample::issued()}) {
        const command::EarlierReports told = earlier_of(new_report(), other);
        CHECK(told.strangers.size() == 1);
        CHECK(told.papers.front().state == EarlierFinding::State::not_at_hand);
        CHECK(told.fault());
    }
    CHECK(command::find_earlier(opened(new_report()), {}).papers.front().state == EarlierFinding::State::not_at_hand);
    CHECK_FALSE(command::find_earlier(opened(new_report()), {}).fault());
    CHECK(earlier_of(sample::issued(), old_report()).fault());
    const std::string record = carried_in(new_report(), "issue.xml");
    const std::size_t at = record.find("  <since "), end = record.find('\n', at) + 1;
    for (const std::string& forged :
         {with_carried(new_report(), "issue.xml", record.substr(0, at) + record.substr(end)),
          with_carried(new_report(), "issue.xml", replaced(record, "number=\"F-0\"", "number=\"F-9\"")),
          with_carried(new_report(), "before.xml", years::write_before({})),
          with_carried(new_report(), "before.xml", "<nothing/>")})
        CHECK(opened(forged).verdict.content == Content::differs);
}

TEST_CASE("last time's picture exchanged for another is told") {
    const auto record = record::read_record(carried_in(new_report(), "issue.xml"));
    REQUIRE(record);
    const Digest wanted = record->made.earlier_photos.front().sha256;
    for (std::size_t number = 0;; ++number) {
        if (crypto::sha256(sample::picture_in(new_report(), number)) != wanted) continue;
        const std::string other = sample::picture_in(new_report(), number == 0 ? 1 : 0);
        CHECK(opened(sample::with_picture(new_report(), number, other)).verdict.content == Content::differs);
        break;
    }
}

TEST_CASE("what is no report of before is refused") {
    const auto survey = survey::read_survey(text_of(fixture), fixture).survey;
    const command::Terminal quiet(true);
    const auto refusal = [&](const std::string& report, std::int64_t moment, const survey::Survey& of) {
        const OnDisk file(report, "rigdeed-since-refused.pdf");
        try {
            (void)command::read_before({file.path}, of, false, moment, quiet);
        } catch (const Error& error) { return error.message; }
        return std::string();
    };
    std::string broken = old_report();
    broken[broken.size() / 3] ^= 1;
    CHECK(refusal(broken, sample::autumn, *survey).starts_with("the report of before is not as issued"));
    CHECK(refusal(old_report(), sample::autumn - 2 * a_year, *survey)
              .starts_with("the report of before was issued later"));
    survey::Survey other = *survey;
    other.yacht.hin = "GB-XYZ00001-A3-99";
    CHECK(refusal(old_report(), sample::autumn, other).starts_with("it is of another yacht"));
    CHECK(refusal(old_report(), sample::autumn, *survey).empty());
    const OnDisk file(old_report(), "rigdeed-since-twice.pdf");
    CHECK_THROWS_AS((void)command::read_before({file.path, file.path}, *survey, false, sample::autumn, quiet), Error);
}

TEST_CASE("one day for both surveys, or the wrong order, is refused when the report is made") {
    const OnDisk old(sample::issued(), "rigdeed-since-same-day.pdf");
    const command::Before before = read(old.path);
    CHECK_THROWS_AS((void)issue(text_of(fixture), sample::autumn, &before), Error);
}

TEST_CASE("what the survey of before left open is not called sound then") {
    const auto now = survey::read_survey(text_of(fixture), fixture).survey;
    const assessment::Assessment judged = assessment::assess(*now, sample::the_trade());
    // Its other pass was never made: a gap, and so no word of soundness.
    const std::string open = replaced(replaced(last_year(), "<seen pass=\"down\" at=\"11:36\"/>", ""), "F-0", "F-0");
    const record::Earlier paper{"F-0", Date{2025, 10, 5}, {}, "Ann", {}};
    const auto since =
        years::read_since({paper}, {{open, carried_in(old_report(), "issue.xml")}}, *now, judged, sample::the_trade());
    const auto whole = years::read_since({paper}, {{last_year(), carried_in(old_report(), "issue.xml")}}, *now, judged,
                                         sample::the_trade());
    const auto eye = [](const years::Since& all) {
        for (const assessment::FittingVerdict& one : all.last().assessment.fittings)
            if (one.fitting->id == "eye") return one.verdict;
        return survey::Verdict::renew;
    };
    CHECK(eye(*since) != survey::Verdict::sound);
    CHECK(eye(*whole) == survey::Verdict::sound);
}
