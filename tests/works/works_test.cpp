// Works that answer a report: what is missing in them, what they lift, and what a forger could try.
#include <doctest/doctest.h>

#include <cstdio>
#include <filesystem>
#include <random>

#include "base/error.hpp"
#include "base/file.hpp"
#include "base/text.hpp"
#include "crypto/digest.hpp"
#include "follow_up.hpp"
#include "reopen/forger.hpp"
#include "reopen/issued_sample.hpp"
#include "reopen/reopen.hpp"
#include "verify/sample_report.hpp"
#include "works/works.hpp"

using namespace rigdeed;
using sample::replaced;
using sample::with_carried;
using works::Done;
using works::Item;

namespace {

constexpr const char* fixture = RIGDEED_SOURCE_DIR "/fixtures/complete/survey.xml";

/// The fixture with a stay to renew, things to rectify and to watch.
std::string survey_text() {
    std::string text(as_text(read_file(fixture, 1 << 20)));
    const auto with = [&](const char* photo, const std::string& sign) {
        text = replaced(text, "close=\"" + std::string(photo) + "\"/>",
                        "close=\"" + std::string(photo) + "\"><sign code=\"" + sign + "\">Seen.</sign></seen>");
    };
    with("C3", "corroded");
    with("C4", "fibre-chafe");
    with("C5", "paint-bubbles");
    with("C2", "tail-loose");
    return text;
}

std::string issue_report() {
    InspectOptions options;
    options.for_print = true;
    options.text = survey_text();
    Inspection inspection = inspect(fixture, sample::the_trade(), options);
    REQUIRE_MESSAGE(inspection.inspected, (inspection.problems.empty() ? "" : inspection.problems.front().what));
    IssueOptions issuing;
    issuing.issued_at = sample::autumn;
    issuing.signer = &sample::ann();
    return seal_report(lay_out(std::move(inspection.inspected), sample::the_trade(), issuing), issuing);
}

const std::string& old_report() {
    static const std::string made = issue_report();
    return made;
}

years::Given given() {
    const reopen::SealedReport found = reopen::open_bytes(old_report(), {});
    REQUIRE(found.said);
    return {{found.said->number, local_from_seconds(sample::autumn).date, found.sha256, found.verdict.signer->name,
             found.verdict.signer->fingerprint},
            {std::string(found.carried("survey.xml")), std::string(found.carried("issue.xml")), {}}};
}

const Reopened& answered_report() {
    static const Reopened again = read_answered(given());
    return again;
}

works::Answered answered() {
    return answered_by(answered_report(), local_from_seconds(sample::autumn).date, Date{2026, 11, 20});
}

/// Every item done, with photos that nobody saw before.
works::WorksDone all_done() {
    works::WorksDone works = works::form_for(answered());
    works.file = "works.xml";
    works.number = "W-1";
    works.rigger = "Per Holm";
    works.report_sha256 = crypto::sha256(old_report());
    works.report_file = "report.pdf";
    for (Item& item : works.items) {
        item.done = Done::yes;
        item.on = Date{2026, 11, 4};
        item.words = "Done.";
        item.before = "b" + std::to_string(item.number);
        item.after = "a" + std::to_string(item.number);
    }
    return works;
}

evidence::Evidence photos_for(const works::WorksDone& works) {
    evidence::Evidence evidence;
    for (const std::string& name : works::photo_names(works)) {
        evidence::Photo photo;
        photo.name = photo.file = name;
        photo.state = evidence::State::usable;
        photo.trouble = {};
        photo.sha256 = crypto::sha256(name);
        photo.size = 1;
        evidence.add(std::move(photo));
    }
    return evidence;
}

works::Conclusion concluded_of(const works::WorksDone& works) {
    return works::conclude(works, answered(), photos_for(works));
}

int severity(const std::string& answer) {
    if (answer == "works-done") return 0;
    if (answer == "after-work") return 1;
    CHECK_MESSAGE((answer == "not-to-be-sailed" || answer == "found-worse"), answer);
    return 2;
}

bool has(const works::Conclusion& conclusion, const std::string& code) {
    for (const works::Gap& gap : conclusion.gaps)
        if (gap.code == code) return true;
    return false;
}

Item& item_of(works::WorksDone& works, survey::Verdict verdict) {
    for (Item& item : works.items)
        for (const record::Work& work : *answered().record.works)
            if (work.item == item.number && work.verdict == verdict) return item;
    throw std::logic_error("the sample has no such item");
}

}  // namespace

TEST_CASE("all done as asked: what the list barred is lifted, and nothing before") {
    const works::Conclusion all = concluded_of(all_done());
    REQUIRE_MESSAGE(all.complete(), (all.gaps.empty() ? "" : all.gaps.front().what));
    CHECK(all.answer == "works-done");
    CHECK_FALSE(all.do_not_climb);
    for (const std::size_t open : all.open) CHECK(open == 0);
    CHECK(answered().assessment.answer == assessment::Answer::not_to_be_sailed);
    CHECK(answered().assessment.do_not_climb);
    works::WorksDone none = all_done();
    none.items.clear();
    const works::Conclusion nothing = concluded_of(none);
    CHECK(nothing.answer == "not-to-be-sailed");
    CHECK(nothing.do_not_climb);
    CHECK(nothing.gaps.size() == answered().record.works->size());
}

