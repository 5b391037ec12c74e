// Contents against data: reports that their own signer sealed, but which do not say what their survey says. Each case
// is named for what was tried.
#include "reopen/reopen.hpp"

#include <doctest/doctest.h>

#include <csignal>

#include "base/build.hpp"
#include "base/resources.hpp"
#include "crypto/sample_authority.hpp"
#include "crypto/timestamp.hpp"
#include "reopen/facts.hpp"
#include "reopen/forger.hpp"
#include "reopen/issued_sample.hpp"
#include "verify/sample_report.hpp"

using namespace rigdeed;
using reopen::SealedReport;
using sample::carried_in;
using sample::issued;
using sample::replaced;
using sample::resealed;
using sample::with_carried;
using sample::with_picture;
using verify::Content;

namespace {

SealedReport opened(std::string_view report, bool compare = true) {
    reopen::Opening opening;
    opening.trust.fingerprint = sample::ann().certificate().fingerprint;
    opening.compare = compare;
    SealedReport found = reopen::open_bytes(report, opening);
    sample::keep(report, found.verdict);
    return found;
}

void check_differs(const std::string& report, std::string_view because) {
    const SealedReport found = opened(report);
    CHECK(found.verdict.content == Content::differs);
    CHECK(found.verdict.exit_code() == ExitCode::not_as_issued);
    CHECK(found.verdict.files.empty());
    CHECK(found.verdict.summary == because);
}

// The record with something else in it.
std::string with_record(std::string_view from, std::string_view to) {
    return with_carried(issued(), "issue.xml", replaced(carried_in(issued(), "issue.xml"), from, to));
}

trade::Trade with_own(const std::string& name, const std::string& text) {
    return trade::load_trade(trade::OwnTemplates{{{name, text, name}}, false});
}

Bytes token_for(const Digest& signature) {
    const auto request = crypto::make_timestamp_request(signature);
    return crypto::read_timestamp_response(as_text(sample::timestamp_answer(request.der)), request);
}

}  // namespace

TEST_CASE("the pages of a report are those its own survey makes, whatever kind of survey") {
    for (const char* fixture : {"complete", "unstepped", "stopped", "spellings", "worked", "gaps/photo-missing",
                                "gaps/photo-unused", "gaps/photo-unreadable"}) {
        CAPTURE(fixture);
        const SealedReport found = opened(sample::issued_from(fixture));
        CHECK(found.verdict.content == Content::agrees);
        CHECK(found.verdict.outcome == verify::Outcome::as_issued);
        REQUIRE(found.said);
        REQUIRE(found.reported);
        CHECK(found.reported == found.judged);
        CHECK(found.has_register);
        CHECK(found.own_rules.empty());
    }
    CHECK_FALSE(opened(sample::issued_from("gaps/photo-missing")).judged->complete);
    CHECK(opened(issued()).said->yacht == "Plover");
}

TEST_CASE("a report whose signer changed what it says is found by its own survey") {
    const std::string& good = issued();
    const auto next = [&](std::size_t at) { return good.find("R ", at) + 2; };
    const std::size_t kids = next(good.find("/Kids [ ")), first = next(kids), second = next(first);
    std::string turned = good;  // two pages exchanged
    turned.replace(kids, second - kids, good.substr(first, second - first) + good.substr(kids, first - kids));
    for (const std::string& forged :
         {resealed(replaced(good, "/Reason (Issue", "/Reason (Re-issue")),
          resealed(replaced(good, "/Border [ 0 0 0 ]", "/Border [ 0 0 9 ]")), resealed(turned)}) {
        const SealedReport found = opened(forged);
        CHECK(found.verdict.content == Content::differs);
        CHECK(found.verdict.reason == verify::Reason::content_differs);
        CHECK_FALSE(found.verdict.checks.back().passed);
    }
    check_differs(resealed(replaced(good, "/Reason (Issue", "/Reason (Re-issue")),
                  "title, author, date or place are not those of the survey in the report");
}

TEST_CASE("who signs cannot switch the comparison off: a record that rigdeed does not write differs") {
    constexpr auto no_record = "the record of how it was made is not one that rigdeed writes";
    check_differs(with_carried(issued(), "issue.xml", "<nothing/>"), no_record);
    check_differs(with_carried(issued(), "issue.xml", ""), no_record);
    CHECK(opened(with_carried(issued(), "issue.xml", "")).verdict.content == Content::differs);
    check_differs(with_record("<photo ", "<photo  "), no_record);
    check_differs(with_record("paper=\"a4\"", "paper=\"a4\" answer=\"\""), no_record);
    check_differs(with_record(" templates=\"", " template=\""), no_record);
}

