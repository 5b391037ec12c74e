// The sealed paper that answers a report: made, opened, and what its signer could change of it.
#include <doctest/doctest.h>

#include <filesystem>
#include <map>

#include "base/error.hpp"
#include "base/file.hpp"
#include "command/describe_earlier.hpp"
#include "crypto/digest.hpp"
#include "evidence/sample_photo.hpp"
#include "follow_up.hpp"
#include "reopen/forger.hpp"
#include "reopen/issued_sample.hpp"
#include "reopen/reopen.hpp"
#include "temporary.hpp"
#include "verify/sample_report.hpp"

using namespace rigdeed;
using reopen::SealedReport;
using sample::carried_in;
using sample::replaced;
using sample::with_carried;
using verify::Content;
using works::Done;

namespace {

/// The fixture with one thing to renew and one to rectify.
const std::string& old_report() {
    static const std::string made = [] {
        const char* fixture = RIGDEED_SOURCE_DIR "/fixtures/complete/survey.xml";
        InspectOptions options;
        options.for_print = true;
        options.text = std::string(as_text(read_file(fixture, 1 << 20)));
        *options.text =
            replaced(*options.text, "close=\"C4\"/>", "close=\"C4\"><sign code=\"fibre-chafe\">Seen.</sign></seen>");
        *options.text =
            replaced(*options.text, "close=\"C3\"/>", "close=\"C3\"><sign code=\"corroded\">Seen.</sign></seen>");
        auto inspected = inspect(fixture, sample::the_trade(), options).inspected;
        IssueOptions issuing;
        issuing.issued_at = sample::autumn;
        issuing.signer = &sample::ann();
        return seal_report(lay_out(std::move(inspected), sample::the_trade(), issuing), issuing);
    }();
    return made;
}

years::Given given() {
    const SealedReport found = reopen::open_bytes(old_report(), {});
    return {{found.said->number, local_from_seconds(sample::autumn).date, found.sha256, found.verdict.signer->name,
             found.verdict.signer->fingerprint},
            {std::string(found.carried("survey.xml")), std::string(found.carried("issue.xml")), {}}};
}

/// Photos out of another fixture, two an item.
std::string works_text(const std::string& second) {
    const Reopened again = read_answered(given());
    std::string text =
        "<works-done xmlns=\"urn:rigdeed:works:1\" number=\"W-1\">\n  <report file=\"report.pdf\" "
        "number=\"F-1\" sha256=\"" +
        crypto::sha256(old_report()).hex() + "\"/>\n  <rigger name=\"Ann\"/>\n  <photos folder=\"photos\"/>\n";
    const std::vector<std::string> answers{
        "done=\"yes\" on=\"2026-10-04\" before=\"w1\" after=\"w2\"><renewed stay=\"shroud\" make=\"textile\" "
        "alloy=\"uhmwpe\" diameter=\"7 mm\"/>Renewed.",
        second};
    std::size_t i = 0;
    for (const record::Work& work : *again.record.made.works)
        text += "  <item number=\"" + std::to_string(work.item) + "\" " + answers.at(std::min<std::size_t>(i++, 1)) +
                "</item>\n";
    return text + "</works-done>\n";
}

constexpr const char* rectified = "done=\"yes\" on=\"2026-10-04\" before=\"w3\" after=\"w4\">Cleaned.";
constexpr const char* left = "done=\"no\" on=\"2026-10-04\">No time.";

std::filesystem::path folder_with_photos() {
    const std::filesystem::path folder = sample::temporary("follow-up");
    std::filesystem::create_directories(folder / "photos");
    for (int i = 1; i <= 4; ++i)
        write_file(folder / "photos" / ("w" + std::to_string(i) + ".jpg"),
                   as_text(sample::jpeg(800, 600, [&](int x, int y, unsigned char* pixel) {
                       pixel[0] = static_cast<unsigned char>(x / 4 + 20 * i);
                       pixel[1] = static_cast<unsigned char>(y / 4);
                       pixel[2] = static_cast<unsigned char>((x + y * i) / 8);
                   })));
    return folder;
}

std::string follow_up(const std::string& text, const trade::Trade& trade = sample::the_trade()) {
    const std::string file = (folder_with_photos() / "works.xml").string();
    auto [works, problems] = works::read_works(text, file);
    REQUIRE_MESSAGE(works, (problems.empty() ? "" : problems.front().what));
    InspectOptions options;
    options.for_print = true;
    options.on = Date{2026, 10, 5};
    auto inspected = inspect_works(text, std::move(*works), given(), options);
    for (const works::Gap& gap : inspected->conclusion.gaps)
        if (gap.code != "exchanged") FAIL_CHECK(gap.what);
    IssueOptions issuing;
    issuing.issued_at = sample::autumn + 2 * 24 * 3600;
    issuing.signer = &sample::ann();
    return seal_report(lay_out_works(std::move(inspected), trade, issuing), issuing);
}

SealedReport opened(const std::string& paper) {
    reopen::Opening opening;
    opening.trust.fingerprint = sample::ann().certificate().fingerprint;
    SealedReport found = reopen::open_bytes(paper, opening);
    sample::keep(paper, found.verdict);
    return found;
}

}  // namespace