TEST_CASE("one item to renew that is not done as asked keeps the rig in harbour, one to rectify asks for the work") {
    for (const Done done : {Done::otherwise, Done::no, Done::worse}) {
        CAPTURE(works::name_of(done));
        works::WorksDone works = all_done();
        item_of(works, survey::Verdict::renew).done = done;
        CHECK(severity(concluded_of(works).answer) == 2);
        CHECK(concluded_of(works).complete());
        works = all_done();
        item_of(works, survey::Verdict::rectify).done = done;
        CHECK(concluded_of(works).answer == (done == Done::worse ? "found-worse" : "after-work"));
    }
}

TEST_CASE("the bar to climbing is lifted by the items that come first, all of them") {
    for (const record::Work& work : *answered().record.works) {
        works::WorksDone works = all_done();
        for (Item& item : works.items)
            if (item.number == work.item) item.done = Done::no;
        CAPTURE(work.words);
        CHECK(concluded_of(works).do_not_climb == work.first);
    }
}

TEST_CASE("a worse answer never lifts more, whatever the others are") {
    std::mt19937 random(20261104);
    const std::vector<Done> worse_and_worse{Done::yes, Done::otherwise, Done::no, Done::worse};
    std::size_t harsher = 0;
    for (int round = 0; round < 400; ++round) {
        works::WorksDone works = all_done();
        for (Item& item : works.items) item.done = worse_and_worse[random() % 8 < 6 ? 0 : random() % 4];
        const std::size_t which = random() % works.items.size();
        int before = -1;
        bool barred = false;
        for (const Done done : worse_and_worse) {
            works.items[which].done = done;
            const works::Conclusion conclusion = concluded_of(works);
            CHECK(conclusion.complete());
            CHECK(severity(conclusion.answer) >= before);
            CHECK(conclusion.do_not_climb >= barred);
            harsher += before >= 0 && severity(conclusion.answer) > before ? 1U : 0U;
            before = severity(conclusion.answer);
            barred = conclusion.do_not_climb;
        }
        works.items.erase(works.items.begin() + static_cast<std::ptrdiff_t>(which));
        CHECK_FALSE(concluded_of(works).complete());
        CHECK(severity(concluded_of(works).answer) == 2);
    }
    CHECK(harsher > 100);
}

TEST_CASE("whatever is taken away from a done item is noticed, and closes nothing") {
    using Take = void (*)(Item&);
    const std::vector<std::pair<std::string, Take>> takes{{"no-pair", [](Item& item) { item.before.clear(); }},
                                                          {"no-pair", [](Item& item) { item.after.clear(); }},
                                                          {"no-day", [](Item& item) { item.on.reset(); }},
                                                          {"not-answered", [](Item& item) { item.done.reset(); }},
                                                          {"no-reason",
                                                           [](Item& item) {
                                                               item.done = Done::otherwise;
                                                               item.words.clear();
                                                           }},
                                                          {"other-words", [](Item& item) { item.asks = "Look at it"; }},
                                                          {"other-day",
                                                           [](Item& item) {
                                                               item.on = Date{2026, 10, 2};
                                                           }},
                                                          {"other-day",
                                                           [](Item& item) {
                                                               item.on = Date{2026, 11, 21};
                                                           }},
                                                          {"same-photo", [](Item& item) { item.after = item.before; }},
                                                          {"no-such-item", [](Item& item) { item.number = 999; }}};
    for (std::size_t i = 0; i < all_done().items.size(); ++i)
        for (const auto& [code, take] : takes) {
            works::WorksDone works = all_done();
            take(works.items[i]);
            CAPTURE(code);
            const works::Conclusion conclusion = concluded_of(works);
            CHECK(has(conclusion, code));
            CHECK_FALSE(conclusion.lines[i].closed);
            CHECK(conclusion.answer == "not-to-be-sailed");
        }
    works::WorksDone works = all_done();
    CHECK_FALSE(works::conclude(works, answered(), {}).complete());
    works.number.clear();
    CHECK(has(concluded_of(works), "no-number"));
    works = all_done();
    works.number = answered().survey.number;
    CHECK(has(concluded_of(works), "no-number"));
    works = all_done();
    works.rigger.clear();
    CHECK(has(concluded_of(works), "no-rigger"));
}