TEST_CASE("who signs cannot switch the comparison off: a seal without a date is no seal") {
    const std::size_t at = issued().find("/M (D:");
    REQUIRE(at != std::string::npos);
    const SealedReport found = opened(resealed(replaced(issued(), issued().substr(at, 12), "/M (D:2O26-1")));
    CHECK(found.verdict.outcome == verify::Outcome::not_as_issued);
    CHECK(found.verdict.checks.back().what == "the seal does not say when it was made");
}

TEST_CASE("another program leaves the content open, says whose it is, and judges the survey all the same") {
    const std::string here = "rigdeed " + std::string(version());
    const SealedReport other = opened(with_record("program=\"rigdeed ", "program=\"rigdeed 9."));
    CHECK(other.verdict.outcome == verify::Outcome::as_issued);
    CHECK(other.verdict.content == Content::not_compared);
    CHECK(other.verdict.content_remark.starts_with("it was made by rigdeed 9."));
    REQUIRE(other.judged);
    CHECK(other.judged == other.reported);
    CHECK(opened(with_record(", libharu ", ", libharu 9."))
              .verdict.content_remark.starts_with("it was made by \"" + here));
    CHECK(opened(with_record(std::string(build_digest()), std::string(64, '0'))).verdict.content_remark ==
          "it was made by another build of " + here);
}

TEST_CASE("a record that leaves out what its version writes, or says more, is none of ours") {
    const std::string record = carried_in(issued(), "issue.xml");
    const auto refuse = [](const std::string& changed) {
        check_differs(with_carried(issued(), "issue.xml", changed),
                      "the record of how it was made is not one that rigdeed writes");
    };
    for (const char* name : {"build", "dated", "timestamp", "answer", "works"}) {
        CAPTURE(name);
        const std::size_t at = record.find(" " + std::string(name) + "=\"");
        REQUIRE(at != std::string::npos);
        std::string less = record;
        less.erase(at, record.find('"', record.find('"', at) + 1) + 1 - at);
        refuse(less);
    }
    refuse(replaced(record, "program=\"rigdeed " + std::string(version()), "program=\"rigdeed 0.1.0"));
}

TEST_CASE("a verdict told otherwise than by the rules of this program is told beside the report's") {
    std::string record = replaced(carried_in(issued(), "issue.xml"), std::string(build_digest()), std::string(64, '0'));
    const std::size_t at = record.find(" answer=\"");
    record.replace(at, record.find('"', at + 9) + 1 - at, " answer=\"not-to-be-sailed\"");
    const SealedReport found = opened(with_carried(issued(), "issue.xml", record));
    REQUIRE(found.judged);
    CHECK(found.reported->answer == "not-to-be-sailed");
    CHECK(found.judged->answer == "nothing-found");
}

TEST_CASE("a survey that is none makes a report that differs, or cannot be judged") {
    CHECK(opened(with_carried(issued(), "survey.xml", "<no-survey/>")).verdict.content == Content::differs);
    const std::string other = with_record(std::string(build_digest()), std::string(64, '0'));
    const SealedReport found = opened(with_carried(other, "survey.xml", "garbage"));
    CHECK_FALSE(found.said);
    CHECK(found.not_judged.starts_with("the survey that it carries cannot be read"));
}

TEST_CASE("a printed photo replaced by another picture, or by bytes that are none, differs") {
    constexpr auto another = "a picture in it is not the one that its record names";
    check_differs(with_picture(issued(), 0, "no picture"), another);
    check_differs(with_picture(issued(), 0, sample::picture_in(issued(), 1) + " "), another);
    // Two of one size exchanged: each is named, but stands elsewhere.
    const std::string first = sample::picture_in(issued(), 0), second = sample::picture_in(issued(), 1);
    REQUIRE(first != second);
    check_differs(with_picture(with_picture(issued(), 0, second), 1, first), another);
    // Also where the pages cannot be made anew, and with --seal-only.
    const std::string other = with_record(std::string(build_digest()), std::string(64, '0'));
    check_differs(with_picture(other, 0, "no picture"), another);
    CHECK(opened(with_picture(other, 0, "no picture"), false).verdict.content == Content::differs);
}

TEST_CASE("a letterhead travels in the report and is no rule") {
    const trade::Trade own = with_own(
        "look/letterhead.xml",
        "<letterhead xmlns=\"urn:rigdeed:letterhead:1\" firm=\"Seile &amp; Tau\"><line>Kai 4</line></letterhead>\n");
    const std::string report = sample::issued_from("complete", own);
    const SealedReport found = opened(report);
    CHECK(found.verdict.content == Content::agrees);
    CHECK(found.own_rules.empty());
    CHECK(found.carried("templates.xml").find("Seile &amp;amp; Tau") != std::string_view::npos);
    const std::string carried = carried_in(report, "templates.xml");
    CHECK(opened(with_carried(report, "templates.xml", replaced(carried, "Kai 4", "Kai 5"))).verdict.content ==
          Content::differs);
    check_differs(with_carried(report, "templates.xml", "<none/>"), "the templates that it carries cannot be read");
}