TEST_CASE("a follow-up says what is done and what is open, and its pages can be made anew") {
    const SealedReport all = opened(follow_up(works_text(rectified)));
    CHECK(all.verdict.content == Content::agrees);
    CHECK(all.follow_up);
    REQUIRE(all.said);
    CHECK(all.said->number == "W-1");
    CHECK(all.said->yacht == "Plover");
    CHECK(all.said->surveyor == "Ann");
    REQUIRE(all.reported);
    CHECK(all.reported->answer == "works-done");
    CHECK(all.reported == all.judged);
    REQUIRE(all.since.size() == 1);
    CHECK(all.since.front().sha256 == crypto::sha256(old_report()));
    CHECK(all.carried("survey.xml").empty());
    const SealedReport half = opened(follow_up(works_text(left)));
    CHECK(half.reported->answer == "after-work");
    CHECK(half.verdict.content == Content::agrees);
}

TEST_CASE("a follow-up in each language can be made anew") {
    for (const char* language : {"de", "es", "fr"}) {
        CAPTURE(language);
        const SealedReport found = opened(follow_up(works_text(rectified), trade::load_trade({}, language)));
        CHECK(found.verdict.content == Content::agrees);
        CHECK(found.reported == found.judged);
    }
}

TEST_CASE("an item left out, a milder answer, a claim of another report: its signer cannot bring them through") {
    const std::string paper = follow_up(works_text(left));
    const std::string text = carried_in(paper, "works.xml"), record = carried_in(paper, "issue.xml");
    const auto differs = [](const std::string& forged) {
        const SealedReport found = opened(forged);
        CHECK(found.verdict.content == Content::differs);
        CHECK(found.verdict.exit_code() == ExitCode::not_as_issued);
    };
    const std::size_t at = text.rfind("  <item "), end = text.rfind("</works-done>");
    differs(with_carried(paper, "works.xml", text.substr(0, at) + text.substr(end)));
    differs(with_carried(paper, "works.xml", replaced(text, "done=\"no\"", "done=\"yes\"")));
    differs(with_carried(paper, "works.xml", replaced(text, crypto::sha256(old_report()).hex(), std::string(64, '1'))));
    differs(with_carried(paper, "works.xml", "<nothing/>"));
    differs(with_carried(paper, "issue.xml", replaced(record, "answer=\"after-work\"", "answer=\"works-done\"")));
    differs(
        with_carried(paper, "issue.xml", replaced(record, crypto::sha256(old_report()).hex(), std::string(64, '1'))));
    const std::string before = carried_in(paper, "before.xml");
    differs(with_carried(paper, "before.xml", replaced(before, "code=&quot;corroded&quot;", "code=&quot;algae&quot;")));
    differs(with_carried(paper, "before.xml", years::write_before({})));
}

TEST_CASE("a whole follow-up made on a report that never said so is told by that report") {
    const std::string paper = follow_up(works_text(rectified));
    const auto find = [&](const std::string& bytes) {
        const auto file = sample::temporary("follow-up-report.pdf");
        write_file(file, bytes);
        command::EarlierReports found = command::find_earlier(opened(paper), {file.string()});
        std::filesystem::remove(file);
        return found;
    };
    CHECK_FALSE(find(old_report()).fault());
    CHECK(find(old_report()).papers.front().state == command::EarlierFinding::State::same);
    std::string changed = old_report();
    changed[changed.size() / 2] ^= 1;
    CHECK(find(changed).fault());
    CHECK(find(sample::issued()).fault());
}

TEST_CASE("a report without a works list cannot be answered") {
    years::Given old = given();
    const std::string& record = old.carried.issue_record;
    const std::size_t at = record.find(" works=\"");
    std::string without = record.substr(0, at) + record.substr(record.find('"', at + 8) + 1);
    for (std::size_t work = without.find("  <work "); work != std::string::npos; work = without.find("  <work "))
        without.erase(work, without.find('\n', work) + 1 - work);
    old.carried.issue_record = without;
    CHECK_THROWS_AS((void)read_answered(old), Error);
}

TEST_CASE("a report of an incomplete survey cannot be answered: its list may lack what nobody looked at") {
    years::Given incomplete = given();
    incomplete.carried.issue_record = replaced(incomplete.carried.issue_record, "complete=\"yes\"", "complete=\"no\"");
    CHECK_THROWS_AS((void)read_answered(incomplete), Error);
    CHECK_NOTHROW((void)read_answered(given()));
}