TEST_CASE("photos of after: not taken before those of before, and none of the report") {
    const works::WorksDone works = all_done();
    const Item& item = works.items.front();
    evidence::Evidence photos;
    for (evidence::Photo photo : photos_for(works).photos) {
        if (photo.name == item.before) photo.facts.taken = LocalTime{{2026, 11, 4}, {3600}};
        if (photo.name == item.after) photo.facts.taken = LocalTime{{2026, 11, 4}, {3599}};
        photos.add(std::move(photo));
    }
    CHECK(has(works::conclude(works, answered(), photos), "exchanged"));
    photos = {};
    for (evidence::Photo photo : photos_for(works).photos) {
        if (photo.name == item.after) photo.sha256 = answered().photos.find("C1")->sha256;
        photos.add(std::move(photo));
    }
    CHECK(has(works::conclude(works, answered(), photos), "old-photo"));
}

TEST_CASE("a renewed stay says its size, and is not weaker than it was unless a reason says so") {
    const auto with = [](auto change) {
        works::WorksDone works = all_done();
        for (Item& item : works.items)
            for (works::Renewed& renewed : item.renewed) change(renewed);
        return concluded_of(works);
    };
    works::WorksDone form = all_done();
    std::size_t renewed = 0;
    for (const Item& item : form.items) renewed += item.renewed.size();
    REQUIRE(renewed > 0);
    CHECK(has(with([](works::Renewed& one) { one.make.clear(); }), "no-size"));
    CHECK(has(with([](works::Renewed& one) { one.diameter.reset(); }), "no-size"));
    CHECK(has(with([](works::Renewed& one) { one.stay = "other"; }), "no-such-stay"));
    // The strength of a rope stay is not in our tables: as thick and of the same sort is as strong, all else is asked.
    const auto thickness = [](double millimetres, const char* because) {
        return [=](works::Renewed& one) {
            one.diameter = Length{{millimetres}, ""};
            one.because = because;
        };
    };
    CHECK(with(thickness(7, "")).complete());
    CHECK(with(thickness(8, "")).complete());
    CHECK(has(with(thickness(6.9, "")), "unknown-strength"));
    CHECK(with(thickness(6.9, "moved to a smaller mast")).complete());
}

TEST_CASE("a works file reads back as it was written, as a form in which every answer is open") {
    works::WorksDone form = works::form_for(answered());
    form.report_file = "report.pdf";
    form.report_sha256 = crypto::sha256(old_report());
    const works::Reading reading = works::read_works(works::write_works(form), "works.xml");
    REQUIRE_MESSAGE(reading.works, (reading.problems.empty() ? "" : reading.problems.front().what));
    CHECK(reading.works->items.size() == form.items.size());
    for (std::size_t i = 0; i < form.items.size(); ++i) {
        CHECK(reading.works->items[i].number == form.items[i].number);
        CHECK(reading.works->items[i].asks == form.items[i].asks);
        CHECK_FALSE(reading.works->items[i].done);
        CHECK(reading.works->items[i].renewed.size() == form.items[i].renewed.size());
    }
    CHECK(reading.works->report_sha256 == form.report_sha256);
    CHECK_FALSE(reading.works->open.empty());
    CHECK_FALSE(concluded_of(*reading.works).complete());
    CHECK(works::is_works_file(works::write_works(form)));
    CHECK_FALSE(works::is_works_file(survey_text()));
    CHECK_FALSE(works::is_works_file("<works-done"));
}

TEST_CASE("a works file that is wrong is told with its line") {
    const std::string head =
        "<works-done xmlns=\"urn:rigdeed:works:1\" number=\"W-1\">\n<report file=\"r.pdf\" "
        "number=\"F-1\" sha256=\"" +
        std::string(64, '0') + "\"/>\n<rigger name=\"Per\"/>\n<photos folder=\"photos\"/>\n";
    const auto first = [&](const std::string& rest) {
        const works::Reading reading = works::read_works(head + rest + "</works-done>", "w.xml");
        return reading.problems.empty() ? std::string()
                                        : reading.problems.front().at.text() + " " + reading.problems.front().what;
    };
    CHECK(first("<item number=\"1\" done=\"yes\" on=\"2026-11-04\">Done</item>").empty());
    CHECK(first("<item number=\"1\" done=\"maybe\">x</item>").starts_with("w.xml:5 "));
    CHECK(first("<item number=\"1\"/>\n<item number=\"1\"/>").starts_with("w.xml:6 <works-done>: a second <item"));
    CHECK(first("<item number=\"0\"/>").starts_with("w.xml:5 "));
    CHECK(first("<item done=\"no\">Why</item>").starts_with("w.xml:5 <item>: number is missing"));
    CHECK(first("<item number=\"1\" on=\"2026-02-30\"/>").starts_with("w.xml:5 "));
    CHECK(first("<thing/>").starts_with("w.xml:5 "));
    CHECK(first("<rigger name=\"Ola\"/>").starts_with("w.xml:5 <works-done>: a second <rigger>"));
    CHECK(first("<item number=\"1\"><renewed stay=\"a b\"/></item>").starts_with("w.xml:5 "));
    CHECK_FALSE(works::read_works("<works-done xmlns=\"urn:rigdeed:works:1\"/>", "w.xml").works);
    CHECK_FALSE(works::read_works("<rig-survey/>", "w.xml").works);
    CHECK_FALSE(works::read_works("<works-done", "w.xml").works);
}