TEST_CASE("own rules are said, with what comes off milder, and the program's rules are told beside them") {
    std::string deck(resource("tables/intervals.xml"));
    const SealedReport same = opened(sample::issued_from("worked", with_own("tables/intervals.xml", deck)));
    CHECK(same.own_rules == std::vector<std::string>{"tables/intervals.xml"});
    CHECK(same.softened.empty());
    CHECK(same.verdict.content == Content::agrees);
    trade::OwnTemplates mild;
    for (const Resource& one : resources())
        if (one.name.starts_with("kinds/")) {
            std::string text(one.bytes);
            for (const char* verdict : {"verdict=\"renew\"", "verdict=\"rectify\"", "verdict=\"watch\""})
                for (std::size_t at = text.find(verdict); at != std::string::npos; at = text.find(verdict))
                    text.replace(at, std::string_view(verdict).size(), "verdict=\"sound\"");
            mild.files.push_back({std::string(one.name), text, std::string(one.name)});
        }
    const SealedReport found = opened(sample::issued_from("worked", trade::load_trade(mild)));
    CHECK(found.verdict.content == Content::agrees);
    CHECK(found.own_rules.size() == mild.files.size());
    CHECK_FALSE(found.softened.empty());
    REQUIRE(found.judged);
    CHECK(found.judged != found.reported);
}

TEST_CASE("own words cannot take away what a report says of own rules, gaps and the seal") {
    std::string words(resource("wording/en.xml"));
    const std::string said(sample::the_trade().wording("own-rules.title"));
    const trade::Trade own = with_own("wording/en.xml", replaced(words, said, "Rules unchanged"));
    CHECK(own.wording("own-rules.title") == said);
    CHECK(opened(sample::issued_from("complete", own)).own_rules == std::vector<std::string>{"wording/en.xml"});
}

TEST_CASE("a timestamp added or taken out by a stranger is noticed") {
    const std::string with = sample::issued_from("complete", sample::the_trade(), token_for);
    const SealedReport good = opened(with);
    CHECK(good.verdict.content == Content::agrees);
    REQUIRE(good.verdict.timestamp);
    const SealedReport without = opened(sample::without_timestamp(with));
    CHECK(without.verdict.reason == verify::Reason::timestamp_changed);
    CHECK(without.verdict.summary == "the timestamp that it was sealed with was taken out");
    const SealedReport added = opened(sample::with_timestamp(issued(), token_for));
    CHECK(added.verdict.reason == verify::Reason::timestamp_changed);
    CHECK(added.verdict.summary == "it has a timestamp that it was not sealed with");
    CHECK(added.verdict.exit_code() == ExitCode::not_as_issued);
}

TEST_CASE("a server that gives no timestamp leaves a report that says it has none") {
    const SealedReport found =
        opened(sample::issued_from("complete", sample::the_trade(), [](const Digest&) { return Bytes(); }));
    CHECK(found.verdict.content == Content::agrees);
    CHECK_FALSE(found.verdict.timestamp);
}

TEST_CASE("hostile records, registers and surveys do no harm outside the child") {
    std::string deep, wide = "<photo-register";
    for (int i = 0; i < 200'000; ++i) deep += "<a>", wide += " a" + std::to_string(i) + "=\"\"";
    deep = "<!-->" + deep + "-->";
    for (const char* name : {"issue.xml", "photos.xml", "survey.xml"})
        for (const std::string& hostile : {deep, wide + "/>", std::string("<?xml version=\"1.0\" encoding=?><a/>")}) {
            CAPTURE(name);
            const SealedReport found = opened(with_carried(issued(), name, hostile));
            CHECK(found.verdict.outcome != verify::Outcome::as_issued);
        }
}

TEST_CASE("facts read back as they were written, and from nothing else") {
    const SealedReport found = opened(sample::issued_from("worked"));
    const std::string bytes = reopen::write_facts(found);
    SealedReport again;
    CHECK(reopen::read_facts(bytes, again));
    CHECK(reopen::write_facts(again) == bytes);
    for (std::size_t size = 0; size < bytes.size(); ++size) {
        SealedReport part;
        REQUIRE_FALSE(reopen::read_facts(std::string_view(bytes).substr(0, size), part));
    }
    SealedReport longer;
    CHECK_FALSE(reopen::read_facts(bytes + '\0', longer));
}

TEST_CASE("what is carried in a report that is not as issued comes out only if it is wanted so") {
    const std::string altered = issued() + "\n";
    CHECK(opened(altered).verdict.files.empty());
    reopen::Opening opening;
    opening.carried_unverified = true;
    const std::string forged = resealed(replaced(issued(), "/Reason (Issue", "/Reason (Re-issue"));
    CHECK(reopen::open_bytes(forged, opening).verdict.files.size() == 3);
    CHECK(reopen::open_bytes(forged, opening).verdict.outcome == verify::Outcome::not_as_issued);
}
